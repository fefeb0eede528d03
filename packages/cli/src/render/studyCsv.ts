/** Studies as CSV: one line a combination and speed, a point of a grid, or a ranked change. */
import type { ComparisonResult, RankingResult, SweepResult } from '@valvetide/core';
import { breachCell } from './breaches.ts';
import { csv, warningsCell } from './csv.ts';

type Cell = string | number | boolean;

/** One line per combination and speed; what was not run is left out. */
export function comparisonCsv({ entries, reference, correction, fidelity }: ComparisonResult): string {
  const header = [
    'combination',
    'rpm',
    'torqueNm',
    'powerKw',
    'torqueLbFt',
    'powerHp',
    'torqueGainNm',
    'torqueGainPct',
    'powerGainKw',
    'reference',
    'status',
    'breaches',
    'warnings',
    'fidelity',
    'correctionStandard',
  ];
  const rows = entries.flatMap(({ name, curve, gain, breaches }) =>
    (curve?.points ?? []).map((point, i): Cell[] => {
      const step = gain?.byRpm[i];
      return [
        name,
        point.rpm,
        ...(point.status === 'lost'
          ? ['', '', '', '']
          : [point.torqueNm, point.powerKw, point.torqueLbFt, point.powerHp]),
        step?.torqueNm ?? '',
        step?.torquePct ?? '',
        step?.powerKw ?? '',
        reference,
        point.status,
        breachCell(breaches),
        warningsCell(curve?.warnings ?? []),
        fidelity,
        correction,
      ];
    }),
  );
  return csv([header, ...rows]);
}

/** One line per point; figures are empty where there is no engine, a speed was lost or an interrupt came first. */
export function sweepCsv(sweep: SweepResult): string {
  const { combination, variables, points, leftOut, band, correction, fidelity } = sweep;
  const swept = variables.map(sweptColumn);
  const header = [
    'combination',
    ...swept.map(({ head }) => head),
    'bandTorqueNm',
    'bandPowerKw',
    'bandGainPct',
    'peakTorqueNm',
    'peakTorqueRpm',
    'peakPowerKw',
    'peakPowerRpm',
    'worstLossPct',
    'worstLossRpm',
    'refused',
    'breaches',
    'warnings',
    'lostRpm',
    'bandFromRpm',
    'bandToRpm',
    'fidelity',
    'correctionStandard',
  ];
  const rows = points.map(
    ({ name, values, figures, bandGainPct, worstLoss, refused, breaches, cautions }): Cell[] => [
      combination,
      ...values.map((value, i) => swept[i].cell(value)),
      figures?.band.torqueNm ?? '',
      figures?.band.powerKw ?? '',
      bandGainPct ?? '',
      figures?.peak.torque.torqueNm ?? '',
      figures?.peak.torque.rpm ?? '',
      figures?.peak.power.powerKw ?? '',
      figures?.peak.power.rpm ?? '',
      worstLoss?.torquePct ?? '',
      worstLoss?.rpm ?? '',
      refused ?? '',
      breachCell(breaches),
      warningsCell([...sweep.warnings, ...cautions]),
      leftOut
        .filter(({ curve }) => curve === name)
        .map(({ rpm }) => rpm)
        .join(' '),
      band.fromRpm,
      band.toRpm,
      fidelity,
      correction,
    ],
  );
  return csv([header, ...rows]);
}

/** A swept field: its unit in the head and plain numbers below, where all values are numbers of one unit. */
function sweptColumn({ path, values }: SweepResult['variables'][number]): {
  readonly head: string;
  readonly cell: (value: string | number) => Cell;
} {
  const parts = values.map((value) => /^\s*(-?\d+(?:\.\d+)?)\s*(\D.*)?$/su.exec(String(value)));
  const units = new Set(parts.map((part) => (part?.[2] ?? '').trim()));
  const [unit] = units;
  if (parts.includes(null) || units.size !== 1) return { head: path, cell: (value) => value };
  return {
    head: unit === '' ? path : `${path} [${unit}]`,
    cell: (value) => Number(/-?\d+(?:\.\d+)?/.exec(String(value))?.[0]),
  };
}

/** One line per change, largest gain first; what was not worked out is empty. */
export function rankingCsv({ combination, changes, band, dyno, seed, warnings }: RankingResult): string {
  const header = [
    'combination',
    'change',
    'bandGainPct',
    'bandGainKw',
    'sigmaPct',
    'notModelled',
    'gainKwPerHour',
    'gainKwPerCost',
    'chanceOfGain',
    'chanceResolvable',
    'pullsNeeded',
    'peakPowerGainPct',
    'peakTorqueGainPct',
    'worstLossPct',
    'worstLossRpm',
    'tieGroup',
    'mattersMost',
    'cost',
    'hours',
    'reversible',
    'breaches',
    'warnings',
    'fromRpm',
    'toRpm',
    'dynoRepeatabilityPct',
    'dynoPulls',
    'seed',
  ];
  const rows = changes.map((change): Cell[] => [
    combination,
    change.name,
    change.notModelled === null ? change.bandGainPct : '',
    change.notModelled === null ? change.bandGainKw : '',
    change.sigmaPct ?? '',
    change.notModelled ?? '',
    change.gainKwPerHour ?? '',
    change.gainKwPerCost ?? '',
    change.chanceOfGain ?? '',
    change.chanceResolvable ?? '',
    change.pullsNeeded ?? '',
    change.peakPowerGainPct,
    change.peakTorqueGainPct,
    change.worstLossPct,
    change.worstLossRpm ?? '',
    change.tieGroup,
    change.mattersMost?.path ?? '',
    change.cost ?? '',
    change.hours ?? '',
    change.reversible,
    breachCell(change.breaches),
    warningsCell([...warnings, ...change.cautions]),
    band.fromRpm,
    band.toRpm,
    dyno.repeatabilityPct,
    dyno.pulls,
    seed,
  ]);
  return csv([header, ...rows]);
}
