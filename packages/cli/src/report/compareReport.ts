/** The report of a comparison: combinations side by side, each against the first. */
import type { Comparison } from '@valvetide/core';
import { bandText, basisLine } from '../render/basisLine.ts';
import { comparisonAnswer, comparisonSummary, comparisonWarnings } from '../render/comparisonText.ts';
import type { UnitSystem } from '../render/units.ts';
import { depression } from './charts/depression.ts';
import { differenceBySpeed } from './charts/differenceBySpeed.ts';
import { filling } from './charts/filling.ts';
import { sideBySide } from './charts/sideBySide.ts';
import { type Figure, figureMarkup, leadMarkup } from './figure.ts';
import { html, NOTHING, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** What a comparison itself does not know. */
export interface CompareExtras {
  /** Says where the speeds come from; empty where the user named them. */
  readonly note: string;
  /** Smallest difference a dyno tells [%]. */
  readonly resolvablePct: number;
}

/** Curves that can still be told apart in one drawing. */
const MOST = 6;

export async function compareReport(
  comparison: Comparison,
  { note, resolvablePct }: CompareExtras,
  units: UnitSystem,
): Promise<string> {
  const done = comparison.entries.flatMap((entry) =>
    entry.curve === null ? [] : [{ ...entry, curve: entry.curve }],
  );
  const shown = done.slice(0, MOST);
  const [first, ...others] = shown;
  const differing = others.flatMap(({ name, gain }) =>
    gain === null ? [] : [{ name, byRpm: gain.byRpm, sigmaNm: null }],
  );
  const figures: Figure[] =
    first === undefined
      ? []
      : [
          sideBySide(shown, 'power', comparison.band, units),
          ...(differing.length === 0
            ? []
            : [
                differenceBySpeed(
                  differing,
                  {
                    reference: comparison.reference,
                    referenceTorqueNm: first.curve.points.map((p) => p.torqueNm),
                    resolvablePct,
                    firstColour: 1,
                  },
                  units,
                ),
              ]),
          filling(shown),
          depression(shown, units),
        ];
  const { columns, rows } = comparisonSummary(comparison, units);
  const lines = [
    basisLine(comparison, units),
    note,
    ...comparison.remarks,
    ...(done.length > MOST
      ? [`The drawings show the first ${MOST} of ${done.length}; the tables show all.`]
      : []),
    ...(comparison.complete
      ? []
      : [`Interrupted: ${done.length} of ${comparison.entries.length} were forecast.`]),
  ].filter((line) => line !== '');
  return page({
    subject: subjectOf(comparison.entries.map(({ name }) => name)),
    answer: comparisonAnswer(comparison, units),
    basis: lines.map(named),
    body: [
      noticeMarkup(comparisonWarnings(comparison)),
      html`<section id="summary"><h2>Side by side, ${bandText(comparison)}</h2>
${tableMarkup('Side by side', columns, rows)}</section>
<h2>The curves</h2>
`,
      first === undefined ? NOTHING : await leadMarkup(sideBySide(shown, 'torque', comparison.band, units)),
      html`<div class="charts">\n${await Promise.all(figures.map(figureMarkup))}</div>\n`,
      first === undefined ? NOTHING : assumedMarkup(first.curve.assumed),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(comparison.program),
  });
}

function subjectOf([first, ...others]: readonly string[]): string {
  if (others.length > 3) return `${first} and ${others.length} others`;
  return [first, ...others].join(', ');
}
