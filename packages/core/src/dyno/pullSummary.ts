/** What a set of pulls comes to: peaks, means over a band, repeatability. */
import type { CorrectionStandard } from '../combination/combination.ts';
import { type BandWeighting, bandMean, type SpeedBand } from '../forecast/band.ts';
import type { DynoSheet } from './dynoSheet.ts';
import { type MeanPoint, type PullMean, pullMean } from './pullMean.ts';

/** Over which speeds, and how they count. */
export interface PullOptions {
  /** Default: all speeds of the pulls. */
  readonly band?: SpeedBand | undefined;
  readonly weighting?: BandWeighting | undefined;
}

/** One pull, or the mean of all. */
export interface PullFigures {
  readonly name: string;
  readonly peakTorque: { readonly rpm: number; readonly torqueNm: number };
  readonly peakPower: { readonly rpm: number; readonly powerKw: number };
  readonly band: { readonly torqueNm: number; readonly powerKw: number };
}

/** A sheet's pulls, each and together. */
export interface PullSummary {
  readonly sheet: string;
  readonly title: string | null;
  readonly standard: CorrectionStandard;
  readonly band: SpeedBand;
  readonly weighting: BandWeighting;
  readonly pulls: readonly PullFigures[];
  readonly mean: PullFigures;
  readonly points: readonly MeanPoint[];
  /** Standard deviation of one pull [-]; null with one pull. */
  readonly repeatability: PullMean['repeatability'];
  readonly smoothedOver: number;
  readonly notes: readonly string[];
}

/**
 * Figures of a sheet over a band.
 *
 * @throws {@link DomainError} where no speed lies in the band or pulls have no speed in common
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
    band,
    weighting,
    pulls: sheet.pulls.map((pull) => figures(pull.name, pull.points)),
    mean: figures('mean', points),
    points,
    repeatability: mean.repeatability,
    smoothedOver: mean.smoothedOver,
    notes: sheet.notes,
  };
}
