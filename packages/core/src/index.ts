/** Contents page of the library: everything public, grouped as in the house. */

// base
export type { Cancellation } from './base/cancellation.ts';
export { DomainError } from './base/errors.ts';
export { criticalPressureRatio, isentropicFluxFunction } from './base/isentropic.ts';
export { VERSION } from './base/version.ts';
// combination
export type { Mesh } from './combination/assemble.ts';
export { DEFAULT_MESH } from './combination/assemble.ts';
export type * from './combination/combination.ts';
export { editDocument, pinAssumed } from './combination/editDocument.ts';
export type { FieldValue } from './combination/editText.ts';
export { editText } from './combination/editText.ts';
export type { Problem } from './combination/problem.ts';
export { problemLine } from './combination/problem.ts';
export { readCombination } from './combination/readCombination.ts';
export type { CombinationDocument, DocumentResult, Plain } from './combination/readDocument.ts';
export { readDocument } from './combination/readDocument.ts';
export type { ReadResult } from './combination/resolveDocument.ts';
export { resolveDocument } from './combination/resolveDocument.ts';
export { combinationSchema } from './combination/schema/combinationFile.ts';
export type { SheetSource } from './combination/sheet/readSheets.ts';
// cycle
export type { MarchOptions } from './cycle/march.ts';
export { MARCH_DEFAULTS } from './cycle/march.ts';
export type { PeriodicOptions } from './cycle/periodic.ts';
export { PERIODIC_DEFAULTS } from './cycle/periodic.ts';
// forecast
export type { CamSideFigures, EventFigures } from './forecast/camFigures.ts';
export type * from './forecast/curve.ts';
export type { ForecastOptions } from './forecast/forecast.ts';
export { forecast } from './forecast/forecast.ts';
export type { Inspection, TrappedRatio } from './forecast/inspection.ts';
export { inspectCombination } from './forecast/inspection.ts';
export type { RuleOfThumb, RuleSource } from './forecast/rulesOfThumb.ts';
export type { Band, SpeedFigures } from './forecast/speedFigures.ts';
export { ASSUMED_FILLING } from './forecast/speedFigures.ts';
export type { CycleTrace } from './forecast/trace.ts';
export { traceCycle } from './forecast/trace.ts';
export type { ValveUse, ValveUseSide } from './forecast/valveUse.ts';
export { valveUse } from './forecast/valveUse.ts';
export type { ReferenceAir } from './forecast/weatherCorrection.ts';
export {
  brakeFactor,
  indicatedFactor,
  recorrectionFactor,
  referenceAir,
} from './forecast/weatherCorrection.ts';
// gas
export type { GasTableInput } from './gas/buildGasTables.ts';
export { buildGasTables, FREEZE_TEMPERATURE } from './gas/buildGasTables.ts';
export { FUEL_NAMES, fuelNamed } from './gas/fuels.ts';
export type { EquilibriumTable, GasTables } from './gas/gasTables.ts';
// geometry
export type { ClearanceParts } from './geometry/compression.ts';
export { clearanceVolume, compressionRatio } from './geometry/compression.ts';
export type { BenchAir } from './geometry/flowSheet.ts';
export { areaFromFlow, flowFromArea } from './geometry/flowSheet.ts';
export type { LobeShape, LobeSpec } from './geometry/lobe.ts';
export { buildLobe } from './geometry/lobe.ts';
export type { CardPoint, Follower } from './geometry/lobeCard.ts';
// numerics
export type { Rhs, Stepper, Tableau } from './numerics/rungeKutta.ts';
export { createStepper, RK4, SSP2, SSP2_FOUR, SSP3, step } from './numerics/rungeKutta.ts';
// processes
export { octaneIndex } from './processes/knock.ts';
// study
export type { ApplyOptions } from './study/applyChanges.ts';
export { applyChanges } from './study/applyChanges.ts';
export type { BacktestOptions, BacktestOutcome, BacktestPoint, BacktestResult } from './study/backtest.ts';
export { backtest } from './study/backtest.ts';
export type { BandMean, BandWeighting, SpeedBand } from './study/band.ts';
export { bandMean } from './study/band.ts';
export type { Baseline, BaselineResult } from './study/baseline.ts';
export { pinBaseline } from './study/baseline.ts';
export type { Budget } from './study/bestSubset.ts';
export type { CalibrateOptions, CalibrateResult } from './study/calibrate.ts';
export { calibrate } from './study/calibrate.ts';
export { calibratedText } from './study/calibratedText.ts';
export type * from './study/calibrationResult.ts';
export type { Aim, CalibrationTarget, PeakFigures } from './study/calibrationTarget.ts';
export { MODEL_ERROR, peakTarget, sheetTarget } from './study/calibrationTarget.ts';
export type { Change, ChangeSource, FieldEdit } from './study/change.ts';
export { changesSchema } from './study/changesSchema.ts';
export type { Candidate } from './study/compare.ts';
export { compare } from './study/compare.ts';
export type * from './study/comparison.ts';
export type { DynoChannel } from './study/dynoColumns.ts';
export { DYNO_CHANNELS } from './study/dynoColumns.ts';
export type { PullPoint } from './study/dynoPulls.ts';
export type { Dyno } from './study/dynoResolution.ts';
export { DYNO, resolvablePct } from './study/dynoResolution.ts';
export type { DynoSheet, DynoSheetResult, Pull } from './study/dynoSheet.ts';
export { readDynoSheet } from './study/dynoSheet.ts';
export type { RestrictionElement } from './study/freeing.ts';
export type { Verdict } from './study/interaction.ts';
export type { JobControl, RunJobs, StudyJob } from './study/job.ts';
export { runJob, runJobsHere } from './study/job.ts';
export type { Knob, KnobName } from './study/knobs.ts';
export { DEFAULT_KNOBS, KNOB_NAMES } from './study/knobs.ts';
export { mergeSheets } from './study/mergeSheets.ts';
export type { DifferencePoint, PullComparison } from './study/pullComparison.ts';
export { comparePulls, leastDifference } from './study/pullComparison.ts';
export type { MeanPoint, PullMean, Repeatability } from './study/pullMean.ts';
export { pullMean } from './study/pullMean.ts';
export type { PullFigures, PullOptions, PullSummary } from './study/pullSummary.ts';
export { summarisePulls } from './study/pullSummary.ts';
export type { RankOptions, RankResult } from './study/rank.ts';
export { rank } from './study/rank.ts';
export type * from './study/ranking.ts';
export type { ReadChangesResult } from './study/readChanges.ts';
export { readChanges } from './study/readChanges.ts';
export type { Recorrected } from './study/recorrectSheet.ts';
export { recorrectSheet } from './study/recorrectSheet.ts';
export type * from './study/restriction.ts';
export type { RestrictionOptions } from './study/restrictions.ts';
export { restrictions } from './study/restrictions.ts';
export type { StudyOptions } from './study/studyOptions.ts';
export type { SweepOptions, SweepResult } from './study/sweep.ts';
export { MOST_SWEEP_POINTS, sweep } from './study/sweep.ts';
export type * from './study/sweeping.ts';
export type { TestStep } from './study/testOrder.ts';
