/** The builds of a shelf as forecasts: each engine made and forecast once, and judged against the engine as it is. */

import type { Fidelity } from '../assembly/symmetry.ts';
import { applyChanges } from '../changes/applyChanges.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Combination } from '../combination/combination.ts';
import type { WholeCurve } from '../forecast/wholeCurve.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import type { ForecastQueue } from '../studies/forecastQueue.ts';
import type { StudyControl } from '../studies/job.ts';
import { keyOf } from './buildSpace.ts';
import type { Build } from './effectModel.ts';
import type { Judge } from './findBest.ts';
import type { ShelfAim } from './shelf.ts';
import { changesOf } from './shelfRules.ts';
import { buildName, type ShelfSpace } from './shelfSpace.ts';
import { buildVerdictOf } from './worth.ts';

/** Name of the engine's own forecast. */
const BASELINE = 'the engine as it is';

/** What builds are forecast with. */
export interface BuildMeans {
  readonly baseline: Baseline;
  readonly shelved: ShelfSpace;
  readonly aims: readonly ShelfAim[];
  /** Speeds [1/min], rising. */
  readonly rpm: readonly number[];
  readonly fidelity: Fidelity | undefined;
  readonly sheet: SheetSource | undefined;
  readonly queue: ForecastQueue;
  /** Once aborted, nothing more is made. */
  readonly signal: StudyControl['signal'] | undefined;
}

/** Forecasts of builds so far. */
export interface BuildForecasts {
  /** Forecasts builds, those that were before aside, and judges them. */
  readonly judge: Judge;
  /** Null where the build was not forecast, or lost a speed. */
  readonly curveOf: (build: Build) => WholeCurve | null;
  /** Of the engine as it is; null likewise. */
  readonly base: () => WholeCurve | null;
  /** Builds whose parts can't be had together. */
  readonly impossible: () => number;
}

/** Queues the engine as it is; builds follow as they are judged. */
export function buildForecasts(means: BuildMeans): BuildForecasts {
  const { baseline, shelved, aims, rpm, fidelity, sheet, queue, signal } = means;
  const ask = (name: string, combination: Combination): void =>
    queue.ask(name, { combination, rpm, ...(fidelity === undefined ? {} : { fidelity }) });
  const impossible = new Set<string>();
  const engines = new Map<string, Combination>();
  const nameOf = (build: Build): string => buildName(changesOf(shelved.groups, build));
  const curveOf = (build: Build): WholeCurve | null => queue.curve(nameOf(build));
  const base = (): WholeCurve | null => queue.curve(BASELINE);
  const judge: Judge = async (builds) => {
    // An abort may come while the search thinks: the engines of its next round are then not made at all.
    if (signal?.aborted === true) return builds.map(() => undefined);
    for (const build of builds) {
      const changes = changesOf(shelved.groups, build);
      const applied = applyChanges(baseline, changes, { sheet, effectless: 'allow' });
      if (applied.ok) {
        engines.set(keyOf(build), applied.value);
        ask(nameOf(build), applied.value);
      } else impossible.add(keyOf(build));
    }
    await queue.run();
    const own = base();
    return builds.map((build) => {
      if (impossible.has(keyOf(build))) return null;
      if (queue.aborted(nameOf(build)) || own === null) return undefined;
      const curve = curveOf(build);
      const combination = engines.get(keyOf(build));
      if (curve === null || combination === undefined) return null;
      return buildVerdictOf({ combination: baseline.combination, curve: own }, { combination, curve }, aims);
    });
  };
  ask(BASELINE, baseline.combination);
  return { judge, curveOf, base, impossible: () => impossible.size };
}
