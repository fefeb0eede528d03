/** The report of dyno sheets: what was measured, how well it repeats, and what a part did. */
import type { DynoSheet } from '@valvetide/core';
import { plain } from '../render/plain.ts';
import { ratesApartLine, ratesWithinLine } from '../render/pullRate.ts';
import {
  comparisonBasis,
  differenceColumns,
  type PullsResult,
  pullFigures,
  pullsAnswers,
  repeats,
  summaryBasis,
} from '../render/pullsText.ts';
import type { UnitSystem } from '../render/units.ts';
import { pullCurves, pullDifference, pullScatter } from './charts/pullCharts.ts';
import { type Charts, gridMarkup, leadsMarkup } from './figure.ts';
import { html, named } from './html.ts';
import { noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** The charts of the page, by their ids. */
export const PULLS_CHARTS = ['torque', 'difference', 'power', 'scatter'] as const;

export function pullsCharts(
  sheets: readonly DynoSheet[],
  result: PullsResult,
  units: UnitSystem,
): Charts<(typeof PULLS_CHARTS)[number]> {
  return {
    torque: () => pullCurves(sheets, result.sheets, 'torque', units),
    difference: () => pullDifference(result, units),
    power: () => pullCurves(sheets, result.sheets, 'power', units),
    scatter: () => pullScatter(result.sheets),
  };
}

/** @param sheets - those summarised in `result`, in their order */
export async function pullsReport(
  sheets: readonly DynoSheet[],
  result: PullsResult,
  units: UnitSystem,
): Promise<string> {
  const [answer, ...more] = pullsAnswers(result, units);
  const { torque, difference, power, scatter } = pullsCharts(sheets, result, units);
  return page({
    subject: result.sheets.map(({ sheet, title }) => title ?? sheet).join('; '),
    answer,
    basis: [...more, ...result.sheets.map((sheet) => summaryBasis(sheet, units))].map(named),
    body: [
      noticeMarkup(
        result.sheets.flatMap(({ sheet, notes }) => notes.map((note) => plain(`${sheet}: ${note}`))),
      ),
      html`<h2>What was measured</h2>\n`,
      ...(await leadsMarkup([difference(), torque()])),
      await gridMarkup([power(), scatter()]),
      ...result.sheets.map((sheet) => {
        const { columns, rows } = pullFigures(sheet, units);
        return html`<section><h2>Pulls of ${named(sheet.sheet)}</h2>
${tableMarkup(`Pulls of ${sheet.sheet}`, columns, rows)}
<p class="basis">${[repeats(sheet), ratesWithinLine(sheet, units)].filter((line) => line !== '').join(' ')}</p></section>
`;
      }),
      ...result.comparisons.map(
        (comparison) => html`<section><h2>${named(comparison.after)} by speed</h2>
${tableMarkup(`${comparison.after} by speed`, differenceColumns(units), comparison.points)}
<p class="basis">${named([comparisonBasis(comparison), ratesApartLine(comparison, units)].filter((line) => line !== '').join(' '))}</p></section>
`,
      ),
    ],
    foot: [
      html`<p>${result.program.name} ${result.program.version}. Measured figures, none of them forecast.</p>`,
    ],
  });
}
