/** How baseline and candidates respond to the unknowns, with as few forecasts as that takes. */

import type { Change } from '../changes/change.ts';
import { sectionOf } from '../reading/fields/isWithin.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import {
  askBothWays,
  askEitherWay,
  askVectors,
  type ResponseWorld,
  sharedUnknowns,
} from './askedForecasts.ts';
import { type GainKnown, gainKnown, isSettled } from './gainKnown.ts';
import type { Reach } from './heldWithin.ts';
import { reaches } from './reaches.ts';
import { readings } from './readings.ts';
import type { Subject } from './responseSurface.ts';
import {
  baselineSubject,
  candidateSubject,
  forecastName,
  type Readings,
  responseOf,
  type Vectors,
} from './subjects.ts';
import type { Unknown } from './unknown.ts';

/** Baseline and candidates with what was found of them; null where an abort kept a reference from being run. */
export interface Subjects {
  readonly baseline: Subject | null;
  /** In the order of the changes. */
  readonly candidates: readonly (Subject | null)[];
}

/** The same at one speed [1/min]. */
export interface SubjectsAtSpeed extends Subjects {
  readonly rpm: number;
}

/** The responses found: of mean power, and of the power at each speed that they were taken at. */
export interface Responses extends Subjects {
  readonly bySpeed: readonly SubjectsAtSpeed[];
  /** False where an abort came before the end: powers stand, spreads would leave out what was not looked at. */
  readonly complete: boolean;
  /** Ids of unknowns that could not be moved either way. */
  readonly stuck: readonly string[];
}

/** Draws of everything at once that every candidate is run with before any shared unknown is looked at singly on it. */
const FIRST_DRAWS = 4;
/** What a round looks at on each candidate that is still open: unknowns one by one, those likeliest to matter first, and more draws. */
const ROUNDS = [
  { singly: 4, vectors: 0 },
  { singly: 4, vectors: 2 },
  { singly: 4, vectors: 2 },
] as const;
/** An unknown that brings this share of that variance, and this much of it [%], is moved both ways, for its curvature. */
const BOTH_WAYS = 0.1;
const BOTH_WAYS_SIGMA = 0.05;
/** So many of them on each candidate at most, those of the largest share. */
const MOST_CURVED = 4;
/** Error of the octane that the fuel has and the engine asks for. */
const KNOCK: FieldPath = 'burn.octaneOffset';
/** Sections that rarely tell one part from another; only their place in the queue depends on it, not the result. */
const MECHANICAL: ReadonlySet<string> = new Set(['burn', 'heat', 'friction', 'mixture', 'fuel', 'weather']);

/** Forecasts that may follow those of {@link askFirst}, at most: a total once told falls, and never climbs. */
export function expectedLater({ changes }: ResponseWorld): number {
  return (changes.length + 1) * FIRST_DRAWS + expectedAfter(changes.length, changes.length, 0);
}

/** Likewise with so many changes open after so many rounds. */
function expectedAfter(changes: number, open: number, rounds: number): number {
  const later = open === 0 ? [] : ROUNDS.slice(rounds);
  const inRounds = later.reduce((sum, { vectors, singly }) => sum + (open + 1) * vectors + open * singly, 0);
  // The other way, of baseline and candidate.
  return inRounds + changes * MOST_CURVED * 2;
}

/**
 * Responses one unknown at a time: on the baseline all of them, on each candidate those of its own parts and, where it takes that, those likely
 * to matter for its gain. Besides, all are drawn at once, on baseline and candidates alike: the mean square of what that moves a
 * gain beyond the responses known is the variance of what was not looked at, of what the unknowns do to each other and of what
 * bends, without bias. The responses are the control variate of those few honest draws (Law and Kelton, Simulation Modeling and
 * Analysis, chapter 11; from memory). Where they leave the spread open, more of both are run. Those that matter most are moved both ways, for their curvature.
 *
 * @param later - forecasts that follow these, at most, for progress
 */
