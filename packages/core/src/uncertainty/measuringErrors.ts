/** How wrong the stated values of a combination may be: sheets, ratings and cards, each with its usual error. */
import type { Combination } from '../combination/combination.ts';
import type { Plain } from '../reading/readDocument.ts';

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
  readonly id: string;
  readonly fields: readonly FieldError[];
  /** Fields that, when changed, bring a new part with an error of its own. Empty: the error belongs to the bench or the block. */
  readonly part: readonly string[];
  readonly reason: string;
}

/** Value of a field as the file states it; undefined where it is silent or an estimate stands in. */
export type Stated = (path: string) => Plain | undefined;

/** One standard deviation of each [-] or as named; all common practice, no source, unless the reason says more. */
export const MEASURING_SPREAD = {
  /** Bench to bench 3 to 8 %. */
  bench: 0.05,
  /** The same bench again, 0.5 to 1 %. */
  benchRepeat: 0.0075,
  rating: 0.04,
  backPressure: 0.1,
  throttle: 0.02,
  rocker: 0.02,
  /** Compression ratio from the catalogue, and from measured volumes [-]. */
  catalogueCompression: 0.25,
  measuredCompression: 0.05,
  /** Squish area as seen on the head [% of the bore], squish height by deck, gasket and flat [in]. */
  squishArea: 2,
  squishHeight: 0.004,
  /** [crank deg] */
  camEvents: 1,
  /** [in] */
  lash: 0.002,
} as const;

const SIDES = ['intake', 'exhaust'] as const;

/** The errors of everything a file states. */
export function measuringErrors(stated: Stated, combination: Combination): readonly MeasuringError[] {
  return [
    ...flowErrors(combination),
    ...meteringErrors(stated),
    ...chamberError(stated, combination),
    ...squishErrors(stated, combination),
    ...camErrors(stated),
    ...valvetrainErrors(stated),
  ];
}

function scale(path: string, sigma: number, silent: number | null = null): FieldError {
  return { path, by: 'scale', sigma, unit: '', silent };
}

function flowErrors(combination: Combination): readonly MeasuringError[] {
  const sides = SIDES.filter((side) => combination[side].flow.measuredTo !== null);
  const multiplier = (side: string): string => `heads.${side}.flowMultiplier`;
  const fitted = new Set(combination.calibration?.knobs.map(({ path }) => path));
  const onBench = sides.map(multiplier).filter((path) => !fitted.has(path));
  const bench: MeasuringError = {
    id: 'flow bench',
    fields: onBench.map((path) => scale(path, MEASURING_SPREAD.bench, 1)),
    part: [],
    reason: 'benches differ by 3 to 8 %; common to all sheets of one bench',
  };
  const repeats = sides.map(
    (side): MeasuringError => ({
      id: `${side} flow sheet`,
      fields: [scale(multiplier(side), MEASURING_SPREAD.benchRepeat, 1)],
      part: ['heads.flow', `heads.${side}.flow`, multiplier(side)],
      reason: 'one bench repeats within 0.5 to 1 %',
    }),
  );
  return onBench.length > 0 ? [bench, ...repeats] : repeats;
}

function meteringErrors(stated: Stated): readonly MeasuringError[] {
  const rated = (id: string, path: string, sigma: number, part: string, reason: string): MeasuringError[] =>
    stated(path) === undefined ? [] : [{ id, fields: [scale(path, sigma)], part: [part], reason }];
  const { rating, throttle, backPressure } = MEASURING_SPREAD;
  return [
    ...rated(
      'carburetor rating',
      'induction.carburetor.rating',
      rating,
      'induction.carburetor',
      'published ratings stand to 4 %',
    ),
    ...rated(
      'throttle',
      'induction.throttle.diameter',
      throttle,
      'induction.throttle',
      'its flow for its size is known to 4 %',
    ),
    ...rated(
      'air cleaner rating',
      'induction.airCleaner.flow',
      rating,
      'induction.airCleaner',
      'published ratings stand to 4 %',
    ),
    ...rated(
      'muffler rating',
      'exhaust.muffler.flow',
      rating,
      'exhaust.muffler',
      'published ratings stand to 4 %',
    ),
    ...rated(
      'back-pressure',
      'exhaust.muffler.backPressure',
      backPressure,
      'exhaust.muffler',
      'a pulsating pressure is read to 10 %',
    ),
  ];
}

