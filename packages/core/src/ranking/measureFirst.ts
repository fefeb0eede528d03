/** Which one measurement would settle an answer best: of what can be measured, the unknown that brings most of what leaves it open. */

import type { Subject } from '../uncertainty/responseSurface.ts';
import { settledBy } from '../uncertainty/settledBy.ts';
import type { Unknown } from '../uncertainty/unknown.ts';
import { varianceShares } from '../uncertainty/varianceShares.ts';
import type { MeasureFirst } from './firstMeasurement.ts';

/** Below this share of a variance no measurement settles anything [-]. */
const WORTH_MEASURING = 0.1;

/** Of the leaders of a ranking: what settles which of them gains more, or with a single one its gain. Null where nothing stands out. */
export function measureFirst(
  baseline: Subject,
  [leader, ...others]: readonly Subject[],
  unknowns: readonly Unknown[],
): MeasureFirst | null {
  if (leader === undefined) return null;
  const own = effectsOf(baseline, leader);
  const compared =
    others.length === 0 ? [new Map<string, number>()] : others.map((o) => effectsOf(baseline, o));
  const scattering = others.length === 0 ? [leader, baseline] : [leader, ...others];
  const scatter = scattering.reduce(
    (sum, subject) => sum + ((100 * (subject.scatter ?? 0) * subject.power) / baseline.power) ** 2,
    0,
  );
  const rest = scatter + sharedVariance(leader, others);
  const variances = new Map<string, number>();
  for (const other of compared)
    for (const id of new Set([...own.keys(), ...other.keys()])) {
      const difference = (own.get(id) ?? 0) - (other.get(id) ?? 0);
      variances.set(id, (variances.get(id) ?? 0) + difference ** 2 / compared.length);
    }
  const whole = [...variances.values()].reduce((sum, value) => sum + value, rest);
  const candidates = [...variances]
    .filter(([, variance]) => variance > WORTH_MEASURING * whole)
    .sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))
    .flatMap(([id, variance]) => {
      const unknown = unknowns.find((one) => one.id === id);
      return unknown === undefined ? [] : [{ unknown, variance, by: settledBy(unknown.path) }];
    });
  const first = candidates.find(({ by }) => by === 'measuring') ?? candidates[0];
  if (first === undefined) return null;
  return {
    path: first.unknown.path,
    what: first.unknown.id,
    by: first.by,
    settles: others.length === 0 ? 'gain' : 'order',
    changes: [leader, ...others].map(({ name }) => name),
    sigmaPct: Math.sqrt(whole),
    leftPct: Math.sqrt(whole - first.variance),
  };
}

/** Of the model's own error, and of what the responses miss, which no measurement takes away [%^2]: of one gain, or of the mean difference of two. */
function sharedVariance(leader: Subject, others: readonly Subject[]): number {
  const own = loadingsOf(leader);
  const compared = others.length === 0 ? [new Map<string, number>()] : others.map(loadingsOf);
  return compared.reduce((sum, other) => {
    const names = new Set([...own.keys(), ...other.keys()]);
    const square = [...names].reduce(
      (all, name) => all + ((own.get(name) ?? 0) - (other.get(name) ?? 0)) ** 2,
      0,
    );
    return sum + (1e4 * square) / compared.length;
  }, 0);
}

/** On independent errors that candidates share [-]. */
function loadingsOf({ modelError = {}, missed }: Subject): ReadonlyMap<string, number> {
  return new Map([
    ...Object.entries(modelError),
    ...missed.map((share, draw) => [`rest of draw ${draw}`, share] as const),
  ]);
}

/** What one standard deviation of each unknown does to the gain [% of power]. */
function effectsOf(baseline: Subject, candidate: Subject): ReadonlyMap<string, number> {
  const { unknowns } = varianceShares(baseline, candidate);
  return new Map(unknowns.map(({ id, perSigma }) => [id, perSigma]));
}
