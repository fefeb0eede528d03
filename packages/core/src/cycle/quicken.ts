/**
 * What slow modes would still do, cycle after cycle, worked out at once: Anderson's acceleration of the map from one cycle to the
 * next (D. G. Anderson, J. ACM 12 (1965) 547, over the last few cycles alone). A muffler's box keeps 0.7 of what it is off by from
 * one cycle to the next and takes thirty to fill; two or three of its cycles tell where it ends. Copies ring in a plenum: what they
 * recall is led on together with the rest.
 */
import { combineCopies, type KeptCopy, keepCopies } from '../network/copiedEnds.ts';
import { CYL } from '../network/cylinder.ts';
import { DUCT_FIELDS } from '../network/duct.ts';
import { decode, isSound } from '../network/network.ts';
import { leastCombination } from '../numerics/leastCombination.ts';
import type { March } from './march.ts';
import type { OutletGas } from './outletGas.ts';

/** Cycles looked at, at most. */
const MOST = 4;
/** The state is moved where the cycles together leave this share of the last change or less [-]: otherwise it does not follow slow modes. */
const EXPLAINED = 0.3;
/** Thermal energy of a kilogram of gas, about [J/kg]: makes energies comparable with masses. */
const WARMTH = 5e5;

export interface Quickener {
  /** To be called after a cycle, with the state that it began with: moves the state to where the cycles seen lead, where they do. */
  readonly look: (before: Float64Array) => void;
  /** Forgets the cycles seen: the engine was altered, or its steps. */
  readonly forget: () => void;
}

export function quickener(march: March, outlet: OutletGas): Quickener {
  const { y, network } = march;
  const parts = partsOf(march);
  const states = statesOf(march);
  let ends: {
    readonly y: Float64Array;
    readonly outlet: number;
    readonly copies: readonly KeptCopy[];
  }[] = [];
  let changes: Float64Array[] = [];
  const forget = (): void => {
    ends = [];
    changes = [];
  };
  return {
    look: (before) => {
      const charge = march.diaries.reduce((sum, diary) => sum + diary.trappedMass, 0);
      ends.push({ y: y.slice(), outlet: outlet.temperature(), copies: keepCopies(network, y) });
      changes.push(
        Float64Array.from([
          ...parts.map(({ from, count, per }) => {
            let sum = 0;
            for (let i = from; i < from + count; i++) sum += y[i] - before[i];
            return sum / (per * charge);
          }),
          // What copies deliver beside what they recall vanishes in a cycle that repeats.
          ...network.copies.map(({ offset }) => (y[offset] - before[offset]) / charge),
        ]),
      );
      if (ends.length > MOST) {
        ends.shift();
        changes.shift();
      }
      const found = leastCombination(changes);
      if (found === null || !(found.left <= EXPLAINED)) return;
      const { shares } = found;
      for (const i of states) y[i] = shares.reduce((sum, share, k) => sum + share * ends[k].y[i], 0);
      decode(network, 0, y);
      // Nearly empty cells may be led past nothing: then the cycle goes on from where it ended.
      if (!isSound(network)) {
        y.set(ends[ends.length - 1].y);
        forget();
        return;
      }
      combineCopies(
        network,
        y,
        ends.map((end) => end.copies),
        shares,
      );
      outlet.set(shares.reduce((sum, share, k) => sum + share * ends[k].outlet, 0));
    },
    forget,
  };
}

/**
 * Mass, energy and burned mass of every part, as entries of the state to be summed and what makes them comparable. Sums, since
 * single cells chatter where the whole goes smoothly.
 */
function partsOf({ network }: March): { from: number; count: number; per: number }[] {
  const still = [...network.volumes, ...network.cylinders].map(({ offset }) => ({ offset, count: 1 }));
  const ducts = network.ducts.map(({ offset, cells }) => ({ offset, count: cells }));
  return [
    ...still.flatMap(({ offset, count }) => [0, 1, 2].map((k) => ({ from: offset + k, count, field: k }))),
    ...ducts.flatMap(({ offset, count }) =>
      [0, 2, 3].map((k) => ({ from: offset + k * count, count, field: k === 0 ? 0 : k - 1 })),
    ),
  ].map(({ from, count, field }) => ({ from, count, per: field === 1 ? WARMTH : 1 }));
}

/** Entries of the state that say what gas is where. The rest are running totals, which go on from where they are. */
function statesOf({ network }: March): number[] {
  const run = (from: number, count: number) => Array.from({ length: count }, (_, i) => from + i);
  return [
    ...network.volumes.flatMap(({ offset }) => run(offset, 3)),
    ...network.cylinders.flatMap(({ offset }) =>
      [CYL.mass, CYL.energy, CYL.burned, CYL.entropy, CYL.liquid].map((field) => offset + field),
    ),
    ...network.ducts.flatMap(({ offset, cells }) => run(offset, DUCT_FIELDS * cells)),
  ];
}
