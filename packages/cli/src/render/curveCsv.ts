/** A curve as CSV. */
import type { Curve } from '@valvetide/core';
import { type BesideCurve, NOTHING_BESIDE } from './besideCurve.ts';
import { type Cell, csv, warningsCell } from './csv.ts';
import { pointValues } from './json.ts';

/** Which columns there are depends on what stands beside the curve: each cell brings its column's name. */
type Named = readonly [name: string, cell: Cell];

/**
 * One line per speed. Combination, fidelity, standard and factor stand on each, so that no line loses its basis when it is cut out; so do
 * the means over a band. Columns of a sheet are empty at speeds it does not reach.
 */
export function curveCsv(curve: Curve, { counted, measured, spread }: BesideCurve = NOTHING_BESIDE): string {
  const { combination, fidelity, correction } = curve;
  const ofBand: readonly Named[] =
    counted === null
      ? []
      : [
          ['bandFromRpm', counted.band.fromRpm],
          ['bandToRpm', counted.band.toRpm],
          ['bandTorqueNm', counted.mean.torqueNm],
          ['bandPowerKw', counted.mean.powerKw],
        ];
  const ofSheet = (rpm: number): readonly Named[] => {
    if (measured === null) return [];
    const step = measured.bySpeed.find((one) => one.rpm === rpm);
    return [
      ['measuredTorqueNm', step?.measuredNm ?? null],
      ['torqueAboveMeasuredNm', step?.differenceNm ?? null],
      ['torqueAboveMeasuredPct', step?.differencePct ?? null],
      ['rootMeanSquarePct', measured.rootMeanSquarePct],
    ];
  };
  const ofSpread = (rpm: number): readonly Named[] => {
    if (spread === null) return [];
    const at = spread.points.find((point) => point.rpm === rpm);
    return [
      ['spreadTorqueNm', at?.torqueNm ?? null],
      ['spreadShare', at?.total ?? null],
      ['spreadShareAssumed', at?.assumed ?? null],
      ['spreadShareStated', at?.stated ?? null],
      ['spreadShareModel', at?.model ?? null],
    ];
  };
  const rows = curve.points.map((point): readonly Named[] => [
    ...pointValues(point).map(([key, value]) => [key, value] as const),
    ['combination', combination],
    ['fidelity', fidelity],
    ['correctionStandard', correction.standard],
    ['correctionFactor', correction.factor],
    ['warnings', warningsCell(curve.warnings)],
    ...ofBand,
    ...ofSheet(point.rpm),
    ...ofSpread(point.rpm),
  ]);
  return csv([rows[0].map(([name]) => name), ...rows.map((row) => row.map(([, value]) => value))]);
}
