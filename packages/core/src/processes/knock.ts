/** Autoignition of the unburned gas: delay, its integral, and the octane number that just survives a cycle. */
import { STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';

const OCTANE_POWER = 3.402;

/**
 * Autoignition delay [s]: 17.68 ms (ON / 100)^3.402 (p / 1 atm)^-1.7 exp(3800 K / T).
 *
 * Source: Douaud and Eyzat, SAE 780080 (1978), as given by Heywood, Internal Combustion Engine Fundamentals (1988),
 * eq. 9.61 (from memory). Found from engine traces with octane numbers of 80 to 100, unburned gas of about 10 to 60 atm
 * and 650 to 1000 K. No inner check of the arguments: it runs at every step.
 *
 * @param p - pressure [Pa]
 * @param T - temperature of the unburned gas [K]
 * @param octane - octane number [-], see {@link octaneIndex}
 */
export function autoignitionDelay(p: number, T: number, octane: number): number {
  return 17.68e-3 * (octane / 100) ** OCTANE_POWER * (p / STANDARD_ATMOSPHERE) ** -1.7 * Math.exp(3800 / T);
}

/**
 * Rate at which unburned gas of octane number 100 uses up its delay [1/s]: the reciprocal of
 * {@link autoignitionDelay}. Its integral over time reaches one when the gas ignites by itself (Livengood and Wu,
 * Symposium on Combustion 5 (1955) 347). Octane factors out of the integral, so this one serves all fuels.
 */
export function knockRate(p: number, T: number): number {
  return ((p / STANDARD_ATMOSPHERE) ** 1.7 * Math.exp(-3800 / T)) / 17.68e-3;
}

/**
 * Octane number at which the integral of a cycle just reaches one at the end of the burn [-].
 *
 * @param integral - {@link knockRate} integrated over time while unburned gas remains [-]
 */
export function octaneRequired(integral: number): number {
  if (!(integral >= 0 && integral < Number.POSITIVE_INFINITY)) {
    throw new DomainError('integral', integral, 'zero or positive');
  }
  return 100 * integral ** (1 / OCTANE_POWER);
}

/**
 * Share of the motor method in the octane number of an engine [-]: a half gives the antiknock index, (R + M) / 2.
 *
 * The delay was fitted to primary reference fuels, whose two octane numbers are equal by definition. A real fuel lies
 * in between: OI = RON - K (RON - MON) (Kalghatgi, SAE 2001-01-3584). K is about a half where the charge is warm, as
 * behind a carburetor at full throttle; cool-running, high-compression engines are nearer to zero.
 */
export const MOTOR_METHOD_SHARE = 0.5;

/** Octane number that stands for a fuel in the delay [-]: RON - K (RON - MON). */
export function octaneIndex(ron: number, mon: number, motorMethodShare: number = MOTOR_METHOD_SHARE): number {
  if (!(ron > 0)) throw new DomainError('ron', ron, 'positive');
  if (!(mon > 0)) throw new DomainError('mon', mon, 'positive');
  if (!Number.isFinite(motorMethodShare))
    throw new DomainError('motorMethodShare', motorMethodShare, 'finite');
  return ron - motorMethodShare * (ron - mon);
}
