/** All cylinders of a network, walked together. */
import type { Cylinder } from './cylinder.ts';
import { CYL, decodeCylinder } from './cylinder.ts';
import { balanceCylinder } from './cylinderBalance.ts';
import type { PartGroup } from './part.ts';
import { SIDE } from './side.ts';

/** @param crankAngle - of the state that is decoded [deg], at index 0 */
export function cylinderGroup(cylinders: readonly Cylinder[], crankAngle: Float64Array): PartGroup {
  return {
    decode(y) {
      for (const cylinder of cylinders) {
        decodeCylinder(cylinder, crankAngle[0], y);
        // Until a valve says otherwise.
        cylinder.open = false;
      }
    },
    addRates(y, d) {
      for (const cylinder of cylinders) balanceCylinder(cylinder, y, d);
    },
    isSound() {
      for (const { side } of cylinders) if (!(side[SIDE.p] > 0 && side[SIDE.T] > 0)) return false;
      return true;
    },
    keepStarts() {
      for (const { burning, start, side, now } of cylinders) {
        if (!burning) continue;
        start.p = side[SIDE.p];
        start.Tb = now.Tb;
      }
    },
    account(before, after, account) {
      for (const { offset: o, weight = 1 } of cylinders) {
        account.work += weight * (after[o + CYL.work] - before[o + CYL.work]);
        account.cylinderHeat += weight * (after[o + CYL.heat] - before[o + CYL.heat]);
        account.unreleased += weight * (after[o + CYL.unreleased] - before[o + CYL.unreleased]);
      }
    },
  };
}
