/** What turns faster in a dyno pull: crank, rods and pistons, damper, flywheel or flexplate, and the rotor of the brake. */
import type { Block } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';

/** What the estimate rests on. Lengths [m]. */
export type TurningSizes = Pick<Block, 'bore' | 'stroke' | 'rodLength' | 'cylinders'>;

/** Mass of a piston with pin and rings, and of a rod, over the cube of the bore [kg/m3]: 0.70 and 0.60 kg at 4.00 in; from memory. */
export const PISTON_DENSITY = 670;
export const ROD_DENSITY = 570;
/** Share of a rod's mass that goes up and down with the piston [-]; from memory. */
export const ROD_UPPER: number = 1 / 3;
/**
 * Moment of inertia of crank and damper over cylinders, cube of the bore and square of the stroke [kg/m3]: 0.055 and 0.025 kg m2 in an eight
 * of 4.00 by 3.48 in; from memory.
 */
export const CRANK_DENSITY = 1200;
/**
 * Moment of inertia of what is bolted to the crank over the root of the displacement [kg m2 per root of a litre]. For an eight of
 * 5.7 litres: a flexplate 0.05, a steel flywheel 0.20, the rotor of a water brake with its shaft 0.05 kg m2, so that 0.10 to 0.25 turn
 * behind it (from memory). Fewer cylinders are given nearly as heavy a flywheel, since their torque comes in larger pieces: it falls slower than the displacement.
 */
export const BEHIND_CRANK = 0.08;
/**
 * One standard deviation [-]: flexplate or steel flywheel is worth a quarter either way, and the brakes differ. The estimate gives 0.13 kg m2
 * for a four of 1.8 litres, of which 0.178 was measured in a car with its clutch (E. Rabinovich, Yu. Zytsev and V. Kalekin, Avtomobilnyj
 * Transport 42, 2018, pages 37 to 42).
 */
export const INERTIA_SPREAD = 0.35;

/**
 * Moment of inertia that masses going up and down add to the crank in the mean of a turn, over their mass and the square of the crank's
 * radius [-]: half of 1 + (r / l)^2 / 4, from the first two orders of the piston's speed.
 *
 * @param radiusOverRod - half the stroke over the length of the rod [-]
 */
export function reciprocatingShare(radiusOverRod: number): number {
  return (1 + radiusOverRod ** 2 / 4) / 2;
}

/** [kg m2] */
export function turningInertia({ bore, stroke, rodLength, cylinders }: TurningSizes): Estimate {
  const radius = stroke / 2;
  const upAndDown = PISTON_DENSITY + ROD_UPPER * ROD_DENSITY;
  const round = (1 - ROD_UPPER) * ROD_DENSITY;
  const throws = (upAndDown * reciprocatingShare(radius / rodLength) + round) * radius ** 2;
  const crank = CRANK_DENSITY * stroke ** 2;
  const litres = 1000 * cylinders * (Math.PI / 4) * bore ** 2 * stroke;
  const value = cylinders * bore ** 3 * (throws + crank) + BEHIND_CRANK * Math.sqrt(litres);
  return {
    value,
    spread: INERTIA_SPREAD * value,
    reason:
      'crank, rods and pistons by bore and stroke; behind them flywheel or flexplate, and a water brake; from memory, so state it',
  };
}
