/**
 * Memory that a network shares with its compiled step, tools/kernel: at the speed of C. Where there is no WebAssembly, or a page forbids
 * it, the same is worked out by the files beside this one, to the same bits.
 */
import type { GasTables } from '../gas/gasTables.ts';
import { KERNEL_BYTES } from './kernelBytes.ts';

/** What the library needs of WebAssembly; Node, browsers and threads have it. */
declare const WebAssembly: {
  readonly Memory: new (size: { initial: number; maximum: number }) => { readonly buffer: ArrayBuffer };
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
};

/** A network is given by the address of its plan, see kernelNetwork.ts, a state or rates by their own, in bytes. */
interface Kernel {
  readonly decode: (plan: number, y: number) => void;
  readonly rates: (plan: number, y: number, d: number) => void;
  /** A step by the numbers of kernelStep.ts. */
  readonly step: (plan: number, method: number, y: number) => number;
  readonly keepStarts: (plan: number) => void;
  readonly raiseFastest: (plan: number, fastest: number) => void;
  readonly isSound: (plan: number) => number;
}

/** A duct or volume as the kernel meets it: its block of memory, its place in the state and its gas. */
export interface Blocked {
  readonly block: Float64Array;
  readonly offset: number;
  readonly tables: GasTables;
}

export interface NetworkMemory {
  /** So many zeros [-], in the memory as long as there is room. */
  readonly take: (count: number) => Float64Array;
  /** Null where there is none. */
  readonly kernel: Kernel | null;
  /** Whether something found no room. It has no address then, and the kernel can't be asked for it. */
  readonly isFull: () => boolean;
  /** Address of numbers in the memory [bytes]; of others they are copied there, once. */
  readonly addressOf: (numbers: Float64Array) => number;
}

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
      kernel: null,
      isFull: () => true,
      addressOf: () => 0,
    };
  const { buffer, kernel } = memory;
  let used = 0;
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
  return {
    take,
    kernel,
    isFull: () => isFull,
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

/** Functions that are no instructions of WebAssembly: both sides ask the same, for the same bits. */
const MATHS = {
  pow: Math.pow,
  exp: Math.exp,
  log: Math.log,
  sin: Math.sin,
  cos: Math.cos,
} as const;

function newMemory(numbers: number): { buffer: ArrayBuffer; kernel: Kernel } | null {
  try {
    if (compiled === undefined) compiled = new WebAssembly.Module(bytesOf(KERNEL_BYTES));
    if (compiled === null) return null;
    const pages = Math.ceil((numbers * NUMBER) / PAGE);
    const memory = new WebAssembly.Memory({ initial: pages, maximum: pages });
    const { exports } = new WebAssembly.Instance(compiled, { env: { memory, ...MATHS } });
    return { buffer: memory.buffer, kernel: exports as Kernel };
  } catch {
    compiled ??= null;
    return null;
  }
}

/** A byte is its character less this, from 0 to 255: as `tools/kernel/build.mjs` writes it. */
const FIRST_CHARACTER = 48;

function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i) - FIRST_CHARACTER;
  return bytes;
}
