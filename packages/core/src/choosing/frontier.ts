/** The most gain for each sum of money. */
import type { Build } from './effectModel.ts';
import { expectedGain } from './expectedGain.ts';

/** A build by what it costs and gains. */
export interface Priced {
  readonly build: Build;
  readonly cost: number;
  readonly gain: number;
}

/** Builds that none other beats in both, rising in cost; of equals the first. */
export function frontierOf<One extends Pick<Priced, 'cost' | 'gain'>>(all: readonly One[]): readonly One[] {
  const kept: One[] = [];
  for (const one of [...all].sort((a, b) => a.cost - b.cost || b.gain - a.gain))
    if (kept.length === 0 || one.gain > kept[kept.length - 1].gain) kept.push(one);
  return kept;
}

/** The gain to be had for a sum, by builds that were forecast; minus infinity where none is so cheap. */
function gainFor(frontier: readonly Pick<Priced, 'cost' | 'gain'>[], cost: number): number {
  return frontier.reduce((most, one) => (one.cost <= cost ? one.gain : most), Number.NEGATIVE_INFINITY);
}

/** A build that was not forecast, with what is expected of it. */
export interface Hoped {
  readonly build: Build;
  readonly cost: number;
  readonly mean: number;
  readonly sigma: number;
}

/** Less hope than this of moving the frontier is not worth a forecast [%]. */
const WORTH_LOOKING = 0.02;

/** The builds that are likeliest to move the frontier, at most `count` and one for each sum. */
export function frontierHopes(
  frontier: readonly Pick<Priced, 'cost' | 'gain'>[],
  unseen: readonly Hoped[],
  count: number,
): readonly Build[] {
  const best = new Map<number, { build: Build; hope: number }>();
  for (const { build, cost, mean, sigma } of unseen) {
    const bar = gainFor(frontier, cost);
    if (!Number.isFinite(bar)) continue;
    const hope = expectedGain(mean, sigma, bar);
    if (hope > (best.get(cost)?.hope ?? WORTH_LOOKING)) best.set(cost, { build, hope });
  }
  return [...best.values()]
    .sort((a, b) => b.hope - a.hope)
    .slice(0, count)
    .map(({ build }) => build);
}
