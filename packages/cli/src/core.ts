/** What the commands need of the library, in one place so that a test can hand in its own. */
import {
  applyChanges,
  bandMean,
  type Combination,
  changesSchema,
  combinationSchema,
  comparePressures,
  comparePulls,
  DYNO,
  forecast,
  type Inspection,
  inspectCombination,
  KNOB_NAMES,
  MOST_SWEEP_POINTS,
  mergeSheets,
  octaneIndex,
  peakTarget,
  pinBaseline,
  problemLine,
  readChanges,
  readCombination,
  readDocument,
  readDynoSheet,
  readPressureSheet,
  readShelf,
  recorrectSheet,
  resolvablePct,
  sheetTarget,
  shelfSchema,
  steadySheet,
  summarisePulls,
  traceCycle,
  valveUse,
} from '@valvetide/core';
import { openQueueRunner } from './queue/queueRunner.ts';
import { workOnQueue } from './queue/workOnQueue.ts';
import type { Studies } from './studies.ts';
import { forecastOn } from './workers/forecastOn.ts';
import { type JobRunner, openRunner, type RunnerOptions } from './workers/jobRunner.ts';

/** Studies, and the matrices they ask for, are a quarter of the library: a forecast alone or a look at a file is spared them. */
const studies = async (): Promise<Studies> => (await import('./studies.ts')).STUDIES;

export interface Core {
  readonly readCombination: typeof readCombination;
  readonly problemLine: typeof problemLine;
  combinationSchema(): unknown;
  readonly forecast: typeof forecast;
  readonly forecastOn: typeof forecastOn;
  readonly forecastSpread: Studies['forecastSpread'];
  readonly gainUncertainty: Studies['gainUncertainty'];
  inspectCombination(combination: Combination): Inspection;
  readonly octaneIndex: typeof octaneIndex;
  readonly traceCycle: typeof traceCycle;
  readonly valveUse: typeof valveUse;
  readonly readDocument: typeof readDocument;
  readonly pinBaseline: typeof pinBaseline;
  readonly readChanges: typeof readChanges;
  readonly changesSchema: typeof changesSchema;
  readonly applyChanges: typeof applyChanges;
  readonly choose: Studies['choose'];
  readonly readShelf: typeof readShelf;
  readonly shelfSchema: typeof shelfSchema;
  readonly compare: Studies['compare'];
  readonly DYNO: typeof DYNO;
  readonly resolvablePct: typeof resolvablePct;
  readonly rank: Studies['rank'];
  readonly restrictions: Studies['restrictions'];
  readonly sweep: Studies['sweep'];
  readonly MOST_SWEEP_POINTS: typeof MOST_SWEEP_POINTS;
  readonly readDynoSheet: typeof readDynoSheet;
  readonly recorrectSheet: typeof recorrectSheet;
  readonly mergeSheets: typeof mergeSheets;
  readonly summarisePulls: typeof summarisePulls;
  readonly comparePulls: typeof comparePulls;
  readonly readPressureSheet: typeof readPressureSheet;
  readonly comparePressures: typeof comparePressures;
  readonly sheetTarget: typeof sheetTarget;
  readonly steadySheet: typeof steadySheet;
  readonly peakTarget: typeof peakTarget;
  readonly KNOB_NAMES: typeof KNOB_NAMES;
  readonly calibrate: Studies['calibrate'];
  readonly calibratedText: (...given: Parameters<Studies['calibratedText']>) => Promise<string>;
  readonly backtest: Studies['backtest'];
  readonly bandMean: typeof bandMean;
  /** Threads to run a study's jobs on; close them at the end. */
  readonly openRunner: (workers: number, options?: RunnerOptions) => JobRunner | Promise<JobRunner>;
  /** The same on other machines, by a queue. */
  readonly openQueueRunner: typeof openQueueRunner;
  readonly workOnQueue: typeof workOnQueue;
}

export const CORE: Core = {
  octaneIndex,
  traceCycle,
  valveUse,
  readCombination,
  problemLine,
  combinationSchema,
  forecast,
  forecastOn,
  forecastSpread: async (...given) => (await studies()).forecastSpread(...given),
  gainUncertainty: async (...given) => (await studies()).gainUncertainty(...given),
  inspectCombination,
  readDocument,
  pinBaseline,
  readChanges,
  changesSchema,
  applyChanges,
  choose: async (...given) => (await studies()).choose(...given),
  compare: async (...given) => (await studies()).compare(...given),
  DYNO,
  resolvablePct,
  rank: async (...given) => (await studies()).rank(...given),
  restrictions: async (...given) => (await studies()).restrictions(...given),
  sweep: async (...given) => (await studies()).sweep(...given),
  MOST_SWEEP_POINTS,
  readDynoSheet,
  readShelf,
  recorrectSheet,
  mergeSheets,
  summarisePulls,
  comparePulls,
  readPressureSheet,
  comparePressures,
  sheetTarget,
  shelfSchema,
  steadySheet,
  peakTarget,
  KNOB_NAMES,
  calibrate: async (...given) => (await studies()).calibrate(...given),
  calibratedText: async (...given) => (await studies()).calibratedText(...given),
  backtest: async (...given) => (await studies()).backtest(...given),
  bandMean,
  openRunner,
  openQueueRunner,
  workOnQueue,
};
