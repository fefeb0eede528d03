/** The report of a sweep: which value is best, how flat the top is, and what it does over speed. */

import type { SweepResult } from '@valvetide/core';
import { basisLine } from '../render/basisLine.ts';
import { leftOutLines } from '../render/marched.ts';
import { sweepAnswer, sweepNotes, sweepWarnings } from '../render/sweepText.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { sweptCurves } from './charts/sweptCurves.ts';
import { sweptValues } from './charts/sweptValues.ts';
import { type Charts, leadsMarkup } from './figure.ts';
import { html, named } from './html.ts';
import { cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';

/** The charts of the page, by their ids. */
export const SWEEP_CHARTS = ['swept-values', 'swept-curves'] as const;

export function sweepCharts(sweep: SweepResult, units: UnitSystem): Charts<(typeof SWEEP_CHARTS)[number]> {
  return {
    'swept-values': () => sweptValues(sweep, units),
    'swept-curves': () => sweptCurves(sweep, units),
  };
}

/** @param note - says where the speeds come from; empty where the user named them */
export async function sweepReport(
  sweep: SweepResult,
  note: string,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const lines = [...sweepNotes(sweep), basisLine(sweep, units), note].filter((line) => line !== '');
  return page({
    subject: sweep.combination,
    about,
    answer: sweepAnswer(sweep, units),
    basis: lines.map(named),
    body: [
      noticeMarkup([...sweepWarnings(sweep), ...leftOutLines(sweep.leftOut)]),
      html`<h2>The values</h2>\n`,
      ...(await leadsMarkup(Object.values(sweepCharts(sweep, units)).map((draw) => draw()))),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(sweep.program),
  });
}
