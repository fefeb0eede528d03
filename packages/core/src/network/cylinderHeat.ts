/** Wall heat of a cylinder: surfaces, and the chosen correlation. */
import type { SliderCrank } from '../geometry/sliderCrank.ts';
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
  /** Area of the piston [m2]. */
  readonly pistonArea: number;
  /** Angular speed [rad/s]. */
  readonly speed: number;
  readonly side: Float64Array;
  /** Volume [m3] and mean temperature [K], given; heat transfer coefficient [W/(m2 K)], found. */
  readonly now: { readonly V: number; readonly T: number; heatCoefficient: number };
  /** Areas of the pipes at open valves [m2]. */
  readonly opening: Float64Array;
  /** Between the start of the burn and the opening of the exhaust valve. */
  readonly firing: boolean;
  readonly reference: BurnReference;
}

/**
 * Works out the heat transfer coefficient.
 *
 * Here and in the files beside it, what is asked in a small part of the cycle is a function that takes the cylinder and leaves its result
 * there. The compiler doesn't join what it seldom sees called into what calls it, and numbers handed to it would be put on the heap.
 */
export function findHeatCoefficient(gas: HeatedGas): void {
  const { walls } = gas;
  if (walls.model === 'woschni') {
    if (gas.firing) woschniFiring(gas);
    else woschniMotored(gas);
  } else if (walls.model === 'hohenberg') gas.now.heatCoefficient = walls.multiplier * hohenbergOf(gas);
  else gas.now.heatCoefficient = walls.multiplier * annandOf(gas);
}

function woschniMotored({ walls, crank, side, now, speed, opening }: HeatedGas): void {
  const c1 = opening[0] > 0 ? WOSCHNI_C1_GAS_EXCHANGE : WOSCHNI_C1_CLOSED;
  const w = c1 * ((crank.stroke * speed) / Math.PI);
  now.heatCoefficient = walls.multiplier * woschniOriginal(crank.bore, side[SIDE.p], now.T, w);
}

function woschniFiring({ walls, crank, pistonArea, side, now, speed, opening, reference }: HeatedGas): void {
  const p = side[SIDE.p];
  const w = woschniVelocity(
    opening[0] > 0 ? WOSCHNI_C1_GAS_EXCHANGE : WOSCHNI_C1_CLOSED,
    (crank.stroke * speed) / Math.PI,
    WOSCHNI_C2,
    pistonArea * crank.stroke,
    reference.T,
    reference.p * reference.V,
    p - motoredPressure(reference.p, reference.V, now.V, MOTORED_EXPONENT),
  );
  now.heatCoefficient = walls.multiplier * woschniOriginal(crank.bore, p, now.T, w);
}

function hohenbergOf({ crank, side, now, speed }: HeatedGas): number {
  return hohenberg(now.V, side[SIDE.p], now.T, (crank.stroke * speed) / Math.PI);
}

function annandOf({ walls, crank, side, now, speed, firing }: HeatedGas): number {
  const R = side[SIDE.R];
  const { T } = now;
  const mu = productsViscosity(T, 1);
  const wallT = (walls.head + walls.piston) / 2;
  const k = gasConductivity(mu, (R * side[SIDE.gamma]) / (side[SIDE.gamma] - 1));
  const pistonSpeed = (crank.stroke * speed) / Math.PI;
  const c = firing ? ANNAND_C : 0;
  return annand(crank.bore, pistonSpeed, side[SIDE.p] / (R * T), mu, k, T, wallT, ANNAND_A, c);
}
