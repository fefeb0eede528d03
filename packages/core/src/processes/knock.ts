/** Autoignition of the unburned gas: delay, its integral, and the octane number that just survives a cycle. */
import { STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';

/** Constants of {@link autoignitionDelay}: of the octane number, of pressure [-], of temperature [K], and the delay they multiply [s]. */
const OCTANE_POWER = 3.402;
const PRESSURE_POWER = 1.7;
const ACTIVATION = 3800;
const DELAY = 17.68e-3;

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
  return (
    DELAY *
    (octane / 100) ** OCTANE_POWER *
    (p / STANDARD_ATMOSPHERE) ** -PRESSURE_POWER *
    Math.exp(ACTIVATION / T)
  );
}

/**
 * Rate at which unburned gas of octane number 100 uses up its delay [1/s]: the reciprocal of
 * {@link autoignitionDelay}. Its integral over time reaches one when the gas ignites by itself (Livengood and Wu,
 * Symposium on Combustion 5 (1955) 347). Octane factors out of the integral, so this one serves all fuels.
 */
export function knockRate(p: number, T: number): number {
  return ((p / STANDARD_ATMOSPHERE) ** PRESSURE_POWER * Math.exp(-ACTIVATION / T)) / DELAY;
}

/**
 * Share of the unburned gas that takes no part in burning on the standard engine, by the mole, where octane numbers are defined [-]: residual
 * and the water of its air. As the program runs it, 0.084 to 0.096 by the research method from 100 to 80, and 0.090 to 0.109 by the motor method.
 */
export const RATING_DILUENT = 0.09;

/** Power of the share of gas that can burn in {@link dilutionGain}: a tenth of it is 3 % of the octane number. */
const DILUTION_POWER = Math.log(1.03) / -Math.log(1 - 0.1);

/** Least share of gas that can burn at which {@link dilutionGain} is asked for [-]; beyond it stays. */
const LEAST_FRESH = 0.6;

/**
 * Octane number that a fuel is worth in diluted gas over its own [-]: what neither burns nor feeds a burn lengthens the delay.
 * {@link autoignitionDelay} knows nothing of it.
 *
 * Source: Hoepke, Jannsen, Kasseris and Cheng, SAE 2012-01-0707, abstract: in an integral of Livengood and Wu, ten points more of recirculated
 * exhaust count as 3 % more of effective octane number, beside the slower burn; one engine, 1500 to 2500 rpm. Counted from the
 * {@link RATING_DILUENT} of the standard engine, in whose gas a fuel is worth what it is rated.
 *
 * @param diluent - moles that take no part over all moles of unburned gas [-]
 */
export function dilutionGain(diluent: number): number {
  if (!(diluent >= 0 && diluent <= 1)) throw new DomainError('diluent', diluent, 'in [0, 1]');
  return ((1 - RATING_DILUENT) / Math.max(1 - diluent, LEAST_FRESH)) ** DILUTION_POWER;
}

/**
 * Octane number of the reference fuel at which the integral of a cycle just reaches one where the standard engine knocks [-].
 *
 * @param integral - {@link knockRate} integrated over time while unburned gas remains [-]
 * @param diluent - moles that take no part in burning over all moles of that gas [-], see {@link dilutionGain}
 */
export function octaneRequired(integral: number, diluent: number = RATING_DILUENT): number {
  if (!(integral >= 0 && integral < Number.POSITIVE_INFINITY)) {
    throw new DomainError('integral', integral, 'zero or positive');
  }
  return (100 * integral ** (1 / OCTANE_POWER)) / dilutionGain(diluent);
}

/**
 * Octane numbers from the standard engine's knock to knock that can just be heard [-]: an engine is timed to the second, and needs a
 * fuel so much better than one that knocks in it as the reference fuel does there.
 *
 * On the standard engine the knockmeter falls from its 50 units to 1.4 while the spark is set back from 13 to 8 deg (Pal et
 * al., SAE 2018-01-0187, fig. 1), and 12 to 15 units are one number (ASTM D2699): 3.3 to 4.2, by the spark 4.3 to 5.4.
 */
export const AUDIBLE_MARGIN = 4;

/** Pressure at which {@link motorMethodShare} asks for the temperature of the unburned gas [Pa]. */
export const SHARE_PRESSURE = 15e5;

/** Unburned gas of the standard octane-rating engine with a fuel of 95, compressed to {@link SHARE_PRESSURE} without heat, by method [K]. */
export const RATING_TEMPERATURES = { research: 739, motor: 855 } as const;

/** Slope of {@link motorMethodShare} in gas that is cooler than the research method's [1/K]. */
const COOL_SLOPE = 0.0056;

/**
 * Share K of the motor method in the octane number that counts in an engine [-]: OI = RON - K (RON - MON) (Kalghatgi, SAE
 * 2001-01-3584). The law of the delay was found on primary reference fuels, whose two octane numbers are equal by definition;
 * a real fuel stands heat worse than they do, and the cooler the end gas at a given pressure the better it compares.
 *
 * 0 at the temperature of the research method and 1 at that of the motor method, on a straight line. In cooler gas
 * it falls below zero by 0.0056 a kelvin, the slope of Kalghatgi's K = 0.0056 T - 4.68 for spark-ignition engines below 825 K (SAE
 * 2005-01-0239, from memory): his temperatures were reckoned otherwise, so that the slope is taken and the level is not.
 *
 * @param T - unburned gas compressed to {@link SHARE_PRESSURE} without heat [K]
 * @param research - of the research method with the fuel at hand, which may cool its charge more than a reference fuel does [K]
 */
export function motorMethodShare(T: number, research: number = RATING_TEMPERATURES.research): number {
  if (!(T > 0)) throw new DomainError('T', T, 'positive K');
  const { motor } = RATING_TEMPERATURES;
  const above = T - research;
  return above < 0 ? COOL_SLOPE * above : above / (motor - research);
}

/** Share of the motor method in the number on the pump, (R + M) / 2 [-]. */
const PUMP_SHARE = 0.5;

/**
 * Octane number of a fuel [-]: RON - K (RON - MON).
 *
 * @param motorMethodShare - K, what the motor method counts; left out: a half, which gives the antiknock index of the pump
 *
 * @example
 * ```ts
 * octaneIndex(98, 88); // 93 on the pump
 * ```
 */
export function octaneIndex(ron: number, mon: number, motorMethodShare: number = PUMP_SHARE): number {
  if (!(ron >= 0)) throw new DomainError('ron', ron, 'zero or positive');
  if (!(mon >= 0)) throw new DomainError('mon', mon, 'zero or positive');
  if (!Number.isFinite(motorMethodShare))
    throw new DomainError('motorMethodShare', motorMethodShare, 'finite');
  return ron - motorMethodShare * (ron - mon);
}
