/** Forecasts that responses take, asked for by the names they are found again under. */

import { nextTurn } from '../base/turn.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import { randomNamed } from '../numerics/random.ts';
import type { ForecastQueue } from '../studies/forecastQueue.ts';
import { heldWithin, type Reach } from './heldWithin.ts';
import type { Offset } from './perturbed.ts';
import { forecastName, type Vectors, WAYS, WIDE } from './subjects.ts';
import type { Unknown } from './unknown.ts';

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

/** Queues what can be run before anything is known: references, the baseline's own responses, each change's own unknowns and what is always looked at singly. */
export function askFirst(world: ResponseWorld): void {
  const { changes, unknowns, singly } = world;
  askMoved(world, null, []);
  for (const change of changes) askMoved(world, change, []);
  for (const unknown of unknowns) if (unknown.of === null) askEitherWay(world, null, unknown);
  for (const change of changes) {
    const always = sharedUnknowns(world, change).filter(({ id }) => singly.includes(id));
    const own = unknowns.filter(({ of }) => of === change.name);
    for (const unknown of [...always, ...own]) askEitherWay(world, change, unknown);
  }
}

/** Forecasts that {@link askFirst} asks for, at most. */
export function expectedFirst({ changes, unknowns, singly }: ResponseWorld): number {
  return 1 + unknowns.length + changes.length * (1 + singly.length);
}

/** Unknowns that move baseline and candidate alike: the baseline's, save those of a part that is gone. */
export function sharedUnknowns({ unknowns }: ResponseWorld, change: Change): readonly Unknown[] {
  return unknowns.filter(({ of, replacedBy }) => of === null && !replacedBy.includes(change.name));
}

/** Queues a combination with some unknowns off; false where there is no such engine. */
export function askMoved(world: ResponseWorld, change: Change | null, offsets: readonly Offset[]): boolean {
  const name = forecastName(change, offsets.map(({ unknown, z }) => `${unknown.id} ${z}`).join(', '));
  if (world.queue.knows(name)) return true;
  const combination = world.build(change === null ? [] : [change], offsets);
  if (combination === null) return false;
  world.ask(name, combination);
  return true;
}

/** Moves one unknown, the way that is preferred of those that can be built. */
export function askEitherWay(world: ResponseWorld, change: Change | null, unknown: Unknown): void {
  WAYS.some((z) => askMoved(world, change, [{ unknown, z }]));
}

/** Moves one unknown both ways, equally far, for its curvature. */
export function askBothWays(world: ResponseWorld, change: Change | null, unknown: Unknown): void {
  if (change === null && unknown.of !== null) return;
  const ask = (z: number): boolean => askMoved(world, change, [{ unknown, z }]);
  if (ask(WIDE) && ask(-WIDE)) return;
  ask(1);
  ask(-1);
}

/** A round's draws of everything, the same ones for the baseline and every change that asks for them. Others have turns meanwhile. */
export async function askVectors(
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
