/** Knobs that the figures can't tell apart, from what the fit left uncertain of them. */
import { inverse, Matrix } from 'ml-matrix';
import type { Confusion } from './calibrationResult.ts';
import type { Knob } from './knobs.ts';

/** Correlation beyond which knobs count as confused [-]. */
const CONFUSED = 0.7;
/** A knob takes part in a confusion of several from here on [-]. */
const TAKES_PART = 0.25;

/** Pairs first; then each knob that no pair has but that several others together can stand in for. */
export function confusionsOf(
  knobs: readonly Pick<Knob, 'name'>[],
  covariance: readonly (readonly number[])[],
  correlation: readonly (readonly number[])[],
): readonly Confusion[] {
  const pairs = knobs.flatMap((a, i) =>
    knobs.slice(i + 1).flatMap((b, k): Confusion[] => {
      const r = correlation[i][i + 1 + k];
      return Math.abs(r) >= CONFUSED ? [{ knobs: [a.name, b.name], correlation: r }] : [];
    }),
  );
  const paired = new Set(pairs.flatMap(({ knobs: both }) => both));
  const precision = inverse(new Matrix(covariance.map((row) => [...row])));
  const groups: Confusion[] = [];
  const grouped = new Set<string>();
  knobs.forEach(({ name }, i) => {
    if (paired.has(name) || grouped.has(name)) return;
    // Of a knob with the best sum of all others: 1 / (variance x precision) is what the others leave of its variance.
    const multiple = Math.sqrt(Math.max(0, 1 - 1 / (covariance[i][i] * precision.get(i, i))));
    if (multiple < CONFUSED) return;
    const others = knobs.filter((_, k) => k !== i && Math.abs(correlation[i][k]) >= TAKES_PART);
    if (others.length < 2) return;
    groups.push({ knobs: [name, ...others.map((other) => other.name)], correlation: multiple });
    for (const knob of [name, ...others.map((other) => other.name)]) grouped.add(knob);
  });
  return [...pairs, ...groups];
}
