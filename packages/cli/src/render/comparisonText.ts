/** A comparison for people: the answer first, then each combination, the differences by speed and what they rest on. */

import type {
  ComparisonEntry,
  ComparisonResult,
  Curve,
  CurvePeak,
  MarchedPoint,
  OperatingPoint,
} from '@valvetide/core';
import { bandText } from './bandText.ts';
import { basisLine } from './basisLine.ts';
import { breachLegend, breachWarnings, isNoBreach, markedName } from './breaches.ts';
import { fixed } from './fixed.ts';
import { linesChart } from './linesChart.ts';
import { figureCell, leftOutLines, markedSpeed, marksText, worstOf } from './marched.ts';
import { linesText, noteLines, warningLines, wrapped } from './notes.ts';
import { answerText, madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { peakFigure } from './shortFigure.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN, type UnitSystem } from './units.ts';

const LETTERS = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789';

/** `notes` say where the speeds come from and how sure the best gain is; empty ones are left out. */
export function comparisonText(
  comparison: ComparisonResult,
  notes: readonly string[],
  options: TextOptions,
): string {
  const { width, units, paint, detail } = options;
  const answer = answerText(comparisonAnswer(comparison, units), options);
  if (detail === 'quiet') return answer;
  return paragraphs([
    answer +
      [basisLine(comparison, units), ...notes, unfinished(comparison)]
        .map((line) => wrapped(line, width))
        .join(''),
    table(shownColumns(comparison, options), lettered(comparison), width) +
      wrapped(breachLegend(comparison.entries), width),
    chart(comparison, options),
    bySpeed(comparison, options),
    linesText([...noteLines(comparison.remarks), ...leftOutLines(comparison.leftOut)], width),
    paint.caution(linesText(comparisonWarnings(comparison), width)),
    madeBy(comparison.program),
  ]);
}

/** What the first is warned of, and what each other raises beyond that. */
export function comparisonWarnings({ entries }: ComparisonResult): readonly string[] {
  const [reference, ...others] = entries;
  return [
    ...warningLines((reference.curve?.warnings ?? []).filter(isNoBreach)),
    ...breachWarnings(reference.name, reference),
    ...others.flatMap((entry) => [
      ...breachWarnings(entry.name, entry),
      ...entry.cautions.map((caution) => plain(`warning: ${entry.name}: ${caution}`)),
    ]),
  ];
}

/** The best of them and by how much. */
export function comparisonAnswer(comparison: ComparisonResult, units: UnitSystem): string {
  const { reference, best, highest, entries } = comparison;
  const { power, powerUnit } = SHOWN[units];
  const top = entries.find(({ name }) => name === highest);
  if (top === undefined)
    return entries.some(({ curve }) => curve !== null)
      ? 'No mean over the band: every combination has a speed without figures'
      : 'Interrupted before the first forecast was done';
  const gainOf = ({ gain, name }: ComparisonEntry): string =>
    gain === null || name === reference
      ? ''
      : `, ${signed(power(gain.band.powerKw), 1)} ${powerUnit} (${signed(gain.band.powerPct, 1)} %)`;
  const limit = `breaks a limit: ${plain(top.breaches[0]?.message ?? '')}`;
  if (best === null)
    return `None is allowed ${bandText(comparison)}: the one that makes most, ${plain(top.name)}${gainOf(top)}, ${limit}`;
  return `${allowedAnswer(comparison, best, gainOf, units)}${best === highest ? '' : `. ${plain(top.name)} makes more${gainOf(top)}, but ${limit}`}`;
}

/** The best that breaks no limit. */
function allowedAnswer(
  comparison: ComparisonResult,
  best: string,
  gainOf: (entry: ComparisonEntry) => string,
  units: UnitSystem,
): string {
  const { reference, entries } = comparison;
  const { power, powerUnit } = SHOWN[units];
  const found = entries.find(({ name }) => name === best);
  if (found?.band === undefined || found.band === null) return '';
  if (found.name !== reference)
    return `Best ${bandText(comparison)}: ${plain(found.name)}${gainOf(found)} mean power against ${plain(reference)}`;
  const others = entries.filter(
    ({ name, gain, breaches }) => name !== reference && gain !== null && breaches.length === 0,
  );
  if (others.length === 0)
    return `${plain(reference)}: ${fixed(power(found.band.powerKw), 1)} ${powerUnit} mean power ${bandText(comparison)}, nothing to compare with`;
  const next = others.reduce((a, b) => ((b.gain?.band.powerKw ?? 0) > (a.gain?.band.powerKw ?? 0) ? b : a));
  const allowed = entries.some(({ breaches }) => breaches.length > 0) ? ' that is allowed' : '';
  return `None${allowed} makes more than ${plain(reference)} ${bandText(comparison)}: nearest ${plain(next.name)}${gainOf(next)} mean power`;
}

interface Lettered extends ComparisonEntry {
  readonly letter: string;
}

/** The reference has no letter: it is the level the others are drawn against. */
function lettered({ entries }: ComparisonResult): readonly Lettered[] {
  return entries.map((entry, i) => ({ ...entry, letter: i === 0 ? '-' : (LETTERS[i - 1] ?? '?') }));
}

/** The table of the combinations: what each makes, and what it gains. */
export function comparisonSummary(
  comparison: ComparisonResult,
  units: UnitSystem,
): { readonly columns: readonly Column<Lettered>[]; readonly rows: readonly Lettered[] } {
  const [name, ...figures] = summaryColumns(comparison, units).filter(isDecidedBy);
  // Letters stand for lines of a drawing made of letters.
  const own = { ...name, cell: (entry: Lettered) => markedName(plain(entry.name), entry) };
  return { columns: [own, ...figures], rows: lettered(comparison) };
}

/** The mean says the same as the area, and nobody decides by the latter. */
const isDecidedBy = ({ name }: Column<Lettered>): boolean => name !== 'area';

function shownColumns(
  comparison: ComparisonResult,
  { units, detail }: TextOptions,
): readonly Column<Lettered>[] {
  const all = summaryColumns(comparison, units);
  return detail === 'verbose' ? all : all.filter(isDecidedBy);
}

function summaryColumns({ reference }: ComparisonResult, units: UnitSystem): readonly Column<Lettered>[] {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const own = (value: (entry: Lettered) => string | undefined) => (entry: Lettered) => value(entry) ?? '';
  const against = (value: (gain: NonNullable<ComparisonEntry['gain']>) => string) => (entry: Lettered) =>
    entry.gain === null || entry.name === reference ? '' : value(entry.gain);
  return [
    {
      name: '',
      unit: '',
      cell: (entry) => `${entry.letter} ${markedName(plain(entry.name), entry)}`,
      align: 'left',
    },
    {
      name: 'mean',
      unit: powerUnit,
      cell: own(({ band, curve }) =>
        band === null ? (curve === null ? 'not run' : 'speed lost') : fixed(power(band.powerKw), 1),
      ),
    },
    { name: 'gain', unit: powerUnit, cell: against(({ band }) => signed(power(band.powerKw), 1)) },
    { name: 'gain', unit: '%', cell: against(({ band }) => signed(band.powerPct, 1)) },
    {
      name: 'mean',
      unit: torqueUnit,
      cell: own(({ band }) => (band === null ? undefined : fixed(torque(band.torqueNm), 1))),
    },
    {
      name: 'peak',
      unit: torqueUnit,
      cell: own(({ curve }) => peakOf(curve, ({ torque: top }) => peakFigure(torque(top.torqueNm)))),
    },
    { name: 'at', unit: 'rpm', cell: own(({ curve }) => peakOf(curve, (peak) => fixed(peak.torque.rpm))) },
    {
      name: 'peak',
      unit: powerUnit,
      cell: own(({ curve }) => peakOf(curve, ({ power: top }) => peakFigure(power(top.powerKw)))),
    },
    { name: 'at', unit: 'rpm', cell: own(({ curve }) => peakOf(curve, (peak) => fixed(peak.power.rpm))) },
    {
      name: 'worst loss',
      unit: '%',
      cell: against(({ worstLoss }) => (worstLoss === null ? 'none' : fixed(worstLoss.torquePct, 1))),
    },
    { name: 'at', unit: 'rpm', cell: against(({ worstLoss }) => worstLoss?.rpm.toFixed(0) ?? '') },
    {
      name: 'area',
      unit: `${torqueUnit} rpm`,
      cell: own(({ area }) => (area === null ? undefined : fixed(torque(area.torqueNmRpm)))),
    },
  ];
}

/** A figure of the peak; undefined without one. */
function peakOf(curve: Curve | null, shown: (peak: CurvePeak) => string): string | undefined {
  const peak = curve?.peak ?? null;
  return peak === null ? undefined : shown(peak);
}

/** Lines that can still be told apart in letters. */
const MOST_LINES = 3;

/** The three that gain most: more letters over each other are no chart. */
function chart(comparison: ComparisonResult, { width, units }: TextOptions): string {
  const { torque, torqueUnit } = SHOWN[units];
  const drawable = lettered(comparison)
    .slice(1)
    .filter(({ gain }) => gain !== null);
  const gainOf = ({ gain }: Lettered): number => gain?.band.powerKw ?? Number.NEGATIVE_INFINITY;
  const shown = [...drawable].sort((a, b) => gainOf(b) - gainOf(a)).slice(0, MOST_LINES);
  const lines = shown.map(({ letter, gain }) => ({
    letter,
    points: (gain?.byRpm ?? []).map(({ rpm, torqueNm }) => ({ x: rpm, y: torque(torqueNm) })),
  }));
  const drawn = linesChart(lines, { width, unit: 'rpm', zero: true });
  const which = drawable.length > MOST_LINES ? ` of the ${MOST_LINES} that gain most` : '';
  const heading = `Torque against ${plain(comparison.reference)}${which}, ${torqueUnit}; letters as above, # where they meet`;
  return drawn === '' ? '' : wrapped(heading, width) + drawn;
}

interface Row {
  readonly index: number;
  readonly rpm: number;
}

/** Torque and power of the reference, and what each other has more; with every figure side by side if asked for. */
function bySpeed(comparison: ComparisonResult, { width, units, detail }: TextOptions): string {
  const [reference, ...others] = lettered(comparison);
  if (reference.curve === null) return '';
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const { points } = reference.curve;
  const columns: Column<Row>[] = [
    {
      name: 'speed',
      unit: 'rpm',
      cell: ({ rpm, index }) => markedSpeed({ rpm, status: statusAt(comparison, index) }),
    },
    { name: 'torque', unit: torqueUnit, cell: at(points, (p) => fixed(torque(p.torqueNm), 1)) },
    { name: 'power', unit: powerUnit, cell: at(points, (p) => fixed(power(p.powerKw), 1)) },
  ];
  for (const { letter, gain, curve } of others) {
    if (gain === null || curve === null) continue;
    columns.push({
      name: letter,
      unit: torqueUnit,
      cell: ({ index }) => signed(torque(gain.byRpm[index].torqueNm), 1),
    });
    if (detail !== 'verbose') continue;
    columns.push(
      { name: letter, unit: '%', cell: ({ index }) => signed(gain.byRpm[index].torquePct, 1) },
      {
        name: `${letter} torque`,
        unit: torqueUnit,
        cell: at(curve.points, (p) => fixed(torque(p.torqueNm), 1)),
      },
      {
        name: `${letter} power`,
        unit: powerUnit,
        cell: at(curve.points, (p) => fixed(power(p.powerKw), 1)),
      },
    );
  }
  const rows = points.map(({ rpm }, index) => ({ rpm, index }));
  const marks = marksText(rows.map(({ index }) => ({ status: statusAt(comparison, index) })));
  const heading = `By speed: ${plain(comparison.reference)}, and how much more torque each of the others has\n`;
  return heading + table(columns, rows, width) + marks;
}

/** A cell for the point at the row's place. */
function at(points: readonly OperatingPoint[], shown: (point: MarchedPoint) => string): (row: Row) => string {
  return ({ index }) => figureCell(shown)(points[index]);
}

/** The worst that became of a speed in any of the curves. */
function statusAt({ entries }: ComparisonResult, index: number): OperatingPoint['status'] {
  return worstOf(entries.flatMap(({ curve }) => (curve === null ? [] : [curve.points[index].status])));
}

function unfinished({ complete, entries }: ComparisonResult): string {
  const done = entries.filter(({ curve }) => curve !== null).length;
  return complete ? '' : `Interrupted: ${done} of ${entries.length} were forecast.`;
}
