/** What a set of pulls comes to: peaks, means over a band, repeatability. */
import type { CorrectionStandard } from '../combination/running.ts';
import { type BandWeighting, bandMean, type SpeedBand } from '../forecast/band.ts';
import type { DynoSheet } from './dynoSheet.ts';
import { type MeanPoint, type PullMean, pullMean } from './pullMean.ts';

/** Over which speeds, and how they count. */
export interface PullOptions {
  /** Default: all speeds of the pulls. */
  readonly band?: SpeedBand | undefined;
  /** What counts equally in a mean; default `speed`. */
  readonly weighting?: BandWeighting | undefined;
}

/** One pull, or the mean of all. */
export interface PullFigures {
  /** Name of the pull. */
  readonly name: string;
  /**
   * How much its speed rose in a second [1/min/s], below 0 where it fell; 0: speeds were held, or the dyno added what the pull held back.
   * Absent: the sheet doesn't say.
   */
  readonly rate?: number;
  /** Highest torque [N m] and its speed [1/min]. */
  readonly peakTorque: { readonly rpm: number; readonly torqueNm: number };
  /** Highest power [kW] and its speed [1/min]. */
  readonly peakPower: { readonly rpm: number; readonly powerKw: number };
  /** Means over the band: torque [N m], power [kW]. */
  readonly band: { readonly torqueNm: number; readonly powerKw: number };
}

/** A sheet's pulls, each and together. */
export interface PullSummary {
  /** Name of the sheet. */
  readonly sheet: string;
  /** Title that the sheet gives itself; null for none. */
  readonly title: string | null;
  /** Correction standard that the figures are shown by. */
  readonly standard: CorrectionStandard;
  /** Its figures are those at the driven wheels; absent: at the engine, as far as the sheet says. */
  readonly atWheels?: true;
  /** Speeds that count. */
  readonly band: SpeedBand;
  /** What counts equally in a mean; default `speed`. */
  readonly weighting: BandWeighting;
  /** Each pull, in the order of the sheet. */
  readonly pulls: readonly PullFigures[];
  /** The mean of the pulls. */
  readonly mean: PullFigures;
  /** The mean by speed, rising. */
  readonly points: readonly MeanPoint[];
  /** Standard deviation of one pull [-]; null with one pull. */
  readonly repeatability: PullMean['repeatability'];
  /** Width that peaks were read over [1/min]. */
  readonly smoothedOver: number;
  /** What was repaired or taken for granted, for people. */
  readonly notes: readonly string[];
}

/**
 * Figures of a sheet over a band.
 *
 * @throws {@link DomainError} where no speed lies in the band or pulls have no speed in common
 *
 * @example
 * ```ts
 * console.log(summarisePulls(sheet).mean.peakPower);
 * ```
 */
export function summarisePulls(sheet: DynoSheet, options: PullOptions = {}): PullSummary {
  const mean = pullMean(sheet.pulls);
  const { points } = mean;
  const band = options.band ?? { fromRpm: points[0].rpm, toRpm: points[points.length - 1].rpm };
  const weighting = options.weighting ?? 'speed';
  const figures = (
    name: string,
    of: readonly Pick<MeanPoint, 'rpm' | 'torqueNm' | 'powerKw'>[],
  ): PullFigures => {
    const torque = of.reduce((best, point) => (point.torqueNm > best.torqueNm ? point : best));
    const power = of.reduce((best, point) => (point.powerKw > best.powerKw ? point : best));
    return {
      name,
      peakTorque: { rpm: torque.rpm, torqueNm: torque.torqueNm },
      peakPower: { rpm: power.rpm, powerKw: power.powerKw },
      band: bandMean(of, band, weighting),
    };
  };
  return {
    sheet: sheet.name,
    title: sheet.title,
    standard: sheet.standard,
    ...(sheet.atWheels === true ? { atWheels: true as const } : {}),
    band,
    weighting,
    pulls: sheet.pulls.map((pull) => ({
      ...figures(pull.name, pull.points),
      ...(pull.rate === undefined ? {} : { rate: pull.rate }),
    })),
    mean: figures('mean', points),
    points,
    repeatability: mean.repeatability,
    smoothedOver: mean.smoothedOver,
    notes: sheet.notes,
  };
}
