/** Which cylinders have the same surroundings but for a shift of the crank: what one of them does, the others do later. */
import type { Combination } from '../combination/combination.ts';

/** `representative`: as few cylinders march as can stand for the others, one of an in-line four, a bank of most V8s. `all`: every cylinder marches. */
export type Fidelity = 'representative' | 'all';

/** A choice of cylinders that stand for all. */
export interface MarchedCylinders {
  /** Numbers of the cylinders to march. */
  readonly cylinders: readonly number[];
  /** How many of the engine's each of them stands for [-]. */
  readonly weight: number;
  /** Crank degrees, 0 first, by which an engine shifted looks the same. */
  readonly shifts: readonly number[];
  /** Cylinder that does what `number` does, `shift` degrees later. */
  readonly imageOf: (number: number, shift: number) => number;
}

/** Up to so many cylinders marching all of them costs no more: copies take a few cycles more to settle. */
const FEW = 2;

/** Whether its cylinders differ, or something joins them that no shift of the crank repeats: then none stands for another. */
export function areUnlike(combination: Combination): boolean {
  const { induction, exhaustSystem, chamber, intake, exhaust, lambdaDifferences } = combination;
  const { secondary, balance, primary } = exhaustSystem;
  const each = [chamber.clearances, intake.flow.shares, exhaust.flow.shares, primary.lengths];
  const joined = [secondary, balance, induction.balance];
  return [...each, lambdaDifferences, ...joined].some((one) => one !== undefined);
}

/** All cylinders, or as few as stand for them. */
export function marchingOf(combination: Combination, fidelity: Fidelity): MarchedCylinders {
  const few = combination.block.cylinders <= FEW;
  if (fidelity === 'representative' && !few && !areUnlike(combination)) return representatives(combination);
  const cylinders = combination.block.firingAngles.map((_, i) => i + 1);
  return { cylinders, weight: 1, shifts: [0], imageOf: (number) => number };
}

/** How many groups like it a marching group stands for: those it becomes by a shift, over those of them that march. */
export function groupWeight(
  { shifts, imageOf }: MarchedCylinders,
  group: readonly number[],
  marched: readonly (readonly number[])[],
): number {
  const orbit = new Set(shifts.map((s) => Math.min(...group.map((c) => imageOf(c, s)))));
  return orbit.size / marched.filter((g) => orbit.has(Math.min(...g))).length;
}

/**
 * Finds every shift of the crank that takes firing angles to firing angles, plenums to plenums and collectors to
 * collectors, and one cylinder of each class of cylinders so related, whole collectors first. Plenums that are open into each other
 * must both march, so that a shift has to leave each of them as it is.
 *
 * An in-line four with one collector needs one cylinder; a V8 with a cross-plane crank and a collector a bank needs the
 * four of one bank, whose pulses come at uneven intervals, and the other bank follows 360 degrees later. Uneven firing
 * needs them all.
 */
function representatives(
  combination: Pick<Combination, 'block' | 'induction' | 'exhaustSystem'>,
): MarchedCylinders {
  const { block, induction, exhaustSystem } = combination;
  const angles = block.firingAngles;
  const plenums = induction.plenums.map((p) => p.cylinders);
  const collectors = exhaustSystem.collectors?.groups ?? [];
  const imageOf = (number: number, shift: number): number => {
    const target = angles[number - 1] + shift;
    return 1 + angles.findIndex((a) => sameAngle(a, target));
  };
  const candidates = angles.map((a) => (((a - angles[0]) % 720) + 720) % 720).sort((a, b) => a - b);
  const shifts = candidates.filter((shift) => {
    const images = angles.map((_, i) => imageOf(i + 1, shift));
    if (images.includes(0) || new Set(images).size !== images.length) return false;
    const becomes = (g: readonly number[]): readonly number[] => g.map((c) => images[c - 1]);
    if (induction.dividerArea !== undefined && !plenums.every((g) => sameMembers(g, becomes(g))))
      return false;
    return [plenums, collectors].every((groups) =>
      groups.every((g) => groups.some((h) => sameMembers(h, becomes(g)))),
    );
  });
  const marching: number[] = [];
  const covered = new Set<number>();
  const order = [...collectors.flat(), ...block.firingOrder];
  for (const number of order) {
    if (covered.has(number)) continue;
    marching.push(number);
    for (const shift of shifts) covered.add(imageOf(number, shift));
  }
  return { cylinders: marching, weight: angles.length / marching.length, shifts, imageOf };
}

function sameAngle(a: number, b: number): boolean {
  const d = (((a - b) % 720) + 720) % 720;
  return d < 1e-6 || d > 720 - 1e-6;
}

function sameMembers(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && b.every((c) => a.includes(c));
}
