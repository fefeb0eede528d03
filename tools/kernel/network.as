// A whole network, as packages/core/src/network/network.ts has it: its parts kind by kind, in the order in which they are walked there. The plan
// of one is written by packages/core/src/network/kernelNetwork.ts.
import { connectCopies } from './copiedEnds';
import { areCylindersSound, decodeCylinders, keepZones, raiseCylinders } from './cylinder';
import { balanceCylinders } from './cylinderBalance';
import { areDuctsSound, balanceDucts, decodeDucts, raiseDucts } from './duct';
import { decodeCells, raiseCells } from './ductCell';
import { connectFeeds, keepFeeds } from './feed';
import { connectJoints } from './joint';
import { connectEnds, keepEnds, liftValves } from './openEnd';
import { connectOrifices } from './orifice';
import { areVolumesSound, decodeVolumes, raiseVolumes } from './volume';

/** Crank angle [deg], by its address, and entries of the state. */
@inline const THETA = 0;
@inline const SIZE = 1;
/** Of each kind the address of its list and how many there are. */
@inline const VOLUMES = 2;
@inline const CYLINDERS = 4;
@inline const DUCTS = 6;
@inline const CELLS = 8;
@inline const ENDS = 10;
@inline const JOINTS = 12;
@inline const ORIFICES = 14;
@inline const FEEDS = 16;
@inline const COPIES = 18;

@inline function whole(plan: usize, i: i32): i32 {
  return load<i32>(plan + (<usize>i << 2));
}
@inline function list(plan: usize, kind: i32): usize {
  return <usize>whole(plan, kind);
}
@inline function count(plan: usize, kind: i32): i32 {
  return whole(plan, kind + 1);
}

/** Where the crank angle of the state that is decoded stands. */
@inline export function theta(plan: usize): usize {
  return <usize>whole(plan, THETA);
}
/** Entries of the state. */
@inline export function entries(plan: usize): i32 {
  return whole(plan, SIZE);
}

/** Decodes every part of the state at `y`. */
export function decode(plan: usize, y: usize): void {
  decodeVolumes(list(plan, VOLUMES), count(plan, VOLUMES), y);
  decodeCylinders(list(plan, CYLINDERS), count(plan, CYLINDERS), theta(plan), y);
  decodeDucts(list(plan, DUCTS), count(plan, DUCTS), y);
  decodeCells(list(plan, CELLS), count(plan, CELLS));
  liftValves(list(plan, ENDS), count(plan, ENDS));
}

/** Writes the rates of the decoded state at `y` to `d`. */
export function rates(plan: usize, y: usize, d: usize): void {
  memory.fill(d, 0, <usize>entries(plan) << 3);
  connectEnds(list(plan, ENDS), count(plan, ENDS), d);
  connectJoints(list(plan, JOINTS), count(plan, JOINTS));
  connectOrifices(list(plan, ORIFICES), count(plan, ORIFICES), d);
  connectFeeds(list(plan, FEEDS), count(plan, FEEDS), d);
  connectCopies(list(plan, COPIES), count(plan, COPIES), d);
  balanceCylinders(list(plan, CYLINDERS), count(plan, CYLINDERS), y, d);
  balanceDucts(list(plan, DUCTS), count(plan, DUCTS), d);
}

/** Has the next searches start from what those of the last rates found. */
export function keepStarts(plan: usize): void {
  keepZones(list(plan, CYLINDERS), count(plan, CYLINDERS));
  keepEnds(list(plan, ENDS), count(plan, ENDS));
  keepFeeds(list(plan, FEEDS), count(plan, FEEDS));
}

/** Raises two numbers at `fastest`, of waves and of gas that settles, to the fastest rates of the decoded state. */
export function raiseFastest(plan: usize, fastest: usize): void {
  raiseVolumes(list(plan, VOLUMES), count(plan, VOLUMES), fastest + 8);
  raiseCylinders(list(plan, CYLINDERS), count(plan, CYLINDERS), fastest + 8);
  raiseDucts(list(plan, DUCTS), count(plan, DUCTS), fastest);
  raiseCells(list(plan, CELLS), count(plan, CELLS), fastest);
}

/** Whether the decoded state is one of a gas. */
export function isSound(plan: usize): bool {
  return (
    areVolumesSound(list(plan, VOLUMES), count(plan, VOLUMES)) &&
    areCylindersSound(list(plan, CYLINDERS), count(plan, CYLINDERS)) &&
    areDuctsSound(list(plan, DUCTS), count(plan, DUCTS))
  );
}
