/** The report of a study of restrictions: what is in the way, where, and what free means. */
import type { Restrictions } from '@valvetide/core';
import { basisLine } from '../render/basisLine.ts';
import {
  changedStates,
  elementName,
  restrictionsAnswer,
  restrictionsWarnings,
} from '../render/restrictionsText.ts';
import type { UnitSystem } from '../render/units.ts';
import { fillingLosses, restrictionBars, restrictionLines } from './charts/restrictionCharts.ts';
import { figureMarkup, leadMarkup } from './figure.ts';
import { html, NOTHING, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** @param note - says where the speeds come from; empty where the user named them */
export async function restrictionsReport(
  study: Restrictions,
  note: string,
  units: UnitSystem,
): Promise<string> {
  const [now, ...changed] = study.states;
  const lead = restrictionLines(study, 'in the way');
  const figures = [restrictionBars(study), restrictionLines(study, 'beside'), fillingLosses(study)];
  const lines = [
    basisLine(study, units),
    note,
    study.complete ? '' : 'Interrupted: what was not run is left out.',
  ].filter((line) => line !== '');
  const drawn = figures.flatMap((figure) => (figure === null ? [] : [figure]));
  return page({
    subject: now.name,
    answer: restrictionsAnswer(study),
    basis: lines.map(named),
    body: [
      noticeMarkup(restrictionsWarnings(study)),
      html`<h2>What is in the way</h2>\n`,
      lead === null ? NOTHING : await leadMarkup(lead),
      html`<div class="charts">\n${await Promise.all(drawn.map(figureMarkup))}</div>\n`,
      changed.length === 0
        ? NOTHING
        : html`<section id="changes"><h2>After each change</h2>
${tableMarkup('After each change', changedStates(study, units), changed)}</section>
`,
      html`<section id="meanings"><h2>What free means</h2>
<ul class="plain">
${study.meanings.map(({ element, meaning }) => html`<li>${elementName(element, now)}: ${meaning}</li>\n`)}</ul></section>
`,
      assumedMarkup(study.assumed),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(study.program),
  });
}
