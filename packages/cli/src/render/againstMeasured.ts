/** A forecast held to a dyno sheet: how far off, speed by speed. */
import type { Curve, HeldBack, MeanPoint, PullSummary } from '@valvetide/core';
import { marched } from './marched.ts';

/** One speed of the forecast that the sheet reaches. */
export interface MeasuredStep {
  readonly rpm: number;
  readonly measuredNm: number;
  readonly forecastNm: number;
  /** Forecast less measured. */
  readonly differenceNm: number;
  readonly differencePct: number;
}

export interface AgainstMeasured {
  /** Mean of the sheet's pulls, at the curve's correction standard. */
  readonly sheet: PullSummary;
  /** What was added to the sheet to bring it to steady running; null for nothing. */
  readonly heldBack: HeldBack | null;
  readonly bySpeed: readonly MeasuredStep[];
  /** Of the differences over those speeds, unweighted [%]. */
  readonly meanPct: number;
  readonly rootMeanSquarePct: number;
}

/** Null where the sheet and the forecast have no speed in common. */
export function againstMeasured(
  { points }: Pick<Curve, 'points'>,
  sheet: PullSummary,
  heldBack: HeldBack | null = null,
): AgainstMeasured | null {
  const bySpeed = marched(points).flatMap(({ rpm, torqueNm }): MeasuredStep[] => {
    const measuredNm = torqueAt(sheet.points, rpm);
    if (measuredNm === null) return [];
    const differenceNm = torqueNm - measuredNm;
    return [
      {
        rpm,
        measuredNm,
        forecastNm: torqueNm,
        differenceNm,
        differencePct: (100 * differenceNm) / measuredNm,
      },
    ];
  });
  if (bySpeed.length === 0) return null;
  const mean = (of: (pct: number) => number): number =>
    bySpeed.reduce((sum, { differencePct }) => sum + of(differencePct), 0) / bySpeed.length;
  return {
    sheet,
    heldBack,
    bySpeed,
    meanPct: mean((pct) => pct),
    rootMeanSquarePct: Math.sqrt(mean((pct) => pct * pct)),
  };
}

/** Straight between the sheet's speeds; null outside of them. */
function torqueAt(points: readonly MeanPoint[], rpm: number): number | null {
  const after = points.findIndex((point) => point.rpm >= rpm);
  if (after < 0) return null;
  const b = points[after];
  if (b.rpm === rpm) return b.torqueNm;
  if (after === 0) return null;
  const a = points[after - 1];
  return a.torqueNm + ((b.torqueNm - a.torqueNm) * (rpm - a.rpm)) / (b.rpm - a.rpm);
}
