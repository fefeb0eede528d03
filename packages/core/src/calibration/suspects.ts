/** What may be wrong in the sheets of a fit that came to no good end: each is tried, none is taken from a list. */

import { INCH_OF_WATER } from '../base/constants.ts';
import { powerOf } from '../base/power.ts';
import { eachSum, scaled, sum } from '../base/quantityArithmetic.ts';
import { parseQuantity } from '../base/units.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import { brakeFactorIn } from '../forecast/weatherCorrection.ts';
import { dampedLeastSquares, type FitResult, type FitUnknown } from '../numerics/dampedLeastSquares.ts';
import { rootMeanSquare } from '../numerics/rootMeanSquare.ts';
import type { CombinationDocument, Plain } from '../reading/combinationDocument.ts';
import { fieldOf, withField } from '../reading/fieldOf.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { CalibrationTarget } from './calibrationTarget.ts';

/** Something that may be wrong, by how much, and what the fit would come to were it so. Plain and serialisable. */
export interface TriedSuspect {
  /** For people: what, and how far from what the file says. */
  readonly what: string;
  /** Sum of squares left of the fit's own [-]: below one it explains something. */
  readonly leaves: number;
  /** Root mean square of forecast over measured less one, torque and power figures [-]. */
  readonly error: number;
  /** Whether some knob would still stop at its limit. */
  readonly atLimit: boolean;
}

/** What a trial starts from: the fit as it ended, and how to forecast the fitted engine with something altered. */
export interface TrialGround {
  readonly document: CombinationDocument;
  readonly target: CalibrationTarget;
  readonly unknowns: readonly FitUnknown[];
  readonly fit: FitResult;
  /** Torque that each rpm/s of a rate which nobody states would hold back [N m for 1/min/s]; null where one is known, or at the wheels. */
  readonly heldByRate: number | null;
  /** Residuals of the fitted engine with its file altered so; null for each that could not be built or run. */
  readonly residualsWith: (
    alter: readonly ((fitted: CombinationDocument) => CombinationDocument)[],
  ) => Promise<readonly (readonly number[] | null)[]>;
}

/** By a size that the fit may choose; the size is in the unit of its belief. */
interface Sized {
  readonly alter: (document: CombinationDocument, size: number) => CombinationDocument;
  /** Size of the one forecast that gives the slope. */
  readonly step: number;
  /** One standard deviation believed of a mistake, wide on purpose, and the furthest it may go. */
  readonly spread: number;
  readonly most: number;
  readonly what: (size: number) => string;
}

/** The other way of reading something that the file says. */
interface Other {
  readonly alter: (document: CombinationDocument) => CombinationDocument;
  readonly what: string;
}

/** Suspects that leave less than this of the sum are named. */
const EXPLAINS = 0.75;
/** Depressions that benches work at [inH2O]; common practice, no source. */
const DEPRESSIONS = [10, 20, 25, 28];
/** Rate that pulls commonly have, and the fastest to be believed of one that nobody states [1/min/s]; common practice, no source. */
const USUAL_RATE = 300;
const FASTEST_RATE = 1000;
const STANDARDS: readonly CorrectionStandard[] = ['J607', 'J1349', 'none'];
const STANDARD_NAMES: Readonly<Record<CorrectionStandard, string>> = {
  J607: 'SAE J607',
  J1349: 'SAE J1349',
  none: 'as observed',
};

/** All suspects of a file with what came of them, likeliest first; those that explain next to nothing are left out. */
export async function trySuspects(ground: TrialGround): Promise<readonly TriedSuspect[]> {
  const sized = sizedSuspects(ground.document);
  const others = otherReadings(ground.document);
  const forecasts = await ground.residualsWith([
    ...sized.map(
      ({ alter, step }) =>
        (document: CombinationDocument) =>
          alter(document, step),
    ),
    ...others.map(({ alter }) => alter),
  ]);
  const tried: TriedSuspect[] = [];
  for (const [i, suspect] of sized.entries()) {
    const residuals = forecasts[i];
    if (residuals !== null) tried.push(await trySized(ground, suspect, residuals));
  }
  for (const [i, { what }] of others.entries()) {
    const residuals = forecasts[sized.length + i];
    if (residuals !== null) tried.push(await tryOther(ground, what, residuals));
  }
  for (const standard of STANDARDS) {
    if (standard === ground.target.standard) continue;
    const what = `correction standard: the figures are ${STANDARD_NAMES[standard]}, not ${STANDARD_NAMES[ground.target.standard]}`;
    tried.push(await tryOther(ground, what, levelled(ground, standard)));
  }
  if (ground.heldByRate !== null) tried.push(await tryRate(ground, ground.heldByRate));
  const order = (one: TriedSuspect): number => one.leaves + (one.atLimit ? 1 : 0);
  return tried.filter(({ leaves }) => leaves < EXPLAINS).sort((a, b) => order(a) - order(b));
}

