/** Wall heat of a cylinder: surfaces, and the chosen correlation. */
import type { SliderCrank } from '../geometry/sliderCrank.ts';
import { sweptVolume } from '../geometry/sliderCrank.ts';
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
import { SIDE } from './side.ts';

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

/** What the coefficient depends on: the engine's measures and the gas of the decoded state. */
export interface HeatedGas {
  readonly walls: WallHeat;
  readonly crank: SliderCrank;
  /** Angular speed [rad/s]. */
  readonly speed: number;
  readonly side: Float64Array;
  /** Volume [m3] and mean temperature [K]. */
  readonly now: { readonly V: number; readonly T: number };
  /** Areas of the pipes at open valves [m2]. */
  readonly opening: number;
  /** Between the start of the burn and the opening of the exhaust valve. */
  readonly firing: boolean;
  readonly reference: BurnReference;
}

/** Heat transfer coefficient [W/(m2 K)]. */
export function heatCoefficient(gas: HeatedGas): number {
  const { walls, crank, side, firing, reference } = gas;
  const { V, T } = gas.now;
  const p = side[SIDE.p];
  const pistonSpeed = (crank.stroke * gas.speed) / Math.PI;
  if (walls.model === 'hohenberg') return walls.multiplier * hohenberg(V, p, T, pistonSpeed);
  if (walls.model === 'annand') {
    const R = side[SIDE.R];
    const mu = productsViscosity(T, 1);
    const wallT = (walls.head + walls.piston) / 2;
    const k = gasConductivity(mu, (R * side[SIDE.gamma]) / (side[SIDE.gamma] - 1));
    const c = firing ? ANNAND_C : 0;
    return walls.multiplier * annand(crank.bore, pistonSpeed, p / (R * T), mu, k, T, wallT, ANNAND_A, c);
  }
  const c1 = gas.opening > 0 ? WOSCHNI_C1_GAS_EXCHANGE : WOSCHNI_C1_CLOSED;
  const w = firing
    ? woschniVelocity(
        c1,
        pistonSpeed,
        WOSCHNI_C2,
        sweptVolume(crank),
        reference.T,
        reference.p * reference.V,
        p - motoredPressure(reference.p, reference.V, V, MOTORED_EXPONENT),
      )
    : c1 * pistonSpeed;
  return walls.multiplier * woschniOriginal(crank.bore, p, T, w);
}
