/**
 * Memory that a network shares with the compiled stage of its ducts and their ends, tools/kernel: at the speed of C. Where there is no
 * WebAssembly, or a page forbids it, the same is worked out by duct.ts and openEnd.ts, to the same bits.
 */
import type { GasTables } from '../gas/gasTables.ts';
import { plainSums, type VectorSums, WEIGHT_SIZE } from '../numerics/rungeKutta.ts';
import { KERNEL_BYTES } from './kernelBytes.ts';

/** What the library needs of WebAssembly; Node, browsers and threads have it. */
declare const WebAssembly: {
  readonly Memory: new (size: { initial: number; maximum: number }) => { readonly buffer: ArrayBuffer };
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
};

/** A list of ducts or of ends is given by its address and length, a state or rates by the address, in bytes. */
interface Kernel {
  readonly decode: (ducts: number, count: number, y: number) => void;
  readonly balance: (ducts: number, count: number, d: number) => void;
  readonly raiseFastest: (ducts: number, count: number, rate: number) => void;
  readonly areSound: (ducts: number, count: number) => number;
  readonly decodeVolumes: (volumes: number, count: number, y: number) => void;
  readonly keepStarts: (ends: number, count: number) => void;
  readonly lift: (ends: number, count: number) => void;
  readonly connect: (ends: number, count: number, d: number) => void;
  /** The sums of a step, {@link VectorSums}, by addresses and the length of the vectors. */
  readonly addScaled: (weights: number, y: number, k: number, count: number) => void;
  readonly carryOver: (weights: number, y: number, trial: number, k: number, count: number) => void;
}

/** A duct or volume as the kernel meets it: its block of memory, its place in the state and its gas. */
export interface Blocked {
  readonly block: Float64Array;
  readonly offset: number;
  readonly tables: GasTables;
}

/** Ducts that the kernel may be asked for, together. */
export interface KernelDucts {
  /** The memory in which a state or rates have to stand. */
  readonly buffer: ArrayBufferLike;
  readonly decode: (y: Float64Array) => void;
  readonly balance: (d: Float64Array) => void;
  /** Fastest rate of the decoded ducts [1/s]; an array of one, since a number that is returned is put on the heap. */
  readonly fastest: () => Float64Array;
  readonly areSound: () => boolean;
}

/** Volumes that the kernel may be asked for, together. */
export interface KernelVolumes {
  /** The memory in which a state has to stand. */
  readonly buffer: ArrayBufferLike;
  readonly decode: (y: Float64Array) => void;
}

/** Ends of ducts that the kernel may be asked for, together. */
export interface KernelEnds {
  /** The memory in which rates have to stand. */
  readonly buffer: ArrayBufferLike;
  /** Opens the valves as far as the angles in the blocks have them. */
  readonly lift: () => void;
  readonly connect: (d: Float64Array) => void;
  readonly keepStarts: () => void;
}

export interface NetworkMemory {
  /** So many zeros [-], in the memory as long as there is room. */
  readonly take: (count: number) => Float64Array;
  /** Sums of vectors that were taken here, or of any others. */
  readonly sums: VectorSums;
  /** The kernel for ducts whose blocks were taken here; null where there is none. */
  readonly enlist: (ducts: readonly Blocked[]) => KernelDucts | null;
  /** The same for volumes. */
  readonly enlistVolumes: (volumes: readonly Blocked[]) => KernelVolumes | null;
  /** The same for ends by their blocks. */
  readonly enlistEnds: (blocks: readonly Float64Array[]) => KernelEnds | null;
  /** Address of numbers in the memory [bytes]; of others they are copied there, once. */
  readonly addressOf: (numbers: Float64Array) => number;
}

/** The first numbers of a duct's or volume's block: its gas. Tables by their addresses [bytes]. */
const GAS = { freshU: 0, burnedU: 1, tMin: 2, dT: 3, freshR: 4, burnedR: 5, last: 6 } as const;

/** Places in the head of a duct's block behind its gas. */
export const BLOCK = {
  fanning: 7,
  wallTemperature: 8,
  heatMultiplier: 9,
  cells: 10,
  dx: 11,
  left: 12,
  right: 16,
} as const;
export const BLOCK_HEAD = 20;

const PAGE = 65_536;
const NUMBER = 8;

