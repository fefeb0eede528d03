/** The report of a study of restrictions: what is in the way, where, and what free means. */

import type { RestrictionsResult } from '@valvetide/core';
import { basisLine } from '../render/basisLine.ts';
import { leftOutLines } from '../render/marched.ts';
import {
  changedStates,
  meaningLines,
  restrictionsAnswer,
  restrictionsWarnings,
} from '../render/restrictionsText.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { fillingLosses, restrictionBars, restrictionLines } from './charts/restrictionCharts.ts';
import { type Charts, gridMarkup, leadsMarkup } from './figure.ts';
import { html, NOTHING, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** The charts of the page, by their ids. */
export const RESTRICTION_CHARTS = [
  'restrictions-by-speed',
  'restrictions',
  'beside-by-speed',
  'filling-losses',
] as const;

export function restrictionsCharts(study: RestrictionsResult): Charts<(typeof RESTRICTION_CHARTS)[number]> {
  return {
    'restrictions-by-speed': () => restrictionLines(study, 'in the way'),
    restrictions: () => restrictionBars(study),
    'beside-by-speed': () => restrictionLines(study, 'beside'),
    'filling-losses': () => fillingLosses(study),
  };
}

/** @param note - says where the speeds come from; empty where the user named them */
export async function restrictionsReport(
  study: RestrictionsResult,
  note: string,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const [now, ...changed] = study.states;
  const { 'restrictions-by-speed': lead, restrictions: bars, ...others } = restrictionsCharts(study);
  const lines = [
    basisLine(study, units),
    note,
    study.complete ? '' : 'Interrupted: what was not run is left out.',
  ].filter((line) => line !== '');
  return page({
    subject: now.name,
    about,
    answer: restrictionsAnswer(study),
    basis: lines.map(named),
    body: [
      noticeMarkup([...restrictionsWarnings(study), ...leftOutLines(study.leftOut)]),
      html`<h2>What is in the way</h2>\n`,
      ...(await leadsMarkup([bars(), lead()])),
      await gridMarkup(Object.values(others).map((draw) => draw())),
      changed.length === 0
        ? NOTHING
        : html`<section id="changes"><h2>After each change</h2>
${tableMarkup('After each change', changedStates(study, units), changed)}</section>
`,
      html`<section id="meanings"><h2>What free means</h2>
<ul class="plain">
${meaningLines(study).map((line) => html`<li>${line}</li>\n`)}</ul></section>
`,
      assumedMarkup(study.assumed, units),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(study.program),
  });
}