/** The error of the volumes stays when some of them are altered by a known amount. */
function chamberError(stated: Stated, { chamber, block }: Combination): readonly MeasuringError[] {
  const id = 'compression';
  if (stated('chamber.volume') !== undefined) {
    // d(ratio) = -(ratio - 1) dV / V, one cylinder.
    const swept = (Math.PI / 4) * block.bore * block.bore * block.stroke;
    const clearance = swept / (chamber.compressionRatio - 1);
    const cc = (1e6 * MEASURING_SPREAD.measuredCompression * clearance) / (chamber.compressionRatio - 1);
    const fields: readonly FieldError[] = [
      { path: 'chamber.volume', by: 'add', sigma: -cc, unit: 'cc', silent: null },
    ];
    return [{ id, fields, part: [], reason: 'measured volumes give the ratio to 0.05' }];
  }
  if (stated('chamber.compression') === undefined) return [];
  const fields: readonly FieldError[] = [
    {
      path: 'chamber.compression',
      by: 'add',
      sigma: MEASURING_SPREAD.catalogueCompression,
      unit: '',
      silent: null,
    },
  ];
  return [
    {
      id,
      fields,
      part: [],
      reason: 'a ratio without volumes is known to 0.25 (common practice, no source); measure them',
    },
  ];
}

function squishErrors(stated: Stated, { chamber }: Combination): readonly MeasuringError[] {
  // None at all is seen for certain, and the height of no gap is of no account.
  if (!(chamber.squishArea > 0)) return [];
  const read = (field: 'squishArea' | 'squishHeight', unit: string, reason: string): MeasuringError[] => {
    const path = `chamber.${field}`;
    if (stated(path) === undefined) return [];
    const error: FieldError = { path, by: 'add', sigma: MEASURING_SPREAD[field], unit, silent: null };
    return [
      {
        id: field === 'squishArea' ? 'squish area' : 'squish height',
        fields: [error],
        part: [path, 'chamber.shape'],
        reason,
      },
    ];
  };
  return [
    ...read('squishArea', '%', 'the flat of a head is read to 2 % of the bore'),
    ...read('squishHeight', 'in', 'deck, gasket and flat add up to 0.004 in'),
  ];
}

function camErrors(stated: Stated): readonly MeasuringError[] {
  const degrees = (path: string, sign: number): FieldError => ({
    path,
    by: 'add',
    sigma: sign * MEASURING_SPREAD.camEvents,
    unit: 'deg',
    silent: null,
  });
  // Advanced, the intake lobe comes earlier after top centre and the exhaust lobe earlier before it.
  const phase = [
    ...(stated('cam.intake.centreline') === undefined ? [] : [degrees('cam.intake.centreline', -1)]),
    ...(stated('cam.exhaust.centreline') === undefined ? [] : [degrees('cam.exhaust.centreline', 1)]),
    ...(stated('cam.advance') === undefined ? [] : [degrees('cam.advance', 1)]),
  ];
  const durations = SIDES.flatMap((side): MeasuringError[] => {
    const lines = ['at050', 'advertised'].map((line) => `cam.${side}.${line}`);
    const path = lines.find((line) => stated(line) !== undefined);
    return path === undefined
      ? []
      : [
          {
            id: `${side} duration`,
            fields: [degrees(path, 1)],
            part: [`cam.${side}`, 'cam.lifter'],
            reason: 'cards and cams agree to 1 deg',
          },
        ];
  });
  const degreeing: MeasuringError = {
    id: 'cam phase',
    fields: phase,
    part: ['cam'],
    reason: 'a cam is degreed to 1 deg',
  };
  return phase.length > 0 ? [degreeing, ...durations] : durations;
}

function valvetrainErrors(stated: Stated): readonly MeasuringError[] {
  const measured = stated('valvetrain.ratioIs') === 'measured';
  const ratios = SIDES.flatMap((side): MeasuringError[] => {
    const path = `valvetrain.${side}Ratio`;
    if (measured || stated(path) === undefined) return [];
    return [
      {
        id: `${side} rocker ratio`,
        fields: [scale(path, MEASURING_SPREAD.rocker)],
        part: [path, 'valvetrain.type'],
        reason: 'stamped ratios are off by 2 % (common practice, no source); measure them',
      },
    ];
  });
  const lashes = SIDES.flatMap((side): MeasuringError[] => {
    const path = `valvetrain.${side}Lash`;
    const lash = stated(path);
    if (typeof lash !== 'string' || !(Number.parseFloat(lash) > 0)) return [];
    const error: FieldError = {
      path,
      by: 'add',
      sigma: MEASURING_SPREAD.lash,
      unit: 'in',
      silent: null,
    };
    return [{ id: `${side} lash`, fields: [error], part: [path], reason: 'set and grown to 0.002 in' }];
  });
  return [...ratios, ...lashes];
}
