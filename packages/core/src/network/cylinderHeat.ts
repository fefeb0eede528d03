/** Wall heat of a cylinder: surfaces, and the chosen correlation. */
import { gasConductivity, productsViscosity } from '../processes/viscosity.ts';
import {
  ANNAND_A,
  ANNAND_C,
  annand,
  hohenberg,
  MOTORED_EXPONENT,
  motoredPressure,
  WOSCHNI_C1_CLOSED,
  WOSCHNI_C1_GAS_EXCHANGE,
  WOSCHNI_C2,
  woschniOriginal,
  woschniVelocity,
} from '../processes/wallHeat.ts';

export interface WallHeat {
  readonly model: 'woschni' | 'hohenberg' | 'annand';
  readonly multiplier: number;
  /** Surface temperatures [K]. */
  readonly head: number;
  readonly piston: number;
  readonly liner: number;
  /** Surface of the chamber's roof over bore area [-]. */
  readonly headRatio: number;
  /** Cylindrical wall that stays uncovered at top centre [m2]. */
  readonly clearanceWall: number;
}

/** Gas in the cylinder when the burn started: what Woschni's combustion term refers to. */
export interface BurnReference {
  /** [Pa] */
  p: number;
  /** [K] */
  T: number;
  /** [m3] */
  V: number;
}

/**
 * Heat transfer coefficient [W/(m2 K)].
 *
 * @param pistonSpeed - mean piston speed [m/s]
 * @param swept - swept volume [m3]
 * @param V - volume now [m3]
 * @param T - mean temperature [K]
 * @param R - gas constant [J/(kg K)]
 * @param cp - specific heat [J/(kg K)]
 * @param open - a valve is open
 * @param reference - state at the start of the burn while burning and expanding, else null
 */
export function heatCoefficient(
  walls: WallHeat,
  bore: number,
  pistonSpeed: number,
  swept: number,
  V: number,
  p: number,
  T: number,
  R: number,
  cp: number,
  open: boolean,
  reference: BurnReference | null,
): number {
  if (walls.model === 'hohenberg') return walls.multiplier * hohenberg(V, p, T, pistonSpeed);
  if (walls.model === 'annand') {
    const mu = productsViscosity(T, 1);
    const wallT = (walls.head + walls.piston) / 2;
    const k = gasConductivity(mu, cp);
    const c = reference === null ? 0 : ANNAND_C;
    return walls.multiplier * annand(bore, pistonSpeed, p / (R * T), mu, k, T, wallT, ANNAND_A, c);
  }
  const c1 = open ? WOSCHNI_C1_GAS_EXCHANGE : WOSCHNI_C1_CLOSED;
  const w =
    reference === null
      ? c1 * pistonSpeed
      : woschniVelocity(
          c1,
          pistonSpeed,
          WOSCHNI_C2,
          swept,
          reference.T,
          reference.p * reference.V,
          p - motoredPressure(reference.p, reference.V, V, MOTORED_EXPONENT),
        );
  return walls.multiplier * woschniOriginal(bore, p, T, w);
}
