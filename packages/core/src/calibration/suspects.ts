/** What may be wrong in the sheets of a fit that came to no good end: each is tried, none is taken from a list. */

import { INCH_OF_WATER } from '../base/constants.ts';
import { eachSum, scaled, sum } from '../base/quantityArithmetic.ts';
import { parseQuantity } from '../base/units.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import type { CombinationDocument, Plain } from '../reading/combinationDocument.ts';
import { fieldOf, withField } from '../reading/fieldOf.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import {
  levelled,
  type Sized,
  type TrialGround,
  type TriedSuspect,
  tryOther,
  tryRate,
  trySized,
} from './suspectTrial.ts';

/** The other way of reading something that the file says. */
interface Other {
  readonly alter: (document: CombinationDocument) => CombinationDocument;
  readonly what: string;
}

/** Suspects that leave less than this of the sum are named. */
const EXPLAINS = 0.75;
/** Depressions that benches work at [inH2O]; common practice, no source. */
const DEPRESSIONS = [10, 20, 25, 28];
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