async function trySized(
  ground: TrialGround,
  { step, spread, most, what }: Sized,
  residuals: readonly number[],
): Promise<TriedSuspect> {
  const { fit, unknowns } = ground;
  const slope = residuals.map((r, i) => (r - fit.residuals[i]) / step);
  const size: FitUnknown = { mean: 0, spread, min: -most, max: most, step: 0.4 * spread };
  const refit = await refitted([...unknowns, size], (x) =>
    along(ground, fit.residuals, x).map((r, i) => r + slope[i] * x[unknowns.length]),
  );
  return summary(ground, what(refit.x[unknowns.length]), refit);
}

async function tryOther(
  ground: TrialGround,
  what: string,
  residuals: readonly number[],
): Promise<TriedSuspect> {
  return summary(ground, what, await refitted(ground.unknowns, (x) => along(ground, residuals, x)));
}

/** That the pull went at a rate which its sheet keeps to itself: no forecast is needed to tell what it would have held back. */
async function tryRate(ground: TrialGround, heldByRate: number): Promise<TriedSuspect> {
  const { fit, unknowns, target } = ground;
  const slope = target.aims.map(({ kind, rpm, sigma }) => {
    if (kind.endsWith('speed')) return 0;
    return -(heldByRate * (kind === 'power peak' ? powerOf(1, rpm) : 1)) / sigma;
  });
  const rate: FitUnknown = { mean: 0, spread: USUAL_RATE, min: 0, max: FASTEST_RATE, step: 0.4 * USUAL_RATE };
  const refit = await refitted([...unknowns, rate], (x) =>
    along(ground, fit.residuals, x).map((r, i) => r + slope[i] * x[unknowns.length]),
  );
  const rpmPerSecond = Math.round(refit.x[unknowns.length] / 10) * 10;
  const what = `rate of the pull: one that rises by ${rpmPerSecond} rpm/s holds back torque, and the sheet says nothing of it`;
  return summary(ground, what, refit);
}

/** Residuals at other knobs, straight from the slopes at the fit. */
function along({ fit }: TrialGround, from: readonly number[], x: readonly number[]): number[] {
  return from.map((r, row) =>
    fit.jacobian[row].reduce((moved, slope, k) => moved + slope * (x[k] - fit.x[k]), r),
  );
}

async function refitted(
  unknowns: readonly FitUnknown[],
  residuals: (x: readonly number[]) => number[],
): Promise<FitResult> {
  const fit = await dampedLeastSquares(unknowns, async (points) => points.map(residuals));
  // A straight problem always has its points.
  if (fit === null) throw new Error('a straight fit has no point missing');
  return fit;
}

function summary({ target, unknowns, fit }: TrialGround, what: string, refit: FitResult): TriedSuspect {
  const sumOf = ({ x, residuals }: FitResult): number =>
    unknowns.reduce(
      (sum, u, i) => sum + ((x[i] - u.mean) / u.spread) ** 2,
      residuals.reduce((sum, r) => sum + r * r, 0),
    );
  const figures = target.aims.flatMap((aim, i) =>
    aim.kind.endsWith('speed') ? [] : [(refit.residuals[i] * aim.sigma) / aim.measured],
  );
  const error = rootMeanSquare(figures);
  return { what, leaves: sumOf(refit) / sumOf(fit), error, atLimit: refit.held.some((side) => side !== 0) };
}

/** Residuals if the figures stood under another standard: the forecast is shown under that one. */
function levelled({ target, fit }: TrialGround, standard: CorrectionStandard): readonly number[] {
  const { weather } = target;
  const factor = (of: CorrectionStandard): number => (weather === null ? 1 : brakeFactorIn(of, weather));
  const ratio = factor(standard) / factor(target.standard);
  return target.aims.map(({ kind, measured, sigma }, i) =>
    kind.endsWith('speed')
      ? fit.residuals[i]
      : ((measured + fit.residuals[i] * sigma) * ratio - measured) / sigma,
  );
}

const percent = (size: number): string =>
  `${Math.abs(100 * size).toFixed(0)} % ${size > 0 ? 'more' : 'less'}`;

/** Edits of fields that the file has; a field that it has not leaves the file as it is. */
function edited(
  document: CombinationDocument,
  path: FieldPath,
  change: (value: Plain) => { readonly ok: boolean; readonly value?: Plain },
): CombinationDocument {
  const value = fieldOf(document, path) ?? null;
  if (value === null) return document;
  const next = change(value);
  return next.ok && next.value !== undefined ? withField(document, path, next.value) : document;
}

