/** All cylinders of a network, walked together. */
import type { Cylinder } from './cylinder.ts';
import { CYL, decodeAtAngle, localAngle } from './cylinder.ts';
import { balanceCylinder } from './cylinderBalance.ts';
import { FASTEST, type PartGroup } from './part.ts';
import { SIDE } from './side.ts';

/**
 * How much of a cylinder's rate counts beside that of ducts [-]: areas of the pipes at its open valves times sound speed over
 * its volume. While both valves are open near top centre it is the fastest in the engine; in longer steps gas sloshes through them to
 * and fro, and leaves more residual behind than it should (an eight's torque at 400 rpm fell by 0.7 %).
 */
const CYLINDER_SHARE = 2;

/** @param crankAngle - of the state that is decoded [deg], at index 0 */
export function cylinderGroup(cylinders: readonly Cylinder[], crankAngle: Float64Array): PartGroup {
  return {
    decode(y) {
      for (const cylinder of cylinders) {
        cylinder.now.angle = localAngle(cylinder, crankAngle[0]);
        decodeAtAngle(cylinder, y);
        // Until its valves are decoded.
        cylinder.opening[0] = 0;
      }
    },
    addRates(y, d) {
      for (const cylinder of cylinders) balanceCylinder(cylinder, y, d);
    },
    // As a volume's, see there; a valve near rest passes all that its pipe can bring, however little it is open.
    raiseFastest(fastest) {
      for (const { side, now, opening } of cylinders) {
        if (opening[0] === 0) continue;
        const sound = Math.sqrt(side[SIDE.gamma] * side[SIDE.R] * side[SIDE.T]);
        const rate = (CYLINDER_SHARE * opening[0] * sound) / now.V;
        if (rate > fastest[FASTEST.settling]) fastest[FASTEST.settling] = rate;
      }
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
