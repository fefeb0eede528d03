/** What the alternatives of each group do on average. */
import type { GroupEffect } from './choiceResult.ts';
import type { EffectModel } from './effectModel.ts';
import type { Judged } from './findBest.ts';
import type { ShelfSpace } from './shelfSpace.ts';

/** By the model where there is one, else by the means of all builds that were forecast. What matters most first. */
export function groupEffects(
  { groups }: ShelfSpace,
  judged: readonly Judged[],
  model: EffectModel | null,
): readonly GroupEffect[] {
  const sound = judged.flatMap(({ build, verdict }) =>
    verdict === null ? [] : [{ build, worth: verdict.worth }],
  );
  if (sound.length === 0) return [];
  const mean = (worths: readonly number[]): number =>
    worths.reduce((sum, worth) => sum + worth, 0) / worths.length;
  const counted = (g: number): readonly number[] => {
    const byLevel = groups[g].levels.map((_, l) => {
      const own = sound.filter(({ build }) => build[g] === l).map(({ worth }) => worth);
      return own.length === 0 ? Number.NaN : mean(own);
    });
    const all = mean(byLevel.filter(Number.isFinite));
    return byLevel.map((value) => value - all);
  };
  return groups
    .map(({ name, levels }, g): GroupEffect => {
      const found = (model?.effects(g) ?? counted(g)).map((effectPct, l) => ({
        choice: levels[l]?.name ?? null,
        effectPct,
      }));
      const effects = found.filter(({ effectPct }) => Number.isFinite(effectPct));
      const values = effects.map(({ effectPct }) => effectPct);
      return { group: name, effects, rangePct: Math.max(...values) - Math.min(...values) };
    })
    .sort((a, b) => b.rangePct - a.rangePct);
}
