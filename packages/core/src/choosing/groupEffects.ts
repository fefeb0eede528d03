/** What the alternatives of each group do by themselves. */
import { mean } from '../numerics/mean.ts';
import type { GroupEffect } from './choiceResult.ts';
import type { EffectModel } from './effectModel.ts';
import type { Judged } from './findBest.ts';
import type { ShelfSpace } from './shelfSpace.ts';

/** Rounds in which the effects settle, and what they may still move [%]. */
const ROUNDS = 500;
const STILL = 1e-9;

/**
 * By the model where there is one, else by effects that add up to the builds that were forecast as nearly as they can: of means alone a
 * part would be praised for what it happened to be fitted with, where a budget leaves builds out. What matters most first.
 */
export function groupEffects(
  { groups }: ShelfSpace,
  judged: readonly Judged[],
  model: EffectModel | null,
): readonly GroupEffect[] {
  const sound = judged.flatMap(({ build, verdict }) =>
    verdict === null ? [] : [{ build, worth: verdict.worth }],
  );
  if (sound.length === 0) return [];
  const added = model === null ? addedEffects(groups, sound) : [];
  return groups
    .map(({ name, levels }, g): GroupEffect => {
      const found = (model?.effects(g) ?? added[g]).map((effectPct, l) => ({
        choice: levels[l]?.name ?? null,
        effectPct,
      }));
      const effects = found.filter(({ effectPct }) => Number.isFinite(effectPct));
      const values = effects.map(({ effectPct }) => effectPct);
      return { group: name, effects, rangePct: Math.max(...values) - Math.min(...values) };
    })
    .sort((a, b) => b.rangePct - a.rangePct);
}

/** Least squares of a level and one effect a choice, a group at a time until nothing moves; NaN for a choice that no build has. */
function addedEffects(
  groups: ShelfSpace['groups'],
  sound: readonly { readonly build: Judged['build']; readonly worth: number }[],
): readonly (readonly number[])[] {
  const effects = groups.map(({ levels }, g) =>
    levels.map((_, l) => (sound.some(({ build }) => build[g] === l) ? 0 : Number.NaN)),
  );
  const level = mean(sound.map(({ worth }) => worth));
  for (let round = 0, moved = 1; round < ROUNDS && moved > STILL; round++) {
    moved = 0;
    for (const [g, own] of effects.entries()) {
      for (const l of own.keys()) {
        if (Number.isNaN(own[l])) continue;
        const rests = sound.flatMap(({ build, worth }) =>
          build[g] === l
            ? [build.reduce((left, at, h) => (h === g ? left : left - effects[h][at]), worth - level)]
            : [],
        );
        const next = mean(rests);
        moved = Math.max(moved, Math.abs(next - own[l]));
        own[l] = next;
      }
    }
  }
  return effects.map((own) => {
    const middle = mean(own.filter(Number.isFinite));
    return own.map((effect) => effect - middle);
  });
}
