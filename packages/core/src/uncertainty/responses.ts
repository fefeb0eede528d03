/** How baseline and candidates respond to the unknowns, with as few forecasts as that takes. */

import { nextTurn } from '../base/turn.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import { scatterOf } from '../forecast/cycleScatter.ts';
import { randomNamed } from '../numerics/random.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { ForecastQueue } from '../studies/forecastQueue.ts';
import { heldWithin, type Reach } from './heldWithin.ts';
import { remainderOf, type Subject, type VarianceShare, varianceShares } from './pairedDraws.ts';
import type { Offset } from './perturbed.ts';
import { reaches } from './reaches.ts';
import {
  baselineSubject,
  candidateSubject,
  forecastName,
  type Readings,
  responseOf,
  type Vectors,
  WAYS,
  WIDE,
} from './subjects.ts';
import type { Unknown } from './unknowns.ts';

/** What it takes to forecast a combination whose unknowns are off. */
export interface ResponseWorld {
  readonly unknowns: readonly Unknown[];
  /** Ids that are always looked at singly: draws of each alone would tear apart what goes together. */
  readonly singly: readonly string[];
  readonly changes: readonly Change[];
  readonly seed: number;
  /** Variance of a gain from the model's own error [-], for an engine so far apart in power, root mean square over the speeds [-]. */
  readonly ownVariance: (apart: number) => number;
  readonly queue: ForecastQueue;
  /** Null where it can't be built. */
  readonly build: (changes: readonly Change[], offsets: readonly Offset[]) => Combination | null;
  /** Queues a combination at the few speeds and the coarse mesh that responses are taken with. */
  readonly ask: (name: string, combination: Combination) => void;
}

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
/** A candidate is open where so few draws leave this share of its stated standard deviation open, and what is left together is this much of the gain [-]. */
const LOOSE = 0.06;
const LARGE_SIGMA = 0.001;
/** An unknown that brings this share of that variance, and this much of it [%], is moved both ways, for its curvature. */
const BOTH_WAYS = 0.1;
const BOTH_WAYS_SIGMA = 0.05;
/** So many of them on each candidate at most, those of the largest share. */
const MOST_CURVED = 4;
/** Error of the octane that the fuel has and the engine asks for. */
const KNOCK: FieldPath = 'burn.octaneOffset';
/** Sections that rarely tell one part from another; only their place in the queue depends on it, not the result. */
const MECHANICAL: ReadonlySet<string> = new Set(['burn', 'heat', 'friction', 'mixture', 'fuel', 'weather']);

/** Queues what can be run before anything is known: references, the baseline's own responses, each change's own unknowns and what is always looked at singly. */
export function askFirst(world: ResponseWorld): void {
  const { changes, unknowns, singly } = world;
  askMoved(world, null, []);
  for (const change of changes) askMoved(world, change, []);
  for (const unknown of unknowns) if (unknown.of === null) askEitherWay(world, null, unknown);
  for (const change of changes) {
    const always = shared(world, change).filter(({ id }) => singly.includes(id));
    const own = unknowns.filter(({ of }) => of === change.name);
    for (const unknown of [...always, ...own]) askEitherWay(world, change, unknown);
  }
}

/** Forecasts that {@link askFirst} asks for, at most. */
export function expectedFirst({ changes, unknowns, singly }: ResponseWorld): number {
  return 1 + unknowns.length + changes.length * (1 + singly.length);
}

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

