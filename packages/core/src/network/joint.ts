/** Two ducts end to end with a loss between them: a throttle or carburetor on its way along a runner. */
import type { Duct } from './duct.ts';
import { FLUX } from './duct.ts';
import { ductFace } from './ductEnd.ts';
import type { PartGroup } from './part.ts';
import { SIDE, SIDE_SIZE } from './side.ts';

/** The right end of one duct at the left end of another, of the same area there and the same gas. */
export interface JointSpec {
  readonly left: number;
  readonly right: number;
  /** Stagnation pressure lost over the dynamic pressure in the duct, either way [-]. */
  readonly loss: number;
}

export interface Joint {
  readonly spec: JointSpec;
  readonly left: Duct;
  readonly right: Duct;
  readonly before: Float64Array;
  readonly behind: Float64Array;
}

export function createJoint(spec: JointSpec, ducts: readonly Duct[]): Joint {
  return {
    spec,
    left: ducts[spec.left],
    right: ducts[spec.right],
    before: new Float64Array(SIDE_SIZE),
    behind: new Float64Array(SIDE_SIZE),
  };
}

/**
 * Flow per area at which two ducts meet. Along the wave that leaves the joint pressure goes with flow as `dp = c dG / (1 + M)`, M counted
 * the way of the wave (linear acoustics in a stream), so that a steady stream meets the joint unaltered; what is left between the two
 * sides is the loss in stagnation pressure, `loss G^2 / (2 rho)` of the gas that comes.
 */
function connectJoint({ spec, left, right, before, behind }: Joint): void {
  ductFace(left, 'right', before);
  ductFace(right, 'left', behind);
  const cLeft = left.c[left.cells - 1];
  const cRight = right.c[0];
  // A face's velocity counts out of its duct.
  const uLeft = before[SIDE.w];
  const uRight = -behind[SIDE.w];
  const zLeft = cLeft / (1 - uLeft / cLeft);
  const zRight = cRight / (1 + uRight / cRight);
  const gLeft = before[SIDE.rho] * uLeft;
  const gRight = behind[SIDE.rho] * uRight;
  const drive = before[SIDE.p] + zLeft * gLeft - (behind[SIDE.p] - zRight * gRight);
  const forward = drive > 0;
  const up = forward ? before : behind;
  const down = forward ? behind : before;
  // Gas that has lost pressure is thinner and faster.
  const loss = Math.max(0, spec.loss + up[SIDE.rho] / down[SIDE.rho] - 1);
  const z = zLeft + zRight;
  const size = Math.abs(drive);
  const flow = (2 * size) / (z + Math.sqrt(z * z + (2 * loss * size) / up[SIDE.rho]));
  const g = forward ? flow : -flow;
  const pLeft = before[SIDE.p] + zLeft * (gLeft - g);
  const pRight = behind[SIDE.p] + zRight * (g - gRight);
  const area = left.faceArea[left.cells];
  const u = g / up[SIDE.rho];
  const raised = (forward ? pLeft : pRight) - up[SIDE.p];
  const mass = g * area;
  const burned = mass * up[SIDE.b];
  const energy = mass * (up[SIDE.h] + raised / up[SIDE.rho] + 0.5 * u * u);
  left.right[FLUX.mass] = mass;
  left.right[FLUX.momentum] = (pLeft + (g * g) / before[SIDE.rho]) * area;
  left.right[FLUX.energy] = energy;
  left.right[FLUX.burned] = burned;
  right.left[FLUX.mass] = mass;
  right.left[FLUX.momentum] = (pRight + (g * g) / behind[SIDE.rho]) * area;
  right.left[FLUX.energy] = energy;
  right.left[FLUX.burned] = burned;
}

/** What the kernel has to know of a joint, in the order of `tools/kernel/joint.as`, and room for its two faces. */
export function jointNumbers({ spec, left, right }: Joint): number[] {
  const measures = [left.cells, right.cells, spec.loss, left.faceArea[left.cells]];
  return [left.block.byteOffset, right.block.byteOffset, ...measures, ...new Array(2 * SIDE_SIZE).fill(0)];
}

export function jointGroup(joints: readonly Joint[]): PartGroup {
  return {
    addRates() {
      for (const joint of joints) connectJoint(joint);
    },
  };
}
