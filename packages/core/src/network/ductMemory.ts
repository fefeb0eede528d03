/**
 * Memory that the ducts of a network share with their compiled stage, tools/kernel/ductKernel.as: two cells at a time, at the speed of
 * C. Where there is no WebAssembly, or a page forbids it, the same is worked out by duct.ts, to the same bits.
 */
import type { GasTables } from '../gas/gasTables.ts';
import { plainSums, type VectorSums, WEIGHT_SIZE } from '../numerics/rungeKutta.ts';
import { DUCT_KERNEL_BYTES } from './ductKernelBytes.ts';

/** What the library needs of WebAssembly; Node, browsers and threads have it. */
declare const WebAssembly: {
  readonly Memory: new (size: { initial: number; maximum: number }) => { readonly buffer: ArrayBuffer };
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
};

/** The first two take a list of ducts by its address and length, and the address of a state or of rates, in bytes. */
interface Kernel {
  readonly decode: (list: number, count: number, y: number) => void;
  readonly balance: (list: number, count: number, d: number) => void;
  /** The sums of a step, {@link VectorSums}, by addresses and the length of the vectors. */
  readonly addScaled: (weights: number, y: number, k: number, count: number) => void;
  readonly carryOver: (weights: number, y: number, trial: number, k: number, count: number) => void;
}

/** A duct as the kernel meets it: its block of memory, its place in the state and its gas. */
export interface BlockedDuct {
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
}

export interface DuctMemory {
  /** So many zeros [-], in the memory as long as there is room. */
  readonly take: (count: number) => Float64Array;
  /** Sums of vectors that were taken here, or of any others. */
  readonly sums: VectorSums;
  /** The kernel for ducts whose blocks were taken here; null where there is none. */
  readonly enlist: (ducts: readonly BlockedDuct[]) => KernelDucts | null;
}

/** Places in the head of a block, which the kernel reads. */
export const BLOCK = {
  freshU: 0,
  burnedU: 1,
  tMin: 2,
  dT: 3,
  freshR: 4,
  burnedR: 5,
  last: 6,
  fanning: 7,
  wallTemperature: 8,
  heatMultiplier: 9,
  cells: 10,
  left: 12,
  right: 16,
} as const;
export const BLOCK_HEAD = 20;

const PAGE = 65_536;
const NUMBER = 8;

/** @param numbers - room for so many [-] */
export function ductMemory(numbers: number): DuctMemory {
  const memory = newMemory(numbers);
  if (memory === null)
    return { take: (count) => new Float64Array(count), sums: plainSums(), enlist: () => null };
  const { buffer, kernel } = memory;
  let used = 0;
  const take = (count: number): Float64Array => {
    if ((used + count) * NUMBER > buffer.byteLength) return new Float64Array(count);
    used += count;
    return new Float64Array(buffer, (used - count) * NUMBER, count);
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
      const tables = new Map<GasTables, { fresh: number; burned: number }>();
      for (const { tables: gas } of ducts)
        if (!tables.has(gas))
          tables.set(gas, { fresh: keep(take, gas.freshU), burned: keep(take, gas.burnedU) });
      const list = new Int32Array(buffer, take(ducts.length).byteOffset, 2 * ducts.length);
      ducts.forEach(({ block, offset, tables: gas }, i) => {
        block[BLOCK.freshU] = tables.get(gas)?.fresh ?? 0;
        block[BLOCK.burnedU] = tables.get(gas)?.burned ?? 0;
        list[2 * i] = block.byteOffset;
        list[2 * i + 1] = offset;
      });
      const { byteOffset, length } = list;
      return {
        buffer,
        decode: (y) => kernel.decode(byteOffset, length / 2, y.byteOffset),
        balance: (d) => kernel.balance(byteOffset, length / 2, d.byteOffset),
      };
    },
  };
}

function keep(take: DuctMemory['take'], table: Float64Array): number {
  const kept = take(table.length);
  kept.set(table);
  return kept.byteOffset;
}

/** The compiled module, null where there is none; the same for all networks, so that it is compiled once. */
let compiled: object | null | undefined;

function newMemory(numbers: number): { buffer: ArrayBuffer; kernel: Kernel } | null {
  try {
    if (compiled === undefined) compiled = new WebAssembly.Module(bytesOf(DUCT_KERNEL_BYTES));
    if (compiled === null) return null;
    const pages = Math.ceil((numbers * NUMBER) / PAGE);
    const memory = new WebAssembly.Memory({ initial: pages, maximum: pages });
    const { exports } = new WebAssembly.Instance(compiled, { env: { memory } });
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
