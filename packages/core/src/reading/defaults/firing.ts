/** Firing order, banks and collectors by number and layout of cylinders. */
import { counted } from '../../base/counted.ts';
import type { WordEstimate } from '../../combination/ledger.ts';
import type { Layout } from '../schema/engineSection.ts';
import type { ExhaustStyle } from '../schema/exhaustSection.ts';

/**
 * Usual firing orders by layout and number of cylinders; common practice, no source.
 *
 * V engines are numbered with the odd cylinders on one bank and the even ones on the other (V8: cross-plane crank); ten- and
 * twelve-cylinder V engines and flat engines count one bank through, then the other.
 */
const ORDERS: Readonly<Record<Layout, Readonly<Record<number, readonly number[]>>>> = {
  inline: {
    1: [1],
    2: [1, 2],
    3: [1, 3, 2],
    4: [1, 3, 4, 2],
    5: [1, 2, 4, 5, 3],
    6: [1, 5, 3, 6, 2, 4],
    8: [1, 6, 2, 5, 8, 3, 7, 4],
  },
  v: {
    2: [1, 2],
    4: [1, 3, 2, 4],
    6: [1, 2, 3, 4, 5, 6],
    8: [1, 8, 4, 3, 6, 5, 7, 2],
    10: [1, 6, 5, 10, 2, 7, 3, 8, 4, 9],
    12: [1, 12, 5, 8, 3, 10, 6, 7, 2, 11, 4, 9],
  },
  flat: {
    2: [1, 2],
    4: [1, 3, 2, 4],
    6: [1, 6, 2, 4, 3, 5],
  },
};

/** Layout by number of cylinders: six in line, eight and more in a V. */
export function layout(cylinders: number): WordEstimate<Layout> {
  const value = cylinders <= 6 ? 'inline' : 'v';
  return { value, reason: `usual for ${counted(cylinders, 'cylinder')}` };
}

/** Usual firing order, or null where there is none to assume. */
export function usualFiringOrder(cylinders: number, kind: Layout): readonly number[] | null {
  return ORDERS[kind][cylinders] ?? null;
}

/**
 * Cylinders of each bank. A V up to eight has odd and even cylinders on its banks, a longer one and a flat engine are numbered along one bank
 * and then along the other, unless the firing order tells that it is the other way.
 *
 * @param angles - firing angle of each cylinder, from number 1 [deg]; none: nothing is known of them
 */
export function usualBanks(
  cylinders: number,
  kind: Layout,
  angles: readonly number[] = [],
): readonly (readonly number[])[] {
  const all = Array.from({ length: cylinders }, (_, index) => index + 1);
  if (kind === 'inline' || cylinders < 2) return [all];
  const odd = all.filter((cylinder) => cylinder % 2 === 1);
  const alternating = [odd, all.filter((cylinder) => cylinder % 2 === 0)];
  const halves = [all.slice(0, cylinders / 2), all.slice(cylinders / 2)];
  const [usual, other] = kind === 'v' && cylinders <= 8 ? [alternating, halves] : [halves, alternating];
  return !sharesCrank(usual, kind, angles) && sharesCrank(other, kind, angles) ? other : usual;
}

/**
 * Whether these can be the two banks of one crank, each numbered from the same end. Pistons that face each other then reach top centre as far
 * apart all along it: together in a flat engine, by the angle between the banks in a V, which is neither none nor a half turn.
 */
function sharesCrank(
  [one, other]: readonly (readonly number[])[],
  kind: Layout,
  angles: readonly number[],
): boolean {
  if (one.length !== other.length) return false;
  const apart = one.map((cylinder, i) => angles[other[i] - 1] - angles[cylinder - 1]);
  const [first] = apart;
  const isFacing = kind === 'flat' ? isApart(first, 0, 360) : !isApart(first, 0, 180);
  return isFacing && apart.every((angle) => isApart(angle, first, 360));
}

/** Whether two angles are as good as whole periods apart [deg]. */
function isApart(a: number, b: number, period: number): boolean {
  const turns = (a - b) / period;
  return Math.abs(turns - Math.round(turns)) < 1e-6;
}

/** Cylinders that share a collector: each bank; an inline six with headers is split in two threes. */
export function usualGroups(
  banks: readonly (readonly number[])[],
  style: ExhaustStyle,
): readonly (readonly number[])[] {
  if (banks.length === 1 && banks[0].length === 6 && style === 'headers') {
    return [banks[0].slice(0, 3), banks[0].slice(3)];
  }
  return banks;
}

/**
 * Pairs within each group whose pulses come as evenly as can be in all: a turn of the crank apart in an in-line four, 1-4 and 2-3; none a
 * quarter turn apart in a bank of a V8, where the nearest pair for one cylinder may leave the others the worst. Where a group is
 * odd, its last cylinder stays alone.
 *
 * @param angles - firing angle of each cylinder, from number 1 [deg]
 */
export function evenPairs(
  groups: readonly (readonly number[])[],
  angles: readonly number[],
): readonly (readonly number[])[] {
  const offTurn = ([one, other]: readonly number[]): number => {
    if (other === undefined) return 0;
    const apart = (((angles[other - 1] - angles[one - 1]) % 720) + 720) % 720;
    return (apart - 360) ** 2;
  };
  const off = (pairs: readonly (readonly number[])[]): number =>
    pairs.reduce((sum, pair) => sum + offTurn(pair), 0);
  const small = groups.flatMap((group) =>
    Array.from({ length: Math.ceil(group.length / MOST_PAIRED) }, (_, i) =>
      group.slice(i * MOST_PAIRED, (i + 1) * MOST_PAIRED),
    ),
  );
  return small.flatMap((group) => {
    const even = group.length - (group.length % 2);
    const best = pairings(group.slice(0, even)).reduce((a, b) => (off(b) < off(a) ? b : a));
    return even < group.length ? [...best, group.slice(even)] : best;
  });
}

/** Cylinders of one collector that are looked at together: eight pair in 105 ways, sixteen in two million. */
const MOST_PAIRED = 8;

/** Every way of pairing some cylinders, an even number of them. */
function pairings(cylinders: readonly number[]): readonly (readonly (readonly number[])[])[] {
  const [first, ...others] = cylinders;
  if (first === undefined) return [[]];
  return others.flatMap((mate) =>
    pairings(others.filter((other) => other !== mate)).map((rest) => [[first, mate], ...rest]),
  );
}
