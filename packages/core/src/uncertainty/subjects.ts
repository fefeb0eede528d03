/** What forecasts with unknowns moved say of baseline and candidates: how power follows each unknown, and what is left. */
import type { Change } from '../changes/change.ts';
import type { Reach } from './heldWithin.ts';
import type { Offset } from './perturbed.ts';
import { movedBy, type Response, type Subject } from './responseSurface.ts';
import type { Unknown } from './unknown.ts';

/** Where powers are read: averaged over the speeds, or at one of them. */
export interface Readings {
  readonly unknowns: readonly Unknown[];
  /** Of the unknowns that can't go any way, by their ids. */
  readonly reach: ReadonlyMap<string, Reach>;
  /** Of the forecast of that name [kW]; null where it was not run. */
  readonly power: (name: string) => number | null;
  /** How far that power scatters where cycles never repeat, over that power [-]. */
  readonly scatter: (name: string) => number;
}

/** What each draw of everything at once moves. */
export type Vectors = readonly (readonly Offset[])[];

/** So many times what the other draws missed, root mean square, is the most that one of them counts [-]. */
const MOST_OF_OTHERS = 5;

/**
 * How far an unknown is moved [standard deviations]: both ways and with the middle, the points of the three-point Gauss-Hermite
 * rule, from which a parabola gives the variance of a cubic nearly, and not only of a parabola (Abramowitz and Stegun,
 * 25.4.46). One way alone, a line through it has the linear part of a cubic right too, and of a bend b takes 3 b^2 for the variance 2 b^2.
 */
export const WIDE: number = Math.sqrt(3);

/** Where an unknown may have been moved to, what is preferred first: where the engine can't be built so far off, less far. */
export const WAYS: readonly number[] = [WIDE, -WIDE, 1, -1];

const BASELINE = 'baseline';

/** Name of a forecast; null is the baseline. */
export function forecastName(change: Change | null, what: string): string {
  return `${change === null ? BASELINE : `with ${change.name}`}: ${what}`;
}

/** What was found of an unknown; null where nothing was. */
export function responseOf(read: Readings, change: Change | null, { id }: Unknown): Response | null {
  for (const z of [WIDE, 1]) {
    const [up, down] = [movedAt(read, change, id, z), movedAt(read, change, id, -z)];
    if (up === null || down === null) continue;
    return reaching(read, id, { linear: (up - down) / (2 * z), curved: (up + down) / (2 * z * z) });
  }
  for (const z of WAYS) {
    const moved = movedAt(read, change, id, z);
    if (moved !== null) return reaching(read, id, { linear: moved / z, curved: 0 });
  }
  return null;
}

/**
 * That of a candidate: the baseline's, and what the candidate does beyond it where both were moved equally far. A response that
 * neither a line nor a parabola fits, of a pipe in tune, would else pass for a difference between the two.
 */
function besideBaseline(
  read: Readings,
  change: Change,
  unknown: Unknown,
  own: Response | undefined,
): Response | null {
  if (own === undefined) return responseOf(read, change, unknown);
  const beyond = (z: number): number | null => {
    const [after, before] = [movedAt(read, change, unknown.id, z), movedAt(read, null, unknown.id, z)];
    return after === null || before === null ? null : after - before;
  };
  for (const z of [WIDE, 1]) {
    const [up, down] = [beyond(z), beyond(-z)];
    if (up === null || down === null) continue;
    const [linear, curved] = [(up - down) / (2 * z), (up + down) / (2 * z * z)];
    return { ...own, linear: own.linear + linear, curved: own.curved + curved };
  }
  for (const z of WAYS) {
    const moved = beyond(z);
    if (moved !== null) return { ...own, linear: own.linear + moved / z };
  }
  return responseOf(read, change, unknown);
}

/** By how much an unknown that is off by z moves power, over its nominal value [-]; null where that was not run. */
function movedAt({ power }: Readings, change: Change | null, id: string, z: number): number | null {
  const reference = power(forecastName(change, ''));
  const moved = power(forecastName(change, `${id} ${z}`));
  return reference === null || moved === null ? null : moved / reference - 1;
}

function reaching({ reach }: Readings, id: string, response: Response): Response {
  const ends = reach.get(id);
  return ends === undefined ? response : { ...response, reach: ends };
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
  return { name: BASELINE, power, responses, missed: [], scatter: read.scatter(name) };
}

/** An unknown that was not looked at on the candidate is taken to move it as it moves the baseline; `missed` is what that costs. */
export function candidateSubject(
  read: Readings,
  baseline: Subject | null,
  change: Change,
  vectors: Vectors,
): Subject | null {
  const name = forecastName(change, '');
  const power = read.power(name);
  if (baseline === null || power === null) return null;
  const responses: Record<string, Response> = {};
  for (const unknown of read.unknowns) {
    const own = besideBaseline(read, change, unknown, baseline.responses[unknown.id]);
    const response =
      own ?? (unknown.replacedBy.includes(change.name) ? null : baseline.responses[unknown.id]);
    if (response !== null && response !== undefined) responses[unknown.id] = response;
  }
  const scatter = read.scatter(name);
  const subject: Subject = { name: change.name, power, responses, missed: [], scatter };
  return { ...subject, missed: missedBy(read, baseline, subject, change, vectors) };
}

/** What each vector moved the ratio of candidate to baseline beyond the responses known, over the root of how many were run [-]. */
function missedBy(
  { power }: Readings,
  baseline: Subject,
  candidate: Subject,
  change: Change,
  vectors: Vectors,
): readonly number[] {
  const surface = ({ power: nominal, responses }: Subject, offsets: readonly Offset[]): number =>
    offsets.reduce((sum, { unknown: { id }, z }) => {
      const response = responses[id];
      return response === undefined ? sum : sum + nominal * movedBy(response, z);
    }, nominal);
  const missed = vectors.map((offsets, v) => {
    const before = power(forecastName(null, `vector ${v}`));
    const after = power(forecastName(change, `vector ${v}`));
    if (before === null || after === null) return null;
    return after / before - surface(candidate, offsets) / surface(baseline, offsets);
  });
  const run = missed.filter((miss) => miss !== null);
  return missed.map((miss) => (miss === null ? 0 : heldBy(run, miss) / Math.sqrt(run.length)));
}

/** One that went over a cliff, of knock say, is rarer than one of so few, and would stand for all of them. */
function heldBy(run: readonly number[], miss: number): number {
  if (run.length < 3) return miss;
  const others = run.reduce((sum, other) => sum + other * other, -miss * miss) / (run.length - 1);
  const most = MOST_OF_OTHERS * Math.sqrt(Math.max(0, others));
  return Math.min(most, Math.max(-most, miss));
}
