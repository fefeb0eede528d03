// Ducts end to end, as packages/core/src/network/joint.ts has them; the numbers of a joint come in the order of jointNumbers there.
import { get, put } from './columns';
import { ductFace } from './face';
import { B, H, P, RHO, W } from './gas';

@inline const LEFT = 0;
@inline const RIGHT = 1;
@inline const LEFT_CELLS = 2;
@inline const RIGHT_CELLS = 3;
@inline const LOSS = 4;
@inline const AREA = 5;
@inline const BEFORE: usize = 6;
@inline const BEHIND: usize = 15;

/** Sets the fluxes at `count` joints, whose blocks stand in `list`. */
export function connectJoints(list: usize, count: i32): void {
  for (let j = 0; j < count; j++) connectJoint(<usize>load<i32>(list + (<usize>j << 2)));
}

function connectJoint(joint: usize): void {
  const left = <usize>get(joint, LEFT);
  const right = <usize>get(joint, RIGHT);
  const before = joint + (BEFORE << 3);
  const behind = joint + (BEHIND << 3);
  const cLeft = ductFace(left, <i32>get(joint, LEFT_CELLS), true, before);
  const cRight = ductFace(right, <i32>get(joint, RIGHT_CELLS), false, behind);
  const uLeft = get(before, W);
  const uRight = -get(behind, W);
  const zLeft = cLeft / (1 - uLeft / cLeft);
  const zRight = cRight / (1 + uRight / cRight);
  const gLeft = get(before, RHO) * uLeft;
  const gRight = get(behind, RHO) * uRight;
  const drive = get(before, P) + zLeft * gLeft - (get(behind, P) - zRight * gRight);
  const forward = drive > 0;
  const up = forward ? before : behind;
  const down = forward ? behind : before;
  const loss = max(0, get(joint, LOSS) + get(up, RHO) / get(down, RHO) - 1);
  const z = zLeft + zRight;
  const size = abs(drive);
  const flow = (2 * size) / (z + sqrt(z * z + (2 * loss * size) / get(up, RHO)));
  const g = forward ? flow : -flow;
  const pLeft = get(before, P) + zLeft * (gLeft - g);
  const pRight = get(behind, P) + zRight * (g - gRight);
  const area = get(joint, AREA);
  const u = g / get(up, RHO);
  const raised = (forward ? pLeft : pRight) - get(up, P);
  const mass = g * area;
  const burned = mass * get(up, B);
  const energy = mass * (get(up, H) + raised / get(up, RHO) + 0.5 * u * u);
  put(left, 16, mass);
  put(left, 17, (pLeft + (g * g) / get(before, RHO)) * area);
  put(left, 18, energy);
  put(left, 19, burned);
  put(right, 12, mass);
  put(right, 13, (pRight + (g * g) / get(behind, RHO)) * area);
  put(right, 14, energy);
  put(right, 15, burned);
}