/** @param numbers - room for so many [-] */
export function networkMemory(numbers: number): NetworkMemory {
  const memory = newMemory(numbers);
  if (memory === null)
    return {
      take: (count) => new Float64Array(count),
      sums: plainSums(),
      enlist: () => null,
      enlistVolumes: () => null,
      enlistEnds: () => null,
      addressOf: () => 0,
    };
  const { buffer, kernel } = memory;
  let used = 0;
  // What found no room has no address: once that happens, no part is left to the kernel.
  let isFull = false;
  const take = (count: number): Float64Array => {
    isFull ||= (used + count) * NUMBER > buffer.byteLength;
    if (isFull) return new Float64Array(count);
    used += count;
    return new Float64Array(buffer, (used - count) * NUMBER, count);
  };
  const copies = new Map<Float64Array, number>();
  const addressOf = (numbers: Float64Array): number => {
    if (numbers.buffer === buffer) return numbers.byteOffset;
    const at = copies.get(numbers) ?? keep(take, numbers);
    copies.set(numbers, at);
    return at;
  };
  /** Writes what the blocks have to say of their gases, and lists them: an address and a place in the state for each. */
  const listOf = (parts: readonly Blocked[]): { readonly byteOffset: number; readonly length: number } => {
    const { byteOffset } = take(parts.length);
    if (isFull) return { byteOffset, length: 0 };
    const list = new Int32Array(buffer, byteOffset, 2 * parts.length);
    parts.forEach(({ block, offset, tables }, i) => {
      block[GAS.freshU] = addressOf(tables.freshU);
      block[GAS.burnedU] = addressOf(tables.burnedU);
      block[GAS.tMin] = tables.tMin;
      block[GAS.dT] = tables.dT;
      block[GAS.freshR] = tables.freshR;
      block[GAS.burnedR] = tables.burnedR;
      block[GAS.last] = tables.count - 2;
      list[2 * i] = block.byteOffset;
      list[2 * i + 1] = offset;
    });
    return { byteOffset, length: parts.length };
  };
  // First, so that there is room for them whatever else is taken.
  const weights = take(WEIGHT_SIZE);
  const plain = plainSums(weights);
  return {
    take,
    sums: {
      weights,
      addScaled(y, k) {
        if (y.buffer === buffer && k.buffer === buffer)
          kernel.addScaled(weights.byteOffset, y.byteOffset, k.byteOffset, y.length);
        else plain.addScaled(y, k);
      },
      carryOver(y, trial, k) {
        if (y.buffer === buffer && trial.buffer === buffer && k.buffer === buffer)
          kernel.carryOver(weights.byteOffset, y.byteOffset, trial.byteOffset, k.byteOffset, y.length);
        else plain.carryOver(y, trial, k);
      },
    },
    enlist: (ducts) => {
      const { byteOffset: at, length: count } = listOf(ducts);
      const rate = take(1);
      if (isFull) return null;
      return {
        buffer,
        decode: (y) => kernel.decode(at, count, y.byteOffset),
        balance: (d) => kernel.balance(at, count, d.byteOffset),
        fastest: () => {
          rate[0] = 0;
          kernel.raiseFastest(at, count, rate.byteOffset);
          return rate;
        },
        areSound: () => kernel.areSound(at, count) !== 0,
      };
    },
    enlistVolumes: (volumes) => {
      const { byteOffset: at, length: count } = listOf(volumes);
      if (isFull) return null;
      return { buffer, decode: (y) => kernel.decodeVolumes(at, count, y.byteOffset) };
    },
    enlistEnds: (blocks) => {
      const { byteOffset: at } = take(blocks.length);
      if (isFull) return null;
      const list = new Int32Array(buffer, at, blocks.length);
      list.set(blocks.map(({ byteOffset }) => byteOffset));
      const { byteOffset, length } = list;
      return {
        buffer,
        lift: () => kernel.lift(byteOffset, length),
        connect: (d) => kernel.connect(byteOffset, length, d.byteOffset),
        keepStarts: () => kernel.keepStarts(byteOffset, length),
      };
    },
    addressOf,
  };
}

function keep(take: NetworkMemory['take'], table: Float64Array): number {
  const kept = take(table.length);
  kept.set(table);
  return kept.byteOffset;
}

/** The compiled module, null where there is none; the same for all networks, so that it is compiled once. */
let compiled: object | null | undefined;

function newMemory(numbers: number): { buffer: ArrayBuffer; kernel: Kernel } | null {
  try {
    if (compiled === undefined) compiled = new WebAssembly.Module(bytesOf(KERNEL_BYTES));
    if (compiled === null) return null;
    const pages = Math.ceil((numbers * NUMBER) / PAGE);
    const memory = new WebAssembly.Memory({ initial: pages, maximum: pages });
    const { exports } = new WebAssembly.Instance(compiled, { env: { memory, pow: Math.pow } });
    return { buffer: memory.buffer, kernel: exports as Kernel };
  } catch {
    compiled ??= null;
    return null;
  }
}

/** A byte is its character less this, from 0 to 255: as `tools/kernel/build.mjs` writes it. */
const FIRST_CHARACTER = 48;

function bytesOf(text: string): Uint8Array {
  return Uint8Array.from(text, (character) => character.charCodeAt(0) - FIRST_CHARACTER);
}
