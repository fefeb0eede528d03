/** A back-test for people: forecast gain against measured gain, and what the dyno can tell. */
import type { BacktestPoint, BacktestResult } from '@valvetide/core';
import { bandText } from './bandText.ts';
import { calibrationText } from './calibrationText.ts';
import { fixed } from './fixed.ts';
import { leftOutLines } from './marched.ts';
import { backtestChart } from './measuredChart.ts';
import { linesText, noteLines, wrapped } from './notes.ts';
import { answerText, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { heldBackLine } from './pullRate.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN } from './units.ts';

export function backtestText(result: BacktestResult, options: TextOptions): string {
  const { width, units } = options;
  return paragraphs([
    answerText(backtestAnswer(result), options) +
      [backtestVerdict(result), ...backtestHeldBack(result, units)]
        .map((line) => wrapped(line, width))
        .join(''),
    result.points.length === 0 ? '' : table(backtestPoints(units), result.points, width),
    backtestChart(result, options),
    wrapped('The calibration it rests on:', width) +
      calibrationText({ ...result.calibration, heldBack: null }, '', options),
    linesText([...noteLines(result.notes), ...leftOutLines(result.leftOut)], width),
  ]);
}

/** Why there is no forecast of the change. */
const NOT_FORECAST: Readonly<Record<BacktestResult['outcome'], string>> = {
  forecast: '',
  incomplete: '',
  'sheets disagree': ', since the sheet before and the file disagree',
  lost: ', since too many speeds have no figures',
};

export function backtestAnswer({ gain, changes, measured, outcome }: BacktestResult): string {
  const what = changes.map(plain).join(' and ');
  if (gain === null) return `${what}: not forecast${NOT_FORECAST[outcome]}`;
  return `${what}: forecast ${gainText(gain)}, measured ${signed(100 * gain.measured, 1)} % of mean power ${bandText(measured)}`;
}

/** A forecast gain with its spread: `+2.3 +/- 0.4 %`. */
export function gainText({ forecast, spread }: NonNullable<BacktestResult['gain']>): string {
  const value = signed(100 * forecast, 1);
  if (spread === null) return `${value} %`;
  const shown = fixed(100 * spread, 1);
  return `${value} +/- ${shown === '0.0' ? 'less than 0.1' : shown} %`;
}

/** Whether the error is more than the dyno's own doubt; empty where nothing was forecast. */
export function backtestVerdict({ gain, measured }: BacktestResult): string {
  if (gain === null) return '';
  const least = fixed(100 * measured.resolvable, 1);
  const off = `Off by ${fixed(100 * Math.abs(gain.error), 1)} points`;
  const pulls = `${measured.pulls.before} and ${measured.pulls.after} pulls show ${least} % or more`;
  // Less than the pulls can show has no sign that is known.
  const isSeen = Math.abs(gain.measured) >= measured.resolvable;
  const sign = isSeen && !gain.rightSign ? ' The sign is wrong.' : '';
  if (gain.verdict === 'within') return `${off}: as near as the dyno can show, since ${pulls}.${sign}`;
  if (gain.verdict === 'near')
    return `${off}: more than the pulls alone explain (${pulls}), but no more than they and what is not known of the change explain together.${sign}`;
  return `${off}: more than the pulls (${pulls}) and what is not known of the change explain together. Something about the change is missing from the file or from the model.${sign}`;
}

/** What the pulls of both sheets held back: once where it is the same, else of each. */
export function backtestHeldBack(
  { heldBack: { before, after } }: BacktestResult,
  units: TextOptions['units'],
): readonly string[] {
  const first = heldBackLine(before, units);
  const second = heldBackLine(after, units);
  if (first === second) return first === '' ? [] : [first];
  return [
    ['Before', first],
    ['After', second],
  ].map(([side, line]) =>
    line === ''
      ? `${side}: nothing is said of how fast the pulls went, or nothing was held back.`
      : `${side}: ${line.charAt(0).toLowerCase()}${line.slice(1)}`,
  );
}

/** Measured and forecast at each speed, before and after. */
export function backtestPoints(units: TextOptions['units']): readonly Column<BacktestPoint>[] {
  const { torque, torqueUnit } = SHOWN[units];
  return [
    { name: 'speed', unit: 'rpm', cell: ({ rpm }) => fixed(rpm) },
    { name: 'before', unit: torqueUnit, cell: ({ before }) => fixed(torque(before.measuredNm), 1) },
    { name: 'forecast', unit: torqueUnit, cell: ({ before }) => fixed(torque(before.forecastNm), 1) },
    { name: 'after', unit: torqueUnit, cell: ({ after }) => fixed(torque(after.measuredNm), 1) },
    { name: 'forecast', unit: torqueUnit, cell: ({ after }) => fixed(torque(after.forecastNm), 1) },
    { name: 'gain', unit: '%', cell: ({ measuredGain }) => signed(100 * measuredGain, 1) },
    { name: 'forecast', unit: '%', cell: ({ forecastGain }) => signed(100 * forecastGain, 1) },
    { name: '+/-', unit: '%', cell: ({ spread }) => (spread === null ? '' : fixed(100 * spread, 1)) },
    {
      name: 'off',
      unit: 'points',
      cell: ({ forecastGain, measuredGain }) => signed(100 * (forecastGain - measuredGain), 1),
    },
  ];
}
