/** The parts of a network as they are thought of, one after another; each call says where the part stands in its list. */
import type { CopySpec } from '../network/copiedEnds.ts';
import type { DuctSpec } from '../network/duct.ts';
import type { DuctCellSpec } from '../network/ductCell.ts';
import type { FeedSpec } from '../network/feed.ts';
import type { JointSpec } from '../network/joint.ts';
import type { EndSpec } from '../network/openEnd.ts';
import type { OrificeSpec } from '../network/orifice.ts';
import type { NodeRef } from '../network/part.ts';
import type { VolumeSpec } from '../network/volume.ts';

export interface NetworkPlan {
  readonly volumes: VolumeSpec[];
  readonly ducts: DuctSpec[];
  readonly cells: DuctCellSpec[];
  readonly ends: EndSpec[];
  readonly joints: JointSpec[];
  readonly orifices: OrificeSpec[];
  readonly feeds: FeedSpec[];
  readonly copies: CopySpec[];
}

export function newPlan(): NetworkPlan {
  return { volumes: [], ducts: [], cells: [], ends: [], joints: [], orifices: [], feeds: [], copies: [] };
}

/** Puts a part at the end of its list; returns its index. */
export function put<T>(list: T[], part: T): number {
  list.push(part);
  return list.length - 1;
}

export function volumeAt(index: number): NodeRef {
  return { kind: 'volume', index };
}

/** What the marching cylinder's end does into a volume, another cylinder's does so many degrees later into this one. */
export function putCopy(plan: NetworkPlan, end: number, volume: number, delay: number): void {
  const known = plan.copies.findIndex((c) => c.end === end && c.volume === volume);
  if (known < 0) plan.copies.push({ end, volume, delays: [delay] });
  else plan.copies[known] = { ...plan.copies[known], delays: [...plan.copies[known].delays, delay] };
}
