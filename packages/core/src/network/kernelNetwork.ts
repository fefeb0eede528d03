/** A whole network as the kernel meets it: a list of blocks for each kind of part, in one plan. */
import type { GasTables } from '../gas/gasTables.ts';
import type { Stepper } from '../numerics/rungeKutta.ts';
import { copyNumbers, tellCopy } from './copiedEnds.ts';
import { cellNumbers } from './ductCell.ts';
import { feedNumbers } from './feed.ts';
import { jointNumbers } from './joint.ts';
import { angleAt, hearCylinder, hearStart, kernelCylinder, tellCylinder } from './kernelCylinder.ts';
import { stepNumbers, tellStep } from './kernelStep.ts';
import type { Blocked, NetworkMemory } from './networkMemory.ts';
import type { NetworkParts } from './networkParts.ts';
import { followAngle } from './openEnd.ts';
import { orificeNumbers } from './orifice.ts';

/** What the kernel is asked for, a state and rates standing in its memory. */
export interface KernelNetwork {
  readonly buffer: ArrayBufferLike;
  /** Tells it what the script has worked out and planned of cylinders and copies: all below that doesn't say otherwise does so first. */
  readonly tell: () => void;
  readonly decode: (y: Float64Array) => void;
  readonly rates: (y: Float64Array, d: Float64Array) => void;
  /** Steps of a method; null where its vectors or numbers found no room. */
  readonly stepsOf: (stepper: Stepper) => KernelStep | null;
  /** Of what was decoded and told last, as all that follows. */
  readonly keepStarts: () => void;
  /** See `FASTEST`. */
  readonly fastest: () => Float64Array;
  readonly isSound: () => boolean;
}

/** The step of a `CLOCK`, from the decoded state to another, which is decoded where it ends; false where that is none of a gas. */
export type KernelStep = (y: Float64Array, clock: Float64Array) => boolean;

/** What it is told of: what reservoirs hold stands with what leads to them. */
interface Parts extends Omit<NetworkParts, 'reservoirs'> {
  readonly crankAngle: Float64Array;
  readonly size: number;
}

/** Null where there is no kernel, or no room in the memory for all that it has to know. */
export function kernelNetwork(parts: Parts, memory: NetworkMemory): KernelNetwork | null {
  const { take, addressOf, kernel } = memory;
  if (kernel === null) return null;
  const blockOf = (numbers: readonly number[]): Float64Array => {
    const block = take(numbers.length);
    block.set(numbers);
    return block;
  };
  /** Address and length of a list of whole numbers, as the plan has them. */
  const listOf = (numbers: readonly number[], each = 1): [number, number] => {
    const { buffer, byteOffset } = take(Math.ceil(numbers.length / 2));
    new Int32Array(buffer, byteOffset, numbers.length).set(numbers);
    return [byteOffset, numbers.length / each];
  };
  const blocks = (list: readonly Float64Array[]): [number, number] =>
    listOf(list.map(({ byteOffset }) => byteOffset));
  /** Writes what blocks have to say of their gases, and lists them: an address and a place in the state for each. */
  const placed = (list: readonly Blocked[]): [number, number] => {
    for (const { block, tables } of list) block.set(gasNumbers(tables, addressOf));
    return listOf(
      list.flatMap(({ block, offset }) => [block.byteOffset, offset]),
      2,
    );
  };
  const gases = new Map<GasTables, number>();
  const gasAt = (tables: GasTables): number => {
    const at = gases.get(tables) ?? blockOf(burnedNumbers(tables, addressOf)).byteOffset;
    gases.set(tables, at);
    return at;
  };
  const cylinders = parts.cylinders.map((cylinder) => kernelCylinder(cylinder, memory, gasAt));
  for (const end of parts.ends)
    if (end.cylinder !== null) followAngle(end, angleAt(cylinders[parts.cylinders.indexOf(end.cylinder)]));
  const copies = parts.copies.map((copy) => ({ copy, block: blockOf(copyNumbers(copy)) }));
  const fastest = take(2);
  const [plan] = listOf([
    ...[parts.crankAngle.byteOffset, parts.size],
    ...placed(parts.volumes),
    ...blocks(cylinders.map(({ block }) => block)),
    ...placed(parts.ducts),
    ...blocks(parts.cells.map(cellNumbers).map(blockOf)),
    ...blocks(parts.ends.map(({ block }) => block)),
    ...blocks(parts.joints.map(jointNumbers).map(blockOf)),
    ...blocks(parts.orifices.map(orificeNumbers).map(blockOf)),
    ...blocks(parts.feeds.map(feedNumbers).map(blockOf)),
    ...blocks(copies.map(({ block }) => block)),
  ]);
  if (memory.isFull()) return null;
  const tell = (): void => {
    for (const cylinder of cylinders) tellCylinder(cylinder);
    for (const { copy, block } of copies) tellCopy(copy, block);
  };
  const hear = (): void => {
    for (const cylinder of cylinders) hearCylinder(cylinder);
  };
  /** Whether the fastest rates are those of the state that is decoded. */
  let raised = false;
  return {
    buffer: fastest.buffer,
    tell() {
      tell();
      raised = false;
    },
    decode(y) {
      tell();
      kernel.decode(plan, y.byteOffset);
      hear();
      raised = false;
    },
    rates(y, d) {
      tell();
      kernel.rates(plan, y.byteOffset, d.byteOffset);
    },
    stepsOf(stepper) {
      const method = blockOf(stepNumbers(stepper, fastest));
      const vectors = [...stepper.stages, stepper.trial, method];
      if (vectors.some((vector) => vector.buffer !== fastest.buffer)) return null;
      return (y, clock) => {
        tell();
        tellStep(method, clock);
        const sound = kernel.step(plan, method.byteOffset, y.byteOffset) !== 0;
        for (const cylinder of cylinders) hearStart(cylinder);
        hear();
        raised = true;
        return sound;
      };
    },
    keepStarts() {
      kernel.keepStarts(plan);
      for (const cylinder of cylinders) hearStart(cylinder);
    },
    fastest() {
      if (!raised) {
        fastest.fill(0);
        kernel.raiseFastest(plan, fastest.byteOffset);
        raised = true;
      }
      return fastest;
    },
    isSound: () => kernel.isSound(plan) !== 0,
  };
}

/** The first numbers of a block that holds gas. Tables by their addresses [bytes]. */
function gasNumbers(tables: GasTables, addressOf: NetworkMemory['addressOf']): number[] {
  const { freshU, burnedU, tMin, dT, freshR, burnedR, count } = tables;
  return [addressOf(freshU), addressOf(burnedU), tMin, dT, freshR, burnedR, count - 2];
}

/** The same and more of a gas that cylinders burn, in the order of `tools/kernel/gas.as`. */
function burnedNumbers(tables: GasTables, addressOf: NetworkMemory['addressOf']): number[] {
  const { equilibrium: table, freshS, burnedS, freezeTemperature, fuelFraction } = tables;
  return [
    ...gasNumbers(tables, addressOf),
    ...[addressOf(freshS), addressOf(burnedS), freezeTemperature, fuelFraction],
    ...[table.tMin, table.dT, table.temperatureCount, table.lnPMin, table.dLnP, table.pressureCount],
    ...[addressOf(table.u), addressOf(table.R)],
  ];
}
