/** How far an unknown can be off before there is no such engine: below no loss at all, say, there is nothing. */
import { nextTurn } from '../base/turn.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import type { Reach } from './heldWithin.ts';
import type { Offset } from './perturbed.ts';
import type { Unknown } from './unknown.ts';

/** An unknown that can be built so far off is taken to go any way [standard deviations]. */
const FAR = 3;
/** Where it then ends: no draw comes near. */
const ANY = 10;
/** How often a shorter reach is halved in, which leaves a tenth of a standard deviation. */
const HALVINGS = 5;

/** So many unknowns are looked at before others have a turn. */
const AT_ONCE = 8;

/** Of the unknowns that can't go any way, by their ids. Others have turns meanwhile. */
export async function reaches(world: {
  readonly unknowns: readonly Unknown[];
  readonly changes: readonly Change[];
  readonly build: (changes: readonly Change[], offsets: readonly Offset[]) => Combination | null;
}): Promise<ReadonlyMap<string, Reach>> {
  const found = new Map<string, Reach>();
  for (const [i, unknown] of world.unknowns.entries()) {
    if (i % AT_ONCE === 0) await nextTurn();
    const changes = world.changes.filter(({ name }) => name === unknown.of);
    const isPossible = (z: number): boolean => world.build(changes, [{ unknown, z }]) !== null;
    const reach: Reach = [-reachOf((z) => isPossible(-z)), reachOf(isPossible)];
    if (reach[0] > -ANY || reach[1] < ANY) found.set(unknown.id, reach);
  }
  return found;
}

function reachOf(isPossible: (z: number) => boolean): number {
  if (isPossible(FAR)) return ANY;
  let [within, beyond] = [0, FAR];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (within + beyond) / 2;
    if (isPossible(middle)) within = middle;
    else beyond = middle;
  }
  return within;
}
