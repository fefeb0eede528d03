/** What forecasts with unknowns moved say of baseline and candidates: how power follows each unknown, and what is left. */
import type { Change } from '../changes/change.ts';
import type { Response, Subject } from './pairedDraws.ts';
import type { Offset } from './perturbed.ts';
import type { Unknown } from './unknowns.ts';

/** Where powers are read: averaged over the speeds, or at one of them. */
export interface Readings {
  readonly unknowns: readonly Unknown[];
  /** Of the forecast of that name [kW]; null where it was not run. */
  readonly power: (name: string) => number | null;
  /** How far that power scatters where cycles never repeat, over that power [-]. */
  readonly scatter: (name: string) => number;
}

/** What each vector moves. */
export type Vectors = readonly (readonly Offset[])[];

/**
 * How far an unknown is moved both ways [standard deviations]: with the middle, the points of the three-point Gauss-Hermite
 * rule, from which a parabola gives the variance of a cubic nearly, and not only of a parabola (Abramowitz and Stegun,
 * 25.4.46).
 */
export const WIDE: number = Math.sqrt(3);

const BASELINE = 'baseline';

/** Name of a forecast; null is the baseline. */
export function forecastName(change: Change | null, what: string): string {
  return `${change === null ? BASELINE : `with ${change.name}`}: ${what}`;
}

/**
 * What was found of an unknown; null where nothing was. Moved one way only, it is taken to bend as the baseline does: else
 * the bend of a baseline moved both ways would pass for a difference between the two.
 */
export function responseOf(
  { power }: Readings,
  change: Change | null,
  { id }: Unknown,
  bend: number = 0,
): Response | null {
  const reference = power(forecastName(change, ''));
  if (reference === null) return null;
  const moved = (z: number): number | null => power(forecastName(change, `${id} ${z}`));
  for (const z of [WIDE, 1]) {
    const up = moved(z);
    const down = moved(-z);
    if (up === null || down === null) continue;
    const middle = (up + down) / (2 * reference) - 1;
    return { linear: (up - down) / (2 * z * reference), curved: middle / (z * z) };
  }
  const up = moved(1);
  if (up !== null) return { linear: up / reference - 1 - bend, curved: bend };
  const down = moved(-1);
  return down === null ? null : { linear: 1 + bend - down / reference, curved: bend };
}

/** Null where it was not run. */
export function baselineSubject(read: Readings): Subject | null {
  const name = forecastName(null, '');
  const power = read.power(name);
  if (power === null) return null;
  const responses: Record<string, Response> = {};
  for (const unknown of read.unknowns) {
    const response = responseOf(read, null, unknown);
    if (response !== null) responses[unknown.id] = response;
  }
  return { name: BASELINE, power, responses, remainder: 0, scatter: read.scatter(name) };
}

/** An unknown that was not looked at on the candidate is taken to move it as it moves the baseline; the remainder is what that misses. */
export function candidateSubject(read: Readings, change: Change, vectors: Vectors): Subject | null {
  const baseline = baselineSubject(read);
  const name = forecastName(change, '');
  const power = read.power(name);
  if (baseline === null || power === null) return null;
  const responses: Record<string, Response> = {};
  for (const unknown of read.unknowns) {
    const own = responseOf(read, change, unknown, baseline.responses[unknown.id]?.curved);
    const response =
      own ?? (unknown.replacedBy.includes(change.name) ? null : baseline.responses[unknown.id]);
    if (response !== null && response !== undefined) responses[unknown.id] = response;
  }
  const scatter = read.scatter(name);
  const subject: Subject = { name: change.name, power, responses, remainder: 0, scatter };
  return { ...subject, remainder: remainderOf(read, baseline, change, subject, vectors) };
}

/** Root mean square of what the vectors moved the ratio of candidate to baseline beyond the responses known [-]. */
function remainderOf(
  { power }: Readings,
  baseline: Subject,
  change: Change,
  candidate: Subject,
  vectors: Vectors,
): number {
  const missed = vectors.flatMap((offsets, v) => {
    const before = power(forecastName(null, `vector ${v}`));
    const after = power(forecastName(change, `vector ${v}`));
    if (before === null || after === null) return [];
    const moved = ({ responses }: Subject, { unknown, z }: Offset): number => {
      const response = responses[unknown.id];
      return response === undefined ? 1 : 1 + z * response.linear + z * z * response.curved;
    };
    const expected = offsets.reduce(
      (ratio, offset) => ratio * (moved(candidate, offset) / moved(baseline, offset)),
      candidate.power / baseline.power,
    );
    return [after / before - expected];
  });
  if (missed.length === 0) return 0;
  return Math.sqrt(missed.reduce((sum, value) => sum + value * value, 0) / missed.length);
}
