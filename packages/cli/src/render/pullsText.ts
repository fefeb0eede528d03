/** Dyno sheets for people: what was measured, how well it repeats, and what a part did. */
import type { DifferencePoint, MeanPoint, PullComparison, PullFigures, PullSummary } from '@valvetide/core';
import { bandText } from './bandText.ts';
import { referenceAir, standardName } from './correction.ts';
import { fixed } from './fixed.ts';
import { linesText, noteLines, wrapped } from './notes.ts';
import { answerText, madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { rateOfAll, ratesApartLine, ratesWithinLine } from './pullRate.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** What the command gives back. */
export interface PullsResult {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** One a sheet. */
  readonly sheets: readonly PullSummary[];
  /** Each further sheet against the first. */
  readonly comparisons: readonly PullComparison[];
}

export function pullsText(
  result: Pick<PullsResult, 'sheets' | 'comparisons' | 'program'>,
  options: TextOptions,
): string {
  const { units, detail } = options;
  const { sheets, comparisons } = result;
  const answer = pullsAnswers(result, units)
    .map((line) => answerText(line, options))
    .join('');
  if (detail === 'quiet') return answer;
  return paragraphs([
    answer,
    ...sheets.map((sheet) => summary(sheet, options, sheets.length === 1)),
    ...comparisons.map((comparison) => differences(comparison, options)),
    madeBy(result.program),
  ]);
}

/** What each further sheet gained on the first, or what one sheet comes to. */
export function pullsAnswers(
  { sheets, comparisons }: Pick<PullsResult, 'sheets' | 'comparisons'>,
  units: UnitSystem,
): readonly string[] {
  return comparisons.length > 0
    ? comparisons.map((comparison) => comparisonAnswer(comparison, units))
    : sheets.map((sheet) => summaryAnswer(sheet, units));
}

function summaryAnswer({ mean, pulls, standard }: PullSummary, units: UnitSystem): string {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const of = pulls.length === 1 ? 'One pull' : `Mean of ${pulls.length} pulls`;
  return `${of}: ${fixed(torque(mean.peakTorque.torqueNm), 1)} ${torqueUnit} at ${fixed(mean.peakTorque.rpm)} rpm, ${fixed(power(mean.peakPower.powerKw), 1)} ${powerUnit} at ${fixed(mean.peakPower.rpm)} rpm (${referenceAir(standard, units)})`;
}

function comparisonAnswer(comparison: PullComparison, units: UnitSystem): string {
  const { before, after, powerKw, resolvable, resolved, band } = comparison;
  const { power, powerUnit } = SHOWN[units];
  const gain = `${signed(power(powerKw.after - powerKw.before), 1)} ${powerUnit} (${signed(100 * powerKw.gain, 2)} %)`;
  const verdict = resolved
    ? `a difference: these pulls show ${fixed(100 * resolvable, 2)} % or more`
    : `too small for these pulls: they show ${fixed(100 * resolvable, 2)} % or more`;
  return `${plain(after)} against ${plain(before)}: ${gain} mean power ${fixed(band.fromRpm)} to ${fixed(band.toRpm)} rpm; ${verdict}`;
}

interface Row extends PullFigures {
  readonly label: string;
}

function summary(sheet: PullSummary, { width, units }: TextOptions, alone: boolean): string {
  const { columns, rows } = pullFigures(sheet, units);
  return [
    wrapped(summaryBasis(sheet, units), width),
    table(columns, rows, width),
    wrapped(repeats(sheet, alone), width),
    wrapped(ratesWithinLine(sheet, units), width),
    linesText(noteLines(sheet.notes), width),
    alone ? `\n${table(meanColumns(units), sheet.points, width)}` : '',
  ].join('');
}

/** The pulls of a sheet and their mean, a row each. */
export function pullFigures(
  sheet: PullSummary,
  units: UnitSystem,
): { readonly columns: readonly Column<Row>[]; readonly rows: readonly Row[] } {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const rows: Row[] = sheet.pulls.map((pull) => ({ ...pull, label: plain(pull.name) }));
  if (sheet.pulls.length > 1) rows.push({ ...sheet.mean, label: 'mean' });
  const columns: Column<Row>[] = [
    { name: 'pull', unit: '', cell: ({ label }) => label, align: 'left' },
    { name: 'peak', unit: torqueUnit, cell: ({ peakTorque }) => fixed(torque(peakTorque.torqueNm), 1) },
    { name: 'at', unit: 'rpm', cell: ({ peakTorque }) => fixed(peakTorque.rpm) },
    { name: 'peak', unit: powerUnit, cell: ({ peakPower }) => fixed(power(peakPower.powerKw), 1) },
    { name: 'at', unit: 'rpm', cell: ({ peakPower }) => fixed(peakPower.rpm) },
    { name: 'mean', unit: torqueUnit, cell: ({ band }) => fixed(torque(band.torqueNm), 1) },
    { name: 'mean', unit: powerUnit, cell: ({ band }) => fixed(power(band.powerKw), 1) },
  ];
  return { columns, rows };
}

/** What a sheet's figures refer to, and what its means count. */
export function summaryBasis(sheet: PullSummary, units: UnitSystem): string {
  const basis =
    sheet.standard === 'none'
      ? 'as observed, no correction'
      : `corrected to ${standardName(sheet.standard)}, ${referenceAir(sheet.standard, units)}`;
  const title = sheet.title === null ? '' : ` (${plain(sheet.title)})`;
  const weighting =
    sheet.weighting === 'time'
      ? 'weighted by the time an acceleration spends at each speed'
      : 'every speed alike';
  return `${plain(sheet.sheet)}${title}: ${basis}; means ${bandText(sheet)}, ${weighting}${rateOfAll(sheet)}.`;
}

/** How well the pulls of a sheet repeat; `alone`: no other file stands beside it. */
export function repeats({ repeatability, pulls, smoothedOver }: PullSummary, alone = true): string {
  const smoothed =
    smoothedOver > 0
      ? ` Speeds differ from pull to pull: each was read at common ones, smoothed over ${fixed(smoothedOver)} rpm.`
      : '';
  if (repeatability === null)
    return `One pull says nothing of repeatability; two or three more would${alone ? '' : ', and files of one state go together with --together'}.${smoothed}`;
  const { deviation } = repeatability;
  const least = 2 * deviation * Math.sqrt(2 / pulls.length);
  return `One pull scatters by ${fixed(100 * deviation, 2)} % (one standard deviation, over ${repeatability.speeds} speeds); ${pulls.length} such pulls a side show ${fixed(100 * least, 2)} % or more.${smoothed}`;
}

/** The mean curve of a sheet. */
export function meanColumns(units: UnitSystem): readonly Column<MeanPoint>[] {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  return [
    { name: 'speed', unit: 'rpm', cell: ({ rpm }) => fixed(rpm) },
    { name: 'torque', unit: torqueUnit, cell: ({ torqueNm }) => fixed(torque(torqueNm), 1) },
    { name: 'power', unit: powerUnit, cell: ({ powerKw }) => fixed(power(powerKw), 1) },
    { name: 'pulls', unit: '', cell: ({ pulls }) => String(pulls) },
    {
      name: 'scatter',
      unit: '%',
      cell: ({ deviation }) => (deviation === null ? '' : fixed(100 * deviation, 2)),
    },
  ];
}

function differences(comparison: PullComparison, { width, units }: TextOptions): string {
  return (
    wrapped(comparisonBasis(comparison), width) +
    wrapped(ratesApartLine(comparison, units), width) +
    table(differenceColumns(units), comparison.points, width)
  );
}

/** Two sheets by speed. */
export function differenceColumns(units: UnitSystem): readonly Column<DifferencePoint>[] {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  return [
    { name: 'speed', unit: 'rpm', cell: ({ rpm }) => fixed(rpm) },
    { name: 'before', unit: torqueUnit, cell: ({ beforeNm }) => fixed(torque(beforeNm), 1) },
    { name: 'after', unit: torqueUnit, cell: ({ afterNm }) => fixed(torque(afterNm), 1) },
    {
      name: 'gain',
      unit: torqueUnit,
      cell: ({ beforeNm, afterNm }) => signed(torque(afterNm - beforeNm), 1),
    },
    {
      name: 'gain',
      unit: powerUnit,
      cell: ({ rpm, beforeNm, afterNm }) => signed(power(((afterNm - beforeNm) * rpm * Math.PI) / 30_000), 1),
    },
    { name: 'gain', unit: '%', cell: ({ gain }) => signed(100 * gain, 2) },
  ];
}

/** Which pulls are compared, and how well they repeat. */
export function comparisonBasis({
  before,
  after,
  pulls,
  repeatability,
  repeatabilityAssumed,
  torqueNm,
}: PullComparison): string {
  const source = repeatabilityAssumed
    ? `neither sheet repeats a pull, so the usual ${fixed(100 * repeatability, 1)} % of an engine dyno stands in`
    : `one pull scatters by ${fixed(100 * repeatability, 2)} %, both sheets together`;
  return `${plain(after)} (${pulls.after}) against ${plain(before)} (${pulls.before}): ${signed(100 * torqueNm.gain, 2)} % mean torque; ${source}. Pulls of two days or two cells differ by another 1 to 4 %.`;
}
