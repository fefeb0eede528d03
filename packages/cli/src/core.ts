/** What the commands need of the library, in one place so that a test can hand in its own. */
import {
  applyChanges,
  backtest,
  bandMean,
  type Combination,
  calibrate,
  calibratedText,
  changesSchema,
  choose,
  combinationSchema,
  compare,
  comparePressures,
  comparePulls,
  DYNO,
  forecast,
  forecastSpread,
  gainUncertainty,
  type Inspection,
  inspectCombination,
  KNOB_NAMES,
  MOST_SWEEP_POINTS,
  mergeSheets,
  octaneIndex,
  peakTarget,
  pinBaseline,
  problemLine,
  rank,
  readChanges,
  readCombination,
  readDocument,
  readDynoSheet,
  readPressureSheet,
  readShelf,
  recorrectSheet,
  resolvablePct,
  restrictions,
  sheetTarget,
  shelfSchema,
  steadySheet,
  summarisePulls,
  sweep,
  traceCycle,
  valveUse,
} from '@valvetide/core';
import { openQueueRunner } from './queue/queueRunner.ts';
import { workOnQueue } from './queue/workOnQueue.ts';
import { forecastOn } from './workers/forecastOn.ts';
import { type JobRunner, openRunner, type RunnerOptions } from './workers/jobRunner.ts';

export interface Core {
  readonly readCombination: typeof readCombination;
  readonly problemLine: typeof problemLine;
  combinationSchema(): unknown;
  readonly forecast: typeof forecast;
  readonly forecastOn: typeof forecastOn;
  readonly forecastSpread: typeof forecastSpread;
  readonly gainUncertainty: typeof gainUncertainty;
  inspectCombination(combination: Combination): Inspection;
  readonly octaneIndex: typeof octaneIndex;
  readonly traceCycle: typeof traceCycle;
  readonly valveUse: typeof valveUse;
  readonly readDocument: typeof readDocument;
  readonly pinBaseline: typeof pinBaseline;
  readonly readChanges: typeof readChanges;
  readonly changesSchema: typeof changesSchema;
  readonly applyChanges: typeof applyChanges;
  readonly choose: typeof choose;
  readonly readShelf: typeof readShelf;
  readonly shelfSchema: typeof shelfSchema;
  readonly compare: typeof compare;
  readonly DYNO: typeof DYNO;
  readonly resolvablePct: typeof resolvablePct;
  readonly rank: typeof rank;
  readonly restrictions: typeof restrictions;
  readonly sweep: typeof sweep;
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
  readonly calibrate: typeof calibrate;
  readonly calibratedText: typeof calibratedText;
  readonly backtest: typeof backtest;
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
  forecastSpread,
  gainUncertainty,
  inspectCombination,
  readDocument,
  pinBaseline,
  readChanges,
  changesSchema,
  applyChanges,
  choose,
  compare,
  DYNO,
  resolvablePct,
  rank,
  restrictions,
  sweep,
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
  calibrate,
  calibratedText,
  backtest,
  bandMean,
  openRunner,
  openQueueRunner,
  workOnQueue,
};
