/** How baseline and candidates respond to the unknowns, with as few forecasts as that takes. */
import type { Combination } from '../combination/combination.ts';
import { randomNamed } from '../numerics/random.ts';
import type { Change } from './change.ts';
import type { ForecastQueue } from './forecastQueue.ts';
import { type Response, type Subject, varianceShares } from './pairedDraws.ts';
import type { Offset } from './perturbed.ts';
import type { Unknown } from './unknowns.ts';

/** What it takes to forecast a combination whose unknowns are off. */
export interface ResponseWorld {
  readonly unknowns: readonly Unknown[];
  /** Ids that are always looked at singly: random signs would tear apart what goes together. */
  readonly singly: readonly string[];
  readonly changes: readonly Change[];
  readonly seed: number;
  readonly queue: ForecastQueue;
  /** Null where it can't be built. */
  readonly build: (changes: readonly Change[], offsets: readonly Offset[]) => Combination | null;
  /** Queues a combination at the few speeds and the coarse mesh that responses are taken with. */
  readonly ask: (name: string, combination: Combination) => void;
}

/** The responses found; null where an abort kept a reference from being run. */
export interface Responses {
  readonly baseline: Subject | null;
  /** In the order of the changes. */
  readonly candidates: readonly (Subject | null)[];
  /** Ids of unknowns that could not be moved either way. */
  readonly stuck: readonly string[];
}

/** Unknowns looked at one by one on each candidate in a round, those likeliest to matter first. */
const SINGLY = 8;
/** Random choices of sign in a round, with which the others are moved all at once. */
const VECTORS = 2;
/** Rounds at most. */
const ROUNDS = 3;
/** Another round where what is left together may bring this share of the variance of a gain, and this much of it [-]. */
const LARGE_SHARE = 0.15;
const LARGE_SIGMA = 0.001;
/** An unknown that brings this share of the variance of a gain is moved both ways, for its curvature. */
const BOTH_WAYS = 0.1;

/** Sections that rarely tell one part from another; only their place in the queue depends on it, not the result. */
const MECHANICAL: ReadonlySet<string> = new Set(['burn', 'heat', 'friction', 'mixture', 'fuel', 'weather']);

const BASELINE = 'baseline';

/** What each change's vectors moved, by its name. */
type Vectors = Map<string, (readonly Offset[])[]>;

/** Queues the references and the baseline's own responses: what can be run before anything is known. */
export function askFirst(world: ResponseWorld): void {
  askMoved(world, null, []);
  for (const change of world.changes) askMoved(world, change, []);
  for (const unknown of world.unknowns) if (unknown.of === null) askEitherWay(world, null, unknown);
}

/** Forecasts to expect after those of {@link askFirst}, roughly. */
export function expectedLater({ changes, unknowns }: ResponseWorld): number {
  const own = unknowns.filter(({ of }) => of !== null).length;
  return changes.length * (SINGLY + VECTORS) + own + changes.length;
}

/**
 * Responses one unknown at a time: on the baseline all of them, on each candidate those likely to matter for its gain and
 * those of its own parts. The others are moved together, each up or down by chance, which gives the variance they bring
 * in all without bias (random balance: Satterthwaite, 1959, Technometrics 1, 111; from memory). Where that is not small,
 * more of them are looked at singly. Those that matter most are moved both ways, for their curvature.
 */
