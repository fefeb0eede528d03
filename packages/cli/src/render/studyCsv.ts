/** Studies as CSV: one line a combination and speed, a point of a grid, or a ranked change. */
import type {
  ComparisonResult,
  OperatingPoint,
  RankingResult,
  SweepPoint,
  SweepResult,
} from '@valvetide/core';
import { breachCell } from './breaches.ts';
import { type Cell, type CsvColumn, csvTable, warningsCell } from './csv.ts';
import { sweptNumbers } from './sweptNumbers.ts';

/** One line per combination and speed; what was not run is left out. */
export function comparisonCsv({ entries, reference, correction, fidelity }: ComparisonResult): string {
  type Entry = ComparisonResult['entries'][number];
  type Row = { readonly entry: Entry; readonly point: OperatingPoint; readonly i: number };
  const step = ({ entry, i }: Row) => entry.gain?.byRpm[i];
  const figure = (of: 'torqueNm' | 'powerKw' | 'torqueLbFt' | 'powerHp'): CsvColumn<Row> => [
    of,
    ({ point }) => (point.status === 'lost' ? null : point[of]),
  ];
  const columns: readonly CsvColumn<Row>[] = [
    ['combination', ({ entry }) => entry.name],
    ['rpm', ({ point }) => point.rpm],
    figure('torqueNm'),
    figure('powerKw'),
    figure('torqueLbFt'),
    figure('powerHp'),
    ['torqueGainNm', (row) => step(row)?.torqueNm ?? null],
    ['torqueGainPct', (row) => step(row)?.torquePct ?? null],
    ['powerGainKw', (row) => step(row)?.powerKw ?? null],
    ['reference', () => reference],
    ['status', ({ point }) => point.status],
    ['breaches', ({ entry }) => breachCell(entry.breaches)],
    ['warnings', ({ entry }) => warningsCell(entry.curve?.warnings ?? [])],
    ['fidelity', () => fidelity],
    ['correctionStandard', () => correction],
  ];
  return csvTable(
    columns,
    entries.flatMap((entry) => (entry.curve?.points ?? []).map((point, i) => ({ entry, point, i }))),
  );
}

/** One line per point; figures are empty where there is no engine, a speed was lost or an interrupt came first. */
export function sweepCsv(sweep: SweepResult): string {
  const { combination, variables, points, leftOut, band, correction, fidelity } = sweep;
  const columns: readonly CsvColumn<SweepPoint>[] = [
    ['combination', () => combination],
    ...variables.map((variable, i): CsvColumn<SweepPoint> => {
      const { name, cell } = sweptColumn(variable);
      return [name, ({ values }) => cell(values[i])];
    }),
    ['bandTorqueNm', ({ figures }) => figures?.band.torqueNm ?? null],
    ['bandPowerKw', ({ figures }) => figures?.band.powerKw ?? null],
    ['bandGainPct', ({ bandGainPct }) => bandGainPct],
    ['peakTorqueNm', ({ figures }) => figures?.peak.torque.torqueNm ?? null],
    ['peakTorqueRpm', ({ figures }) => figures?.peak.torque.rpm ?? null],
    ['peakPowerKw', ({ figures }) => figures?.peak.power.powerKw ?? null],
    ['peakPowerRpm', ({ figures }) => figures?.peak.power.rpm ?? null],
    ['worstLossPct', ({ worstLoss }) => worstLoss?.torquePct ?? null],
    ['worstLossRpm', ({ worstLoss }) => worstLoss?.rpm ?? null],
    ['refused', ({ refused }) => refused],
    ['breaches', ({ breaches }) => breachCell(breaches)],
    ['warnings', ({ cautions }) => warningsCell([...sweep.warnings, ...cautions])],
    ['lostRpm', ({ name }) => lostSpeeds(leftOut, name)],
    ['bandFromRpm', () => band.fromRpm],
    ['bandToRpm', () => band.toRpm],
    ['fidelity', () => fidelity],
    ['correctionStandard', () => correction],
  ];
  return csvTable(columns, points);
}

function lostSpeeds(leftOut: SweepResult['leftOut'], name: string): string {
  return leftOut
    .filter(({ curve }) => curve === name)
    .map(({ rpm }) => rpm)
    .join(' ');
}

/** A swept field: its unit in the head and plain numbers below, where all values are numbers of one unit. */
function sweptColumn({ path, values }: SweepResult['variables'][number]): {
  readonly name: string;
  readonly cell: (value: string | number) => Cell;
} {
  const found = sweptNumbers(values);
  if (found === null) return { name: path, cell: (value) => value };
  return {
    name: found.unit === '' ? path : `${path} [${found.unit}]`,
    cell: (value) => found.numbers[values.indexOf(value)],
  };
}

/** One line per change, largest gain first; what was not worked out is empty. */
export function rankingCsv({ combination, changes, band, dyno, seed, warnings }: RankingResult): string {
  const columns: readonly CsvColumn<RankingResult['changes'][number]>[] = [
    ['combination', () => combination],
    ['change', ({ name }) => name],
    ['bandGainPct', ({ notModelled, bandGainPct }) => (notModelled === null ? bandGainPct : null)],
    ['bandGainKw', ({ notModelled, bandGainKw }) => (notModelled === null ? bandGainKw : null)],
    ['sigmaPct', ({ sigmaPct }) => sigmaPct],
    ['notModelled', ({ notModelled }) => notModelled],
    ['gainKwPerHour', ({ gainKwPerHour }) => gainKwPerHour],
    ['gainKwPerCost', ({ gainKwPerCost }) => gainKwPerCost],
    ['chanceOfGain', ({ chanceOfGain }) => chanceOfGain],
    ['chanceResolvable', ({ chanceResolvable }) => chanceResolvable],
    ['pullsNeeded', ({ pullsNeeded }) => pullsNeeded],
    ['peakPowerGainPct', ({ peakPowerGainPct }) => peakPowerGainPct],
    ['peakTorqueGainPct', ({ peakTorqueGainPct }) => peakTorqueGainPct],
    ['worstLossPct', ({ worstLossPct }) => worstLossPct],
    ['worstLossRpm', ({ worstLossRpm }) => worstLossRpm],
    ['tieGroup', ({ tieGroup }) => tieGroup],
    ['mattersMost', ({ mattersMost }) => mattersMost?.path ?? null],
    ['modelShare', ({ modelShare }) => modelShare],
    ['cost', ({ cost }) => cost],
    ['hours', ({ hours }) => hours],
    ['reversible', ({ reversible }) => reversible],
    ['breaches', ({ breaches }) => breachCell(breaches)],
    ['warnings', ({ cautions }) => warningsCell([...warnings, ...cautions])],
    ['fromRpm', () => band.fromRpm],
    ['toRpm', () => band.toRpm],
    ['dynoRepeatabilityPct', () => dyno.repeatabilityPct],
    ['dynoPulls', () => dyno.pulls],
    ['seed', () => seed],
  ];
  return csvTable(columns, changes);
}
