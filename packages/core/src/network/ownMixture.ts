/**
 * A cylinder whose mixture is not that of the others. Pipes and volumes know one gas, the mean of all. While both valves are shut the
 * charge is the cylinder's own: the fuel that it has beyond the mean, or lacks, comes in when the intake closes, and what burned
 * becomes burned gas of the mean when the exhaust opens, as warm as it was. The march in between meets nothing of this.
 */
import type { GasTables } from '../gas/gasTables.ts';
import { bindingEnergy, CYL, type Cylinder } from './cylinder.ts';
import { SIDE } from './side.ts';
import { oneZoneEnergy, oneZoneR } from './zones.ts';

/**
 * Makes the charge the cylinder's own mixture; it was decoded, and has to be anew. Air and temperature stay as they are.
 *
 * @returns fuel added so [kg]
 */
export function takeOwnMixture(cylinder: Cylinder, y: Float64Array): number {
  const { charge, mean, offset: o, spray } = cylinder;
  if (charge === mean) return 0;
  const burned = y[o + CYL.burned];
  const added = (y[o + CYL.mass] - burned) * ((1 - mean.fuelFraction) / (1 - charge.fuelFraction) - 1);
  changeGas(cylinder, y, charge, y[o + CYL.mass] + added, burned);
  // A leaner cylinder lacks drops first.
  if (spray !== undefined) bindLiquid(cylinder, y, Math.max(0, y[o + CYL.liquid] + added));
  return added;
}

/**
 * Makes what burned gas of the mean mixture again, as warm and at the pressure it was; it was decoded, and has to be anew. A richer
 * mixture burns to more molecules of the same air, so that the mass is another.
 *
 * @returns mass gained so [kg]
 */
export function giveMeanMixture(cylinder: Cylinder, y: Float64Array): number {
  const { tables, mean, offset: o, side } = cylinder;
  if (tables === mean) return 0;
  const share = side[SIDE.b];
  const mass = y[o + CYL.mass];
  const like = (mass * side[SIDE.R]) / oneZoneR(mean, side[SIDE.T], side[SIDE.p], share);
  changeGas(cylinder, y, mean, like, share * like);
  return like - mass;
}

/**
 * Another gas of the same temperature. What that takes of energy the network's account has as energy unreleased: it comes with the fuel,
 * or leaves with gas that is richer than the pipes know.
 */
function changeGas(cylinder: Cylinder, y: Float64Array, gas: GasTables, mass: number, burned: number): void {
  const { offset: o, side, spray } = cylinder;
  const bound = spray === undefined ? 0 : y[o + CYL.liquid] * bindingEnergy(spray.liquid);
  const energy = mass * oneZoneEnergy(gas, side[SIDE.T], side[SIDE.p], burned / mass) - bound;
  y[o + CYL.unreleased] -= energy - y[o + CYL.energy];
  y[o + CYL.energy] = energy;
  y[o + CYL.mass] = mass;
  y[o + CYL.burned] = burned;
  cylinder.tables = gas;
}

/** So much of the fuel as liquid, what that has less of energy taken off. */
function bindLiquid({ offset: o, spray }: Cylinder, y: Float64Array, liquid: number): void {
  if (spray === undefined) return;
  const energy = (liquid - y[o + CYL.liquid]) * bindingEnergy(spray.liquid);
  y[o + CYL.energy] -= energy;
  y[o + CYL.unreleased] += energy;
  y[o + CYL.liquid] = liquid;
}