export async function measureResponses(world: ResponseWorld): Promise<Responses> {
  const { queue, changes, unknowns } = world;
  await queue.run();
  const vectors: Vectors = new Map(changes.map(({ name }) => [name, []]));
  const ordered = new Map(changes.map((change) => [change.name, likely(world, change)]));
  for (const change of changes)
    for (const unknown of unknowns.filter(({ of }) => of === change.name))
      askEitherWay(world, change, unknown);
  for (let round = 0; round < ROUNDS; round++) {
    for (const change of changes) {
      if (round > 0 && isSettled(world, change, vectors)) continue;
      const likeliest = ordered.get(change.name) ?? [];
      for (const unknown of likeliest.slice(round * SINGLY, (round + 1) * SINGLY))
        askEitherWay(world, change, unknown);
      const rest = shared(world, change).filter((unknown) => !likeliest.slice(0, SINGLY).includes(unknown));
      vectors.get(change.name)?.push(...askVectors(world, change, rest, round * VECTORS));
    }
    await queue.run();
  }
  for (const change of changes) askCurvature(world, change, vectors);
  await queue.run();
  return {
    baseline: baselineSubject(world),
    candidates: changes.map((change) => candidateSubject(world, change, vectors)),
    stuck: unknowns.filter((unknown) => isStuck(world, unknown)).map(({ id }) => id),
  };
}

/** Whether what is left together brings little of the variance of the gain, or little at all. */
function isSettled(world: ResponseWorld, change: Change, vectors: Vectors): boolean {
  const baseline = baselineSubject(world);
  const candidate = candidateSubject(world, change, vectors);
  if (baseline === null || candidate === null || candidate.remainder < LARGE_SIGMA) return true;
  const known = varianceShares(baseline, candidate).reduce((sum, { share }) => sum + share, 0);
  return 1 - known < LARGE_SHARE;
}

