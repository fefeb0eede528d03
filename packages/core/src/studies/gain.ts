/** A curve against another. */

import { bandMean } from '../forecast/band.ts';
import type { WholeCurve } from '../forecast/wholeCurve.ts';
import type { CurveArea, Difference, Gain, SpeedDifference, StudyBasis } from './comparisonResult.ts';

interface Figures {
  readonly torqueNm: number;
  readonly powerKw: number;
}

/** What `curve` has more than `reference`, both at the speeds of the basis. */
export function gainOver(reference: WholeCurve, curve: WholeCurve, { band, weighting }: StudyBasis): Gain {
  const byRpm = curve.points.map((point, i): SpeedDifference => {
    return { rpm: point.rpm, ...difference(reference.points[i], point) };
  });
  const least = byRpm.reduce((worst, d) => (d.torqueNm < worst.torqueNm ? d : worst));
  const most = byRpm.reduce((best, d) => (d.torqueNm > best.torqueNm ? d : best));
  return {
    band: difference(bandMean(reference.points, band, weighting), bandMean(curve.points, band, weighting)),
    peakTorquePct: percent(reference.peak.torque.torqueNm, curve.peak.torque.torqueNm),
    peakPowerPct: percent(reference.peak.power.powerKw, curve.peak.power.powerKw),
    byRpm,
    worstLoss: least.torqueNm < 0 ? least : null,
    largestGain: most.torqueNm > 0 ? most : null,
  };
}

/** Area under a curve within the band, by the trapezoidal rule. */
export function curveArea(curve: WholeCurve, { band }: StudyBasis): CurveArea {
  const { points } = curve;
  const width = Math.min(band.toRpm, points[points.length - 1].rpm) - Math.max(band.fromRpm, points[0].rpm);
  const mean = bandMean(points, band);
  return { torqueNmRpm: mean.torqueNm * width, powerKwRpm: mean.powerKw * width };
}

function difference(reference: Figures, other: Figures): Difference {
  return {
    torqueNm: other.torqueNm - reference.torqueNm,
    torquePct: percent(reference.torqueNm, other.torqueNm),
    powerKw: other.powerKw - reference.powerKw,
    powerPct: percent(reference.powerKw, other.powerKw),
  };
}

/** How much more `other` is, in percent of the reference's size: more is positive below zero too; nothing where the reference is nothing. */
export function percent(reference: number, other: number): number {
  return reference === 0 ? 0 : (100 * (other - reference)) / Math.abs(reference);
}
