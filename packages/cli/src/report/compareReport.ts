/** The report of a comparison: combinations side by side, each against the first. */

import type { ComparisonEntry, ComparisonResult, Curve } from '@valvetide/core';
import { bandText } from '../render/bandText.ts';
import { basisLine } from '../render/basisLine.ts';
import { comparisonAnswer, comparisonSummary, comparisonWarnings } from '../render/comparisonText.ts';
import { leftOutLines, marched } from '../render/marched.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { MOST_PANELS, MOST_TOGETHER } from './charts/bySpeed.ts';
import { depression } from './charts/depression.ts';
import { differenceBySpeed } from './charts/differenceBySpeed.ts';
import { filling } from './charts/filling.ts';
import { octaneToSpare } from './charts/octaneToSpare.ts';
import { sideBySide } from './charts/sideBySide.ts';
import { type Charts, type Figure, gridMarkup, leadsMarkup } from './figure.ts';
import { html, NOTHING, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** What a comparison itself does not know. */
export interface CompareExtras {
  /** Says where the speeds come from; empty where the user named them. */
  readonly note: string;
  /** How sure the best gain is; empty or absent where that was not worked out. */
  readonly bestGain?: string;
  /** Smallest difference a dyno tells [%]. */
  readonly resolvablePct: number;
  /** Of each combination's fuel, (R + M) / 2, in their order. */
  readonly fuelOctane: readonly number[];
}

/** The charts of the page, by their ids. */
export const COMPARE_CHARTS = [
  'torque',
  'power',
  'difference',
  'filling',
  'depression',
  'octane-margin',
] as const;

export function compareCharts(
  comparison: ComparisonResult,
  { resolvablePct, fuelOctane }: CompareExtras,
  units: UnitSystem,
): Charts<(typeof COMPARE_CHARTS)[number]> {
  const { band, reference } = comparison;
  const [first, ...others] = leadingOf(comparison, MOST_PANELS);
  const few = leadingOf(comparison, MOST_TOGETHER).map((entry) => ({
    ...entry,
    fuelOctane: fuelOctane[entry.place],
  }));
  const differing = others.flatMap(({ name, gain }) =>
    gain === null ? [] : [{ name, byRpm: gain.byRpm, sigmaNm: null }],
  );
  const some = (draw: () => Figure | null): (() => Figure | null) =>
    first === undefined ? () => null : draw;
  return {
    torque: some(() => sideBySide([first, ...others], 'torque', band, units)),
    power: some(() => sideBySide(few, 'power', band, units)),
    difference: () =>
      differing.length === 0
        ? null
        : differenceBySpeed(
            differing,
            {
              reference,
              referenceTorqueNm: marched(first.curve.points).map(({ torqueNm }) => torqueNm),
              resolvablePct,
              firstColour: 1,
              remark:
                'What is not known of each difference is not worked out here: valvetide rank draws it as a ribbon.',
            },
            units,
          ),
    filling: some(() => filling(few)),
    depression: some(() => depression(few, units)),
    'octane-margin': some(() => octaneToSpare(few)),
  };
}

/** Entries with a curve, each with its place among all. */
function doneOf({ entries }: ComparisonResult): (ComparisonEntry & { curve: Curve; place: number })[] {
  return entries.flatMap((entry, place) =>
    entry.curve === null || entry.curve.peak === null ? [] : [{ ...entry, curve: entry.curve, place }],
  );
}

/** The reference, and of the others those that gain most, in their order. */
function leadingOf(comparison: ComparisonResult, most: number): ReturnType<typeof doneOf> {
  const [reference, ...others] = doneOf(comparison);
  if (others.length <= most) return reference === undefined ? [] : [reference, ...others];
  const gain = ({ gain: of }: ComparisonEntry): number => of?.band.powerPct ?? Number.NEGATIVE_INFINITY;
  const least = others.map(gain).sort((a, b) => b - a)[most - 1];
  return [reference, ...others.filter((entry) => gain(entry) >= least).slice(0, most)];
}

/** Which of many are drawn; empty where all are. */
function leftOutOfDrawings(others: number): string {
  if (others <= MOST_TOGETHER) return '';
  const torque = others > MOST_PANELS ? `the ${MOST_PANELS} changes that gain most` : 'every change';
  return `Drawings of torque show ${torque}, the other drawings the ${MOST_TOGETHER} that gain most; the table has all.`;
}

export async function compareReport(
  comparison: ComparisonResult,
  extras: CompareExtras,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const done = doneOf(comparison);
  const { torque, difference, ...others } = compareCharts(comparison, extras, units);
  const { note, bestGain = '' } = extras;
  const { columns, rows } = comparisonSummary(comparison, units);
  const lines = [
    basisLine(comparison, units),
    bestGain,
    note,
    ...comparison.remarks,
    leftOutOfDrawings(done.length - 1),
    ...(comparison.complete
      ? []
      : [`Interrupted: ${done.length} of ${comparison.entries.length} were forecast.`]),
  ].filter((line) => line !== '');
  return page({
    subject: subjectOf(comparison.entries.map(({ name }) => name)),
    about,
    answer: comparisonAnswer(comparison, units),
    basis: lines.map(named),
    body: [
      noticeMarkup([...comparisonWarnings(comparison), ...leftOutLines(comparison.leftOut)]),
      html`<section id="summary"><h2>Side by side, ${bandText(comparison)}</h2>
${tableMarkup('Side by side', columns, rows)}</section>
<h2>The curves</h2>
`,
      ...(await leadsMarkup([difference(), torque()])),
      await gridMarkup(Object.values(others).map((draw) => draw())),
      done.length === 0 ? NOTHING : assumedMarkup(done[0].curve.assumed, units),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(comparison.program),
  });
}

function subjectOf([first, ...others]: readonly string[]): string {
  if (others.length > 3) return `${first} and ${others.length} others`;
  return [first, ...others].join(', ');
}
