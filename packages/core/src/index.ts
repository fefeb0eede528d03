/** Contents page of the library: everything public, room by room in the order of the alphabet. */

export type { Mesh } from './assembly/mesh.ts';
export { DEFAULT_MESH } from './assembly/mesh.ts';
export type { Fidelity } from './assembly/symmetry.ts';
export type { Cancellation } from './base/cancellation.ts';
export { DomainError } from './base/errors.ts';
export type { Result } from './base/result.ts';
export type { Pause } from './base/turn.ts';
export type { Dimension, Quantity, QuantityProblem } from './base/units.ts';
export { parseQuantity, toUnit } from './base/units.ts';
export { VERSION } from './base/version.ts';
export type { BacktestOptions, MeasuredChange } from './calibration/backtest.ts';
export { backtest } from './calibration/backtest.ts';
export type { BacktestPoint, BacktestResult } from './calibration/backtestResult.ts';
export type { CalibrateOptions, CalibrationWithDocument } from './calibration/calibrate.ts';
export { calibrate } from './calibration/calibrate.ts';
export { calibratedText } from './calibration/calibratedText.ts';
export type * from './calibration/calibrationResult.ts';
export type { Aim, CalibrationTarget } from './calibration/calibrationTarget.ts';
export type { Knob, KnobName } from './calibration/knobs.ts';
export { DEFAULT_KNOBS, KNOB_NAMES } from './calibration/knobs.ts';
export type { PeakFigures } from './calibration/peakTarget.ts';
export { peakTarget } from './calibration/peakTarget.ts';
export { sheetTarget } from './calibration/sheetTarget.ts';
export type { TriedSuspect } from './calibration/suspectTrial.ts';
export type { ApplyOptions } from './changes/applyChanges.ts';
export { applyChanges } from './changes/applyChanges.ts';
export type { Baseline } from './changes/baseline.ts';
export { pinBaseline } from './changes/baseline.ts';
export type { Change, ChangeSource, FieldEdit } from './changes/change.ts';
export { changesSchema } from './changes/changesSchema.ts';
export { readChanges } from './changes/readChanges.ts';
export type {
  ChoiceResult,
  ChosenBuild,
  GroupEffect,
  PricedBuild,
  SearchAccount,
  Taken,
} from './choosing/choiceResult.ts';
export type { ChooseOptions } from './choosing/choose.ts';
export { choose } from './choosing/choose.ts';
export { readShelf } from './choosing/readShelf.ts';
export type { Shelf, ShelfAim, ShelfGroup, ShelfLimits } from './choosing/shelf.ts';
export { shelfSchema } from './choosing/shelfSchema.ts';
export type * from './combination/calibration.ts';
export type * from './combination/combination.ts';
export type {
  MisspeltCode,
  MisspeltProblem,
  PlainCode,
  PlainProblem,
  Problem,
  ProblemCode,
  ProblemPlace,
} from './combination/problem.ts';
export { problemLine } from './combination/problem.ts';
export type * from './combination/running.ts';
export type { DynoChannel } from './dyno/dynoColumns.ts';
export { DYNO_CHANNELS } from './dyno/dynoColumns.ts';
export type { PullPoint } from './dyno/dynoPulls.ts';
export type { Dyno } from './dyno/dynoResolution.ts';
export { DYNO, resolvablePct } from './dyno/dynoResolution.ts';
export type { DynoSheet } from './dyno/dynoSheet.ts';
export { readDynoSheet } from './dyno/dynoSheet.ts';
export { mergeSheets } from './dyno/mergeSheets.ts';
export type { MeasuredPressure, PressureSheet } from './dyno/pressureSheet.ts';
export { readPressureSheet } from './dyno/pressureSheet.ts';
export type { DifferencePoint, PullComparison } from './dyno/pullComparison.ts';
export { comparePulls } from './dyno/pullComparison.ts';
export type { MeanPoint, PullMean, Repeatability } from './dyno/pullMean.ts';
export type { PullFigures, PullOptions, PullSummary } from './dyno/pullSummary.ts';
export { summarisePulls } from './dyno/pullSummary.ts';
export type { Pull } from './dyno/readPull.ts';
export type { Recorrected } from './dyno/recorrectSheet.ts';
export { recorrectSheet } from './dyno/recorrectSheet.ts';
export type { HeldBack, PullPace, SteadySheet } from './dyno/steadySheet.ts';
export { steadySheet } from './dyno/steadySheet.ts';
export type { BandMean, BandWeighting, SpeedBand } from './forecast/band.ts';
export { bandMean } from './forecast/band.ts';
export type { CamSideFigures, EventFigures } from './forecast/camFigures.ts';
export type * from './forecast/curve.ts';
export type { ForecastOptions } from './forecast/curveMarch.ts';
export type { CylinderFigures } from './forecast/cylinderFigures.ts';
export type { AsyncForecastOptions } from './forecast/forecast.ts';
export { forecast, forecastAsync, forecastPoints } from './forecast/forecast.ts';
export type { Inspection, TrappedRatio } from './forecast/inspection.ts';
export { inspectCombination } from './forecast/inspection.ts';
export type { Breach, LimitName } from './forecast/limits.ts';
export { limitBreaches } from './forecast/limits.ts';
export type { EvidenceKind } from './forecast/modelError.ts';
export type {
  PressurePlace,
  PressurePoint,
  PressureTrace,
  PressureTraceOptions,
} from './forecast/pressureTrace.ts';
export { tracePressures } from './forecast/pressureTrace.ts';
export type { RuleOfThumb, RuleSource } from './forecast/rulesOfThumb.ts';
export type { ChosenBand, SpeedFigures } from './forecast/speedFigures.ts';
export type { CycleTrace } from './forecast/trace.ts';
export { traceCycle } from './forecast/trace.ts';
export type { ValveUse, ValveUseSide } from './forecast/valveUse.ts';
export { valveUse } from './forecast/valveUse.ts';
export { brakeFactor } from './forecast/weatherCorrection.ts';
export type { LeftOut, WholeCurve } from './forecast/wholeCurve.ts';
export { marchedPoints, wholeCurve } from './forecast/wholeCurve.ts';
export { FUEL_NAMES } from './gas/fuels.ts';
export type { BenchAir } from './geometry/flowSheet.ts';
export { areaFromFlow } from './geometry/flowSheet.ts';
export type { ChamberShape } from './geometry/squish.ts';
export { CHAMBER_SHAPES } from './geometry/squish.ts';
export type { PlugPlace } from './processes/chamberBurn.ts';
export { PLUG_PLACES } from './processes/chamberBurn.ts';
export { octaneIndex } from './processes/knock.ts';
export type { Budget } from './ranking/bestSubset.ts';
export type { MeasureFirst } from './ranking/firstMeasurement.ts';
export type { GainSpreadOptions } from './ranking/gainSpread.ts';
export type { GainUncertainty } from './ranking/gainUncertainty.ts';
export { gainUncertainty } from './ranking/gainUncertainty.ts';
export type { PairVerdict } from './ranking/interaction.ts';
export { rank } from './ranking/rank.ts';
export type * from './ranking/rankingResult.ts';
export type { RankOptions } from './ranking/rankOptions.ts';
export type { TestBill, TestPlan } from './ranking/testOrder.ts';
export type { TestStep } from './ranking/testSteps.ts';
export type { CombinationDocument, Plain } from './reading/combinationDocument.ts';
export { editDocument } from './reading/editDocument.ts';
export type { FieldValue } from './reading/editText.ts';
export { editText } from './reading/editText.ts';
export { readCombination } from './reading/readCombination.ts';
export { readDocument } from './reading/readDocument.ts';
export type { ResolveOptions } from './reading/resolveDocument.ts';
export { resolveDocument } from './reading/resolveDocument.ts';
export type { CalibratedField } from './reading/schema/calibratedFields.ts';
export { combinationSchema } from './reading/schema/combinationSchema.ts';
export type { SheetSource } from './reading/sheet/readSheets.ts';
export type { NamedCombination } from './studies/compare.ts';
export { compare } from './studies/compare.ts';
export type { PressureComparison, PressureOverlay } from './studies/comparePressures.ts';
export { comparePressures } from './studies/comparePressures.ts';
export type * from './studies/comparisonResult.ts';
export type { RestrictionElement } from './studies/freeing.ts';
export type { JobControl, RunControl, RunJobs, StudyControl, StudyJob } from './studies/job.ts';
export { runJob, runJobsHere } from './studies/job.ts';
export { restrictions } from './studies/restrictions.ts';
export type * from './studies/restrictionsResult.ts';
export type { SplitJob } from './studies/splitJob.ts';
export { splitJob } from './studies/splitJob.ts';
export type { StudyOptions } from './studies/studyOptions.ts';
export type { SweepOptions } from './studies/sweep.ts';
export { MOST_SWEEP_POINTS, sweep } from './studies/sweep.ts';
export type * from './studies/sweepResult.ts';
export type {
  ForecastSpread,
  ForecastSpreadOptions,
  SpreadAtRpm,
  SpreadParts,
  UnknownWorth,
} from './uncertainty/forecastSpread.ts';
export { forecastSpread } from './uncertainty/forecastSpread.ts';
export type { SettledBy } from './uncertainty/settledBy.ts';