/** Scales fields by one plus a size, or by a power of that. */
function share(paths: readonly FieldPath[], power = 1): Sized['alter'] {
  return (from, size) =>
    paths.reduce((to, path) => edited(to, path, (value) => scaled(value, (1 + size) ** power)), from);
}

/** Adds a size in degrees to fields, or takes it off where their sign is negative. */
function degrees(paths: readonly (readonly [path: FieldPath, sign: 1 | -1])[]): Sized['alter'] {
  return (from, size) =>
    paths.reduce(
      (to, [path, sign]) => edited(to, path, (value) => eachSum(value, `${sign * size} deg`)),
      from,
    );
}

const METERING: Sized = {
  alter: (from, size) => {
    const now = Number(fieldOf(from, 'induction.flowMultiplier') ?? 1);
    return withField(from, 'induction.flowMultiplier', now * (1 + size));
  },
  step: 0.15,
  spread: 0.3,
  most: 0.6,
  what: (size) =>
    `carburetor or throttle: ${percent(size)} flow than the file says (another rating or drop, or not opening fully)`,
};

const DISPLACEMENT: Sized = {
  // Displacement goes with the square of the bore.
  alter: share(['engine.bore'], 0.5),
  step: 0.03,
  spread: 0.06,
  most: 0.15,
  what: (size) => `bore, stroke or number of cylinders: ${percent(size)} displacement than the file says`,
};

const COMPRESSION: Sized = {
  alter: (from, size) => edited(from, 'chamber.compression', (value) => sum(value, size)),
  step: 0.5,
  spread: 1,
  most: 2,
  what: (size) =>
    `compression ratio: ${Math.abs(size).toFixed(1)} ${size > 0 ? 'higher' : 'lower'} than the file says`,
};

const CENTRELINES = [
  ['cam.intake.centreline', -1],
  ['cam.exhaust.centreline', 1],
] as const;

const CAM_PHASE: Sized = {
  alter: degrees(CENTRELINES),
  step: 4,
  spread: 5,
  most: 12,
  what: (size) =>
    `cam: installed ${Math.abs(size).toFixed(0)} deg ${size > 0 ? 'earlier' : 'later'} than the file says`,
};

const LOBES = [
  ['cam.intake.at050', 1],
  ['cam.exhaust.at050', 1],
] as const;

const LOBE_DURATION: Sized = {
  alter: degrees(LOBES),
  step: 6,
  spread: 8,
  most: 25,
  what: (size) =>
    `cam card: lobes ${Math.abs(size).toFixed(0)} deg ${size > 0 ? 'longer' : 'shorter'} than the file says`,
};

const EXHAUST_LENGTH: Sized = {
  alter: share(['exhaust.primary.length', 'exhaust.collector.length']),
  step: 0.15,
  spread: 0.25,
  most: 0.6,
  what: (size) =>
    `primary and collector: ${Math.abs(100 * size).toFixed(0)} % ${size > 0 ? 'longer' : 'shorter'} than the file says`,
};

/** Those that the file has a field for. */
function sizedSuspects(document: CombinationDocument): readonly Sized[] {
  const has = (path: FieldPath): boolean => (fieldOf(document, path) ?? null) !== null;
  return [
    METERING,
    DISPLACEMENT,
    ...(has('chamber.compression') ? [COMPRESSION] : []),
    ...(CENTRELINES.some(([path]) => has(path)) ? [CAM_PHASE] : []),
    ...(LOBES.some(([path]) => has(path)) ? [LOBE_DURATION] : []),
    EXHAUST_LENGTH,
  ];
}

function otherReadings(document: CombinationDocument): readonly Other[] {
  const path: FieldPath = 'heads.bench.depression';
  const stated = fieldOf(document, path);
  if (typeof stated !== 'string') return [];
  const read = parseQuantity(stated, 'pressure');
  if (!read.ok) return [];
  const now = read.value.kept / INCH_OF_WATER;
  return DEPRESSIONS.filter((depression) => !(Math.abs(depression - now) < 0.5)).map(
    (depression): Other => ({
      alter: (from) => withField(from, path, `${depression} inH2O`),
      what: `flow sheet: measured at ${depression} inH2O, where the file says ${stated}`,
    }),
  );
}

/** For people: what a suspect would explain. */
export function suspectText({ what, error, atLimit }: TriedSuspect): string {
  const left = `the fit would then be off by ${(100 * error).toFixed(1)} %`;
  return `${what}; ${left}${atLimit ? ', some knob still at its limit' : ''}`;
}
