/** When end gas is too little for its ignition to be noticed. */
import { cylinderVolume } from '../geometry/sliderCrank.ts';
import type { Cylinder } from '../network/cylinder.ts';
import { SIDE } from '../network/side.ts';
import { wiebeFractionNormalised } from '../processes/wiebe.ts';

/**
 * Energy that the end gas must still be able to release, by the volume of the chamber at that moment, for its ignition to count as
 * knock [J/m3]. The pressure it raises goes with that and nothing else, `(gamma - 1) energy / volume`: some 6 bar. A share of the
 * charge alone would not do: half as much again is packed into the chamber of an engine at 10:1 as into the standard octane-rating engine.
 * That knock is this energy over this volume: Karim and Gao, SAE 922356 (1992), from memory.
 *
 * The one free constant of knock. It sets the level of the octane asked for, a tenth of it 1.5 numbers, and is set where octane numbers are
 * defined: the standard octane-rating engine, run by both methods at the heights where reference fuels of 80 to 100 just knock, asks for their
 * numbers in the mean over that range.
 */
export const KNOCK_ENERGY = 2.9e6;

/** Halvings of the burn. */
const STEPS = 48;

/**
 * Angle from which on the end gas of the trapped charge holds less than {@link KNOCK_ENERGY} [deg after firing top centre]; the
 * cylinder is decoded between the closing of its intake and the start of its burn. Where it never holds so much, the start of the burn.
 */
export function endGasGone(cylinder: Cylinder): number {
  const { burn, crank, now, side, heatOfReaction } = cylinder;
  const { start, duration, a, m } = burn;
  const energy = now.m * (1 - side[SIDE.b]) * heatOfReaction;
  let enough = start;
  let spent = start + duration;
  for (let i = 0; i < STEPS; i++) {
    const angle = (enough + spent) / 2;
    const left = energy * (1 - wiebeFractionNormalised(angle, start, duration, a, m));
    if (left > KNOCK_ENERGY * cylinderVolume(crank, (angle * Math.PI) / 180)) enough = angle;
    else spent = angle;
  }
  return spent;
}
