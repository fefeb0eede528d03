/** How wrong the stated values of a combination may be: sheets, ratings and cards, each with its usual error from the table of fields. */

import type { Combination } from '../combination/combination.ts';
import { SIDES } from '../combination/sides.ts';
import { sweptVolume } from '../geometry/sliderCrank.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import type { ErrorName } from '../reading/fields/errorName.ts';
import type { UsualError } from '../reading/fields/fieldFacts.ts';
import { FIELDS } from '../reading/fields/fieldTable.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';

/** How one field moves with an error. */
export interface FieldError {
  readonly path: string;
  /** `scale`: a share of the value. `add`: an amount in `unit`. */
  readonly by: 'scale' | 'add';
  /** One standard deviation [-] or [`unit`]. */
  readonly sigma: number;
  /** Unit as written in a file; empty for a pure number. */
  readonly unit: string;
  /** Where the file is silent, what it means; null: the field must be there. */
  readonly silent: number | null;
}

/** One error of measurement, which may move several fields together. */
export interface MeasuringError {
  /** Short and stable. */
  readonly id: ErrorName;
  readonly fields: readonly FieldError[];
  /** Fields that, when changed, bring a new part with an error of its own. Empty: the error belongs to the bench or the block. */
  readonly part: readonly string[];
  readonly reason: string;
}

/** Value of a field as the file states it; undefined where it is silent or an estimate stands in. */
export type Stated = (path: string) => Plain | undefined;

/** One standard deviation of a compression ratio from measured volumes [-]; common practice, no source. */
export const MEASURED_COMPRESSION = 0.05;

const METERING: readonly FieldPath[] = [
  'induction.carburetor.rating',
  'induction.carburetor.venturi',
  'induction.throttle.diameter',
  'induction.airCleaner.flow',
  'exhaust.muffler.flow',
  'exhaust.muffler.backPressure',
];
const SQUISH: readonly FieldPath[] = ['chamber.squishArea', 'chamber.squishHeight'];
const PHASE: readonly FieldPath[] = ['cam.intake.centreline', 'cam.exhaust.centreline', 'cam.advance'];

/**
 * The errors of everything a file states.
 *
 * @param bench - `fitted`: a fit to dyno sheets, where there was one, was of the bench that these sheets come from
 */
export function measuringErrors(
  stated: Stated,
  combination: Combination,
  bench: 'fitted' | 'other' = 'fitted',
): readonly MeasuringError[] {
  const isStated = (path: FieldPath): boolean => stated(path) !== undefined;
  return [
    ...flowErrors(combination, bench),
    ...METERING.filter(isStated).flatMap((path) => errorsOf([path])),
    ...chamberError(isStated, combination),
    // None at all is seen for certain, and the height of no gap is of no account.
    ...(combination.chamber.squishArea > 0
      ? SQUISH.filter(isStated).flatMap((path) => errorsOf([path]))
      : []),
    ...errorsOf(PHASE.filter(isStated)),
    ...durationErrors(isStated),
    ...valvetrainErrors(stated),
  ];
}

/** The errors that the table has for fields which move together. */
function errorsOf(paths: readonly FieldPath[]): readonly MeasuringError[] {
  if (paths.length === 0) return [];
  return (FIELDS[paths[0]].errors ?? []).map(({ name, part, reason }) => ({
    id: name,
    fields: paths.flatMap((path) => (FIELDS[path].errors ?? []).filter(named(name)).map(fieldError(path))),
    part,
    reason,
  }));
}

const named =
  (name: ErrorName) =>
  (error: UsualError): boolean =>
    error.name === name;

const fieldError =
  (path: FieldPath) =>
  ({ by, sigma, unit, silent }: UsualError): FieldError => ({
    path,
    by,
    sigma,
    unit,
    silent: silent ?? null,
  });

/** A fit of the flow takes the error of the bench in; that of each sheet stays. */
function flowErrors(combination: Combination, of: 'fitted' | 'other'): readonly MeasuringError[] {
  const multipliers = SIDES.filter((side) => combination[side].flow.measuredTo !== null).map(
    (side): FieldPath => `heads.${side}.flowMultiplier`,
  );
  const knobs = of === 'fitted' ? (combination.calibration?.knobs ?? []) : [];
  const fitted = new Set<string>(knobs.map(({ path }) => path));
  const bench = errorsOf(multipliers.filter((path) => !fitted.has(path))).filter(ofBench);
  return [...bench, ...multipliers.flatMap((path) => errorsOf([path]).filter((error) => !ofBench(error)))];
}

export const ofBench = ({ id }: MeasuringError): boolean => id === 'flow bench';

/** The error of the volumes stays when some of them are altered by a known amount. */
function chamberError(
  isStated: (path: FieldPath) => boolean,
  { chamber, block }: Combination,
): readonly MeasuringError[] {
  if (!isStated('chamber.volume'))
    return isStated('chamber.compression') ? errorsOf(['chamber.compression']) : [];
  // d(ratio) = -(ratio - 1) dV / V, one cylinder.
  const swept = sweptVolume(block);
  const clearance = swept / (chamber.compressionRatio - 1);
  const cc = (1e6 * MEASURED_COMPRESSION * clearance) / (chamber.compressionRatio - 1);
  const volume: FieldPath = 'chamber.volume';
  const fields: readonly FieldError[] = [{ path: volume, by: 'add', sigma: -cc, unit: 'cc', silent: null }];
  return [{ id: 'compression', fields, part: [], reason: 'measured volumes give the ratio to 0.05' }];
}

/** By the line of the card that says most of the lobe. */
function durationErrors(isStated: (path: FieldPath) => boolean): readonly MeasuringError[] {
  return SIDES.flatMap((side) => {
    const lines: readonly FieldPath[] = [`cam.${side}.at050`, `cam.${side}.advertised`];
    const stated = lines.find(isStated);
    return stated === undefined ? [] : errorsOf([stated]);
  });
}

function valvetrainErrors(stated: Stated): readonly MeasuringError[] {
  const measured = stated('valvetrain.ratioIs') === 'measured';
  const ratios = SIDES.flatMap((side) => {
    const path: FieldPath = `valvetrain.${side}Ratio`;
    return measured || stated(path) === undefined ? [] : errorsOf([path]);
  });
  const lashes = SIDES.flatMap((side) => {
    const path: FieldPath = `valvetrain.${side}Lash`;
    const lash = stated(path);
    return typeof lash === 'string' && Number.parseFloat(lash) > 0 ? errorsOf([path]) : [];
  });
  return [...ratios, ...lashes];
}