function askCurvature(world: ResponseWorld, change: Change, vectors: Vectors): void {
  const baseline = baselineSubject(world);
  const candidate = candidateSubject(world, change, vectors);
  if (baseline === null || candidate === null) return;
  for (const { id, share } of varianceShares(baseline, candidate)) {
    const unknown = world.unknowns.find((u) => u.id === id);
    if (unknown === undefined || share < BOTH_WAYS) continue;
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
  const baseline = baselineSubject(world);
  const sections = new Set(change.edits.map(({ path }) => sectionOf(path)));
  const score = ({ id, path }: Unknown): number => {
    const section = sectionOf(path);
    if (world.singly.includes(id)) return Number.POSITIVE_INFINITY;
    const weight = sections.has(section) ? 4 : MECHANICAL.has(section) ? 0.5 : 1;
    return weight * Math.abs(baseline?.responses[id]?.linear ?? 0);
  };
  return shared(world, change)
    .filter((unknown) => score(unknown) > 0)
    .sort((a, b) => compare(score(b), score(a)) || (a.id < b.id ? -1 : 1));
}

/** Of numbers that may both be infinite. */
function compare(x: number, y: number): number {
  return x === y ? 0 : x < y ? -1 : 1;
}

function sectionOf(path: string): string {
  return path.split('.')[0];
}

function nameOf(change: Change | null, what: string): string {
  return `${change === null ? BASELINE : `with ${change.name}`}: ${what}`;
}

function askMoved(world: ResponseWorld, change: Change | null, offsets: readonly Offset[]): boolean {
  const name = nameOf(change, offsets.map(({ unknown, z }) => `${unknown.id} ${z}`).join(', '));
  if (world.queue.knows(name)) return true;
  const combination = world.build(change === null ? [] : [change], offsets);
  if (combination === null) return false;
  world.ask(name, combination);
  return true;
}

function askEitherWay(world: ResponseWorld, change: Change | null, unknown: Unknown): void {
  if (!askMoved(world, change, [{ unknown, z: 1 }])) askMoved(world, change, [{ unknown, z: -1 }]);
}

function askBothWays(world: ResponseWorld, change: Change | null, unknown: Unknown): void {
  if (change === null && unknown.of !== null) return;
  askMoved(world, change, [{ unknown, z: 1 }]);
  askMoved(world, change, [{ unknown, z: -1 }]);
}

/** Signs by the unknown's own name, so that they don't depend on which others there are. */
function signsOf(world: ResponseWorld, together: readonly Unknown[], vector: number): readonly Offset[] {
  return together.map((unknown) => ({
    unknown,
    z: randomNamed(world.seed, `sign ${vector} of ${unknown.id}`).uniform() < 0.5 ? -1 : 1,
  }));
}

function askVectors(
  world: ResponseWorld,
  change: Change,
  together: readonly Unknown[],
  first: number,
): readonly (readonly Offset[])[] {
  return Array.from({ length: VECTORS }, (_, n) => {
    const v = first + n;
    const offsets = movable(world, change, signsOf(world, together, v));
    const combination = offsets.length === 0 ? null : world.build([change], offsets);
    if (combination !== null) world.ask(nameOf(change, `vector ${v}`), combination);
    return offsets;
  });
}

/** Without the unknowns that can't be moved that way. */
function movable(world: ResponseWorld, change: Change, offsets: readonly Offset[]): readonly Offset[] {
  if (world.build([change], offsets) !== null) return offsets;
  return offsets.filter((offset) => world.build([change], [offset]) !== null);
}

function isStuck(world: ResponseWorld, unknown: Unknown): boolean {
  const change = world.changes.find(({ name }) => name === unknown.of) ?? null;
  return responseOf(world, change, unknown) === null && world.queue.complete;
}

function responseOf({ queue }: ResponseWorld, change: Change | null, { id }: Unknown): Response | null {
  const reference = queue.meanPower(nameOf(change, ''));
  if (reference === null) return null;
  const up = queue.meanPower(nameOf(change, `${id} 1`));
  const down = queue.meanPower(nameOf(change, `${id} -1`));
  if (up !== null && down !== null)
    return { linear: (up - down) / (2 * reference), curved: (up + down) / (2 * reference) - 1 };
  if (up !== null) return { linear: up / reference - 1, curved: 0 };
  return down === null ? null : { linear: 1 - down / reference, curved: 0 };
}

function baselineSubject(world: ResponseWorld): Subject | null {
  const power = world.queue.meanPower(nameOf(null, ''));
  if (power === null) return null;
  const responses: Record<string, Response> = {};
  for (const unknown of world.unknowns) {
    const response = responseOf(world, null, unknown);
    if (response !== null) responses[unknown.id] = response;
  }
  return { name: BASELINE, power, responses, remainder: 0 };
}

/** An unknown that was not looked at on the candidate is taken to move it as it moves the baseline; the remainder is what that misses. */
function candidateSubject(world: ResponseWorld, change: Change, vectors: Vectors): Subject | null {
  const baseline = baselineSubject(world);
  const power = world.queue.meanPower(nameOf(change, ''));
  if (baseline === null || power === null) return null;
  const responses: Record<string, Response> = {};
  for (const unknown of world.unknowns) {
    const own = responseOf(world, change, unknown);
    const response =
      own ?? (unknown.replacedBy.includes(change.name) ? null : baseline.responses[unknown.id]);
    if (response !== null && response !== undefined) responses[unknown.id] = response;
  }
  const moved = vectors.get(change.name) ?? [];
  return {
    name: change.name,
    power,
    responses,
    remainder: remainderOf(world, change, moved, power, responses),
  };
}

/** Root mean square of what the vectors moved the gain beyond the responses known, as a share of the baseline's power. */
function remainderOf(
  world: ResponseWorld,
  change: Change,
  vectors: readonly (readonly Offset[])[],
  power: number,
  responses: Readonly<Record<string, Response>>,
): number {
  const reference = world.queue.meanPower(nameOf(null, ''));
  if (reference === null) return 0;
  const missed = vectors.flatMap((offsets, v) => {
    const moved = world.queue.meanPower(nameOf(change, `vector ${v}`));
    if (moved === null) return [];
    // Small shares of many unknowns multiply rather than add.
    const expected = offsets.reduce((product, { unknown, z }) => {
      const response = responses[unknown.id];
      return response === undefined ? product : product * (1 + z * response.linear + response.curved);
    }, power);
    return [(moved - expected) / reference];
  });
  if (missed.length === 0) return 0;
  return Math.sqrt(missed.reduce((sum, value) => sum + value * value, 0) / missed.length);
}
