/** Speed of a laminar flame into unburned gas at engine conditions. */

import { STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';

/** Fuels with constants. A gasoline-ethanol blend lies between the two; high-ethanol blends burn much like ethanol. */
export type FlameFuel = 'gasoline' | 'iso-octane' | 'methanol' | 'propane' | 'ethanol';

/**
 * S0 = peak + curvature (phi - phiPeak)^2 at the reference temperature and 1 atm; temperature exponent a0 + a1 (phi - shift)^aPower,
 * pressure exponent likewise.
 */
interface ParabolaConstants {
  readonly kind: 'parabola';
  /** Temperature the speeds refer to [K]. */
  readonly reference: number;
  /** [m/s] */
  readonly peak: number;
  /** [m/s] */
  readonly curvature: number;
  readonly phiPeak: number;
  readonly a0: number;
  readonly a1: number;
  readonly aPower: number;
  readonly b0: number;
  readonly b1: number;
  readonly bPower: number;
  /** What is subtracted from phi before the powers of both exponents: 1 or 0. */
  readonly shift: number;
}

/** S0 = w phi^eta exp(-xi (phi - 1.075)^2); constant temperature exponent; pressure exponent b phi^(+-1/2). */
interface BellConstants {
  readonly kind: 'bell';
  /** [K] */
  readonly reference: number;
  /** [m/s] */
  readonly w: number;
  readonly eta: number;
  readonly xi: number;
  readonly a: number;
  readonly b: number;
}

const METGHALCHI_KECK = {
  kind: 'parabola',
  reference: 298,
  a0: 2.18,
  a1: -0.8,
  aPower: 1,
  b0: -0.16,
  b1: 0.22,
  bPower: 1,
  shift: 1,
} as const;

/**
 * Constants of each fuel.
 *
 * Iso-octane, methanol, propane: Metghalchi and Keck, Combustion and Flame 38 (1980) 143 and 48 (1982) 191, measured
 * for phi 0.8-1.5, 0.4-50 atm, 298-700 K, fit within 10 %. Gasoline: Rhodes and Keck, SAE 850047 (1985). Both as
 * tabulated by Heywood, Internal Combustion Engine Fundamentals (1988), section 9.3.4 (from memory). Ethanol: Gulder,
 * SAE 841000 (1984) (from memory, moderate confidence), measured to 8 atm and 500 K.
 */
const CONSTANTS: Readonly<Record<FlameFuel, ParabolaConstants | BellConstants>> = {
  gasoline: {
    kind: 'parabola',
    reference: 298,
    peak: 0.305,
    curvature: -0.549,
    phiPeak: 1.21,
    a0: 2.4,
    a1: -0.271,
    aPower: 3.51,
    b0: -0.357,
    b1: 0.14,
    bPower: 2.77,
    shift: 0,
  },
  'iso-octane': { ...METGHALCHI_KECK, peak: 0.263, curvature: -0.847, phiPeak: 1.13 },
  methanol: { ...METGHALCHI_KECK, peak: 0.369, curvature: -1.405, phiPeak: 1.11 },
  propane: { ...METGHALCHI_KECK, peak: 0.342, curvature: -1.387, phiPeak: 1.08 },
  ethanol: { kind: 'bell', reference: 300, w: 0.465, eta: 0.25, xi: 6.34, a: 1.75, b: -0.17 },
};

/**
 * Laminar flame speed [m/s]: S0(phi) (T / 298 K)^alpha (p / 1 atm)^beta times {@link diluentFactor} (300 K for ethanol).
 *
 * Outside the measured mixtures (phi 0.8 to 1.5) the parabola would turn negative: from a quarter of its peak down it is
 * continued by an exponential with the same value and slope. The exponents use phi held softly between 0.6 and 1.4,
 * beyond which their fits turn senseless. So the result is smooth, never negative, and right where it was measured.
 *
 * @param phi - fuel-air equivalence ratio [-], positive
 * @param T - temperature of the unburned gas [K], positive
 * @param p - pressure [Pa], positive
 * @param diluent - mole fraction of burned gas in the unburned mixture [-], 0 to 1
 * @throws {@link DomainError} naming the first argument out of range
 */
export function laminarFlameSpeed(
  fuel: FlameFuel,
  phi: number,
  T: number,
  p: number,
  diluent: number,
): number {
  if (!(phi > 0 && phi < 100)) throw new DomainError('phi', phi, 'positive, below 100');
  if (!(T > 0)) throw new DomainError('T', T, 'positive K');
  if (!(p > 0)) throw new DomainError('p', p, 'positive Pa');
  if (!(diluent >= 0 && diluent <= 1)) throw new DomainError('diluent', diluent, 'in [0, 1]');
  const c = CONSTANTS[fuel];
  const phiHeld = holdSoftly(phi);
  let s0: number;
  let alpha: number;
  let beta: number;
  if (c.kind === 'parabola') {
    const z = 1 + (c.curvature / c.peak) * (phi - c.phiPeak) ** 2;
    s0 = c.peak * positivePart(z, 0.25);
    alpha = c.a0 + c.a1 * (phiHeld - c.shift) ** c.aPower;
    beta = c.b0 + c.b1 * (phiHeld - c.shift) ** c.bPower;
  } else {
    s0 = c.w * phi ** c.eta * Math.exp(-c.xi * (phi - 1.075) ** 2);
    alpha = c.a;
    beta = c.b * (phiHeld < 1 ? 1 / Math.sqrt(phiHeld) : Math.sqrt(phiHeld));
  }
  return s0 * (T / c.reference) ** alpha * (p / STANDARD_ATMOSPHERE) ** beta * diluentFactor(diluent);
}

/**
 * What burned gas leaves of the flame speed [-]: 1 - 2.06 x^0.77 for a mole fraction x.
 *
 * Source: Rhodes and Keck, SAE 850047 (1985) (from memory), measured to x = 0.3 or so. The fit is zero at 0.39; from
 * 0.2 down (x above 0.293) it is continued by an exponential with the same value and slope.
 */
export function diluentFactor(x: number): number {
  if (!(x >= 0 && x <= 1)) throw new DomainError('x', x, 'in [0, 1]');
  return positivePart(1 - 2.06 * x ** 0.77, 0.2);
}

/** `z` above `low`; below, the exponential that continues it with the same value and slope. */
function positivePart(z: number, low: number): number {
  return z > low ? z : low * Math.exp(z / low - 1);
}

const HOLD_WIDTH = 0.05;
const HOLD_FROM = 0.65;
const HOLD_TO = 1.35;

/** phi, saturating smoothly towards 0.6 and 1.4 beyond 0.65 and 1.35. */
function holdSoftly(phi: number): number {
  if (phi > HOLD_TO) return HOLD_TO + HOLD_WIDTH * Math.tanh((phi - HOLD_TO) / HOLD_WIDTH);
  if (phi < HOLD_FROM) return HOLD_FROM + HOLD_WIDTH * Math.tanh((phi - HOLD_FROM) / HOLD_WIDTH);
  return phi;
}