/** Mean power over the speeds, or power at one of them. */
function readings(
  { queue, unknowns }: ResponseWorld,
  reach: ReadonlyMap<string, Reach> = new Map(),
  speed?: number,
): Readings {
  return {
    unknowns,
    reach,
    power: (name) =>
      speed === undefined ? queue.meanPower(name) : (queue.curve(name)?.points[speed]?.powerKw ?? null),
    scatter: (name) => {
      if (speed === undefined) return queue.meanScatter(name);
      const point = queue.curve(name)?.points[speed];
      return point === undefined ? 0 : scatterOf(point);
    },
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

/** Variance that the model's own error gives the gain of a candidate, however much is looked at [-]. */
function ownVarianceOf({ queue, ownVariance }: ResponseWorld, change: Change): number {
  const [before, after] = [null, change].map((it) => queue.curve(forecastName(it, ''))?.points ?? []);
  const squares = after.map(({ powerKw }, i) => (powerKw / before[i].powerKw - 1) ** 2);
  return ownVariance(
    Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / Math.max(1, squares.length)),
  );
}

/** What is known of the gain of a change so far. */
interface GainKnown {
  /** Of what was looked at singly, largest first. */
  readonly shares: readonly VarianceShare[];
  /** Standard deviation of what is left together, and variance of the gain with it and with the model's own error [-]. */
  readonly left: number;
  readonly whole: number;
  /** How many draws say what is left. */
  readonly draws: number;
}

/** Null where baseline or candidate was not run. */
function gainKnown(
  world: ResponseWorld,
  change: Change,
  reach: ReadonlyMap<string, Reach>,
  vectors: Vectors,
): GainKnown | null {
  const read = readings(world, reach);
  const baseline = baselineSubject(read);
  const candidate = candidateSubject(read, baseline, change, vectors);
  if (baseline === null || candidate === null) return null;
  const { unknowns: shares } = varianceShares(baseline, candidate);
  const left = remainderOf(candidate);
  const seen = shares.reduce((sum, { sigma }) => sum + (sigma / 100) ** 2, 0);
  const draws = vectors.filter((_, v) => read.power(forecastName(change, `vector ${v}`)) !== null).length;
  return { shares, left, draws, whole: seen + left ** 2 + ownVarianceOf(world, change) };
}

/**
 * Whether the draws know the standard deviation of the gain closely enough, or what is left is little anyway. The mean square of n normal
 * deviates is off by (2 / n)^0.5 of itself, one standard deviation; a root by half as much.
 */
function isSettled(known: GainKnown | null): boolean {
  if (known === null || known.draws === 0 || known.left < LARGE_SIGMA) return true;
  return (known.left ** 2 / known.whole / 2) * Math.sqrt(2 / known.draws) < LOOSE;
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

/** Unknowns that move baseline and candidate alike: the baseline's, save those of a part that is gone. */
function shared({ unknowns }: ResponseWorld, change: Change): readonly Unknown[] {
  return unknowns.filter(({ of, replacedBy }) => of === null && !replacedBy.includes(change.name));
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
  return shared(world, change)
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

function sectionOf(path: string): string {
  return path.split('.')[0];
}

function askMoved(world: ResponseWorld, change: Change | null, offsets: readonly Offset[]): boolean {
  const name = forecastName(change, offsets.map(({ unknown, z }) => `${unknown.id} ${z}`).join(', '));
  if (world.queue.knows(name)) return true;
  const combination = world.build(change === null ? [] : [change], offsets);
  if (combination === null) return false;
  world.ask(name, combination);
  return true;
}

function askEitherWay(world: ResponseWorld, change: Change | null, unknown: Unknown): void {
  WAYS.some((z) => askMoved(world, change, [{ unknown, z }]));
}

function askBothWays(world: ResponseWorld, change: Change | null, unknown: Unknown): void {
  if (change === null && unknown.of !== null) return;
  const ask = (z: number): boolean => askMoved(world, change, [{ unknown, z }]);
  if (ask(WIDE) && ask(-WIDE)) return;
  ask(1);
  ask(-1);
}

/** A round's draws of everything, the same ones for the baseline and every change that asks for them. Others have turns meanwhile. */
async function askVectors(
  world: ResponseWorld,
  changes: readonly Change[],
  reach: ReadonlyMap<string, Reach>,
  from: number,
  count: number,
): Promise<Vectors> {
  const vectors: Vectors[number][] = [];
  for (let v = from; v < from + count; v++) {
    await nextTurn();
    const offsets = vectorOf(world, reach, v);
    for (const change of [null, ...changes]) {
      const combination = world.build(change === null ? [] : [change], offsets);
      if (combination !== null) world.ask(forecastName(change, `vector ${v}`), combination);
    }
    vectors.push(offsets);
  }
  return vectors;
}

/** Deviates by the unknown's own name, so that they don't depend on which others there are; each held where it can't go further. */
function vectorOf(
  { unknowns, singly, seed }: ResponseWorld,
  reach: ReadonlyMap<string, Reach>,
  vector: number,
): readonly Offset[] {
  return unknowns.flatMap((unknown): Offset[] => {
    if (singly.includes(unknown.id)) return [];
    const drawn = randomNamed(seed, `draw ${vector} of ${unknown.id}`).normal();
    const z = heldWithin(reach.get(unknown.id), drawn);
    return z === 0 ? [] : [{ unknown, z }];
  });
}

function isStuck(world: ResponseWorld, unknown: Unknown): boolean {
  const change = world.changes.find(({ name }) => name === unknown.of) ?? null;
  return responseOf(readings(world), change, unknown) === null && world.queue.complete;
}