export async function measureResponses(world: ResponseWorld, later = 0): Promise<Responses> {
  const { queue, changes } = world;
  // What is known without a forecast is worked out while the first are run.
  queue.begin();
  const reach = await reaches(world);
  const vectors = [...(await askVectors(world, changes, reach, 0, FIRST_DRAWS))];
  await queue.run();
  if (!queue.complete) return responsesFound(world, reach, vectors);
  const ordered = new Map(changes.map((change) => [change.name, likely(world, change)]));
  let open = changes.filter((change) => !isSettled(gainKnown(world, change, reach, vectors)));
  queue.expect(expectedAfter(changes.length, open.length, 0) + later);
  let looked = 0;
  for (const [round, { singly, vectors: more }] of ROUNDS.entries()) {
    if (open.length === 0) break;
    vectors.push(...(await askVectors(world, open, reach, vectors.length, more)));
    for (const change of open) {
      const next = ordered.get(change.name)?.slice(looked, looked + singly) ?? [];
      for (const unknown of next) askEitherWay(world, change, unknown);
    }
    looked += singly;
    await queue.run();
    if (!queue.complete) return responsesFound(world, reach, vectors);
    open = open.filter((change) => !isSettled(gainKnown(world, change, reach, vectors)));
    queue.expect(expectedAfter(changes.length, open.length, round + 1) + later);
  }
  for (const change of changes) askCurvature(world, change, gainKnown(world, change, reach, vectors));
  queue.expect(later);
  await queue.run();
  return responsesFound(world, reach, vectors);
}

function responsesFound(
  world: ResponseWorld,
  reach: ReadonlyMap<string, Reach>,
  vectors: Vectors,
): Responses {
  const { queue, unknowns } = world;
  return {
    ...subjectsOf(world, readings(world, reach), vectors),
    bySpeed: speedsOf(world).map((rpm, i) => ({
      rpm,
      ...subjectsOf(world, readings(world, reach, i), vectors),
    })),
    complete: queue.complete,
    stuck: unknowns.filter((unknown) => isStuck(world, unknown)).map(({ id }) => id),
  };
}

/** The speeds that responses are taken at [1/min]. */
function speedsOf({ queue }: ResponseWorld): readonly number[] {
  return queue.curve(forecastName(null, ''))?.points.map(({ rpm }) => rpm) ?? [];
}

function subjectsOf({ changes }: ResponseWorld, read: Readings, vectors: Vectors): Subjects {
  const baseline = baselineSubject(read);
  return { baseline, candidates: changes.map((change) => candidateSubject(read, baseline, change, vectors)) };
}

function askCurvature(world: ResponseWorld, change: Change, known: GainKnown | null): void {
  if (known === null) return;
  for (const { id, sigma } of known.shares.slice(0, MOST_CURVED)) {
    const unknown = world.unknowns.find((u) => u.id === id);
    const little = (sigma / 100) ** 2 < BOTH_WAYS * known.whole || sigma < BOTH_WAYS_SIGMA;
    if (unknown === undefined || little) continue;
    askBothWays(world, null, unknown);
    askBothWays(world, change, unknown);
  }
}

/** Shared unknowns, those likeliest to tell the candidate from the baseline first. */
function likely(world: ResponseWorld, change: Change): readonly Unknown[] {
  const baseline = baselineSubject(readings(world));
  const sections = new Set(change.edits.map(({ path }) => sectionOf(path)));
  const score = ({ id, path }: Unknown): number => {
    const section = sectionOf(path);
    if (id === KNOCK && isHeldBack(world, change)) return Number.POSITIVE_INFINITY;
    const weight = sections.has(section) ? 4 : MECHANICAL.has(section) ? 0.5 : 1;
    return weight * Math.abs(baseline?.responses[id]?.linear ?? 0);
  };
  return sharedUnknowns(world, change)
    .filter((unknown) => score(unknown) > 0 && !world.singly.includes(unknown.id))
    .sort((a, b) => compare(score(b), score(a)) || (a.id < b.id ? -1 : 1));
}

/** Whether knock holds the candidate's timing back somewhere: what the baseline does then says little of what its octane is worth. */
function isHeldBack({ queue }: ResponseWorld, change: Change): boolean {
  return queue.curve(forecastName(change, ''))?.points.some((point) => point.sparkGivenBackDeg > 0) ?? false;
}

/** Of numbers that may both be infinite. */
function compare(x: number, y: number): number {
  return x === y ? 0 : x < y ? -1 : 1;
}

function isStuck(world: ResponseWorld, unknown: Unknown): boolean {
  const change = world.changes.find(({ name }) => name === unknown.of) ?? null;
  return responseOf(readings(world), change, unknown) === null && world.queue.complete;
}
