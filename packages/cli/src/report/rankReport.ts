/** The report of a ranking: what to test first, what not to test, and in which order. */
import type { Ranking } from '@valvetide/core';
import { orderLines, rankingAnswer, rankingBasis, rankingWarnings, setLines } from '../render/rankingText.ts';
import { signed } from '../render/signed.ts';
import type { UnitSystem } from '../render/units.ts';
import { pairMatrix } from './charts/pairMatrix.ts';
import { rankedChanges } from './charts/rankedChanges.ts';
import { type Charts, leadsMarkup } from './figure.ts';
import { html, type Markup, NOTHING, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';

/** The charts of the page, by their ids. */
export const RANK_CHARTS = ['ranking', 'pairs'] as const;

export function rankCharts(ranking: Ranking, units: UnitSystem): Charts<(typeof RANK_CHARTS)[number]> {
  return {
    ranking: () => (ranking.changes.length === 0 ? null : rankedChanges(ranking, units)),
    pairs: () => pairMatrix(ranking),
  };
}

/** @param note - says where the speeds come from; empty where the user named them */
export async function rankReport(ranking: Ranking, note: string, units: UnitSystem): Promise<string> {
  const lines = [...rankingBasis(ranking, units), note].filter((line) => line !== '');
  return page({
    subject: ranking.combination,
    answer: rankingAnswer(ranking, units),
    basis: lines.map(named),
    body: [
      noticeMarkup(rankingWarnings(ranking)),
      html`<h2>The changes</h2>\n`,
      ...(await leadsMarkup(Object.values(rankCharts(ranking, units)).map((draw) => draw()))),
      listMarkup('sets', 'Together', setLines(ranking, units)),
      listMarkup('order', 'Order of tests', orderLines(ranking.order)),
      mattersMarkup(ranking),
      assumedMarkup(ranking.assumed),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(ranking.program),
  });
}

function listMarkup(id: string, title: string, lines: readonly string[]): Markup {
  if (lines.length === 0) return NOTHING;
  return html`<section id="${id}"><h2>${title}</h2>
<ul class="plain">
${lines.map((line) => html`<li>${named(line.trim())}</li>\n`)}</ul></section>
`;
}

/** Which unknown is behind most of each error. */
function mattersMarkup({ changes }: Ranking): Markup {
  const rows = changes.flatMap(({ name, mattersMost }) =>
    mattersMost === null
      ? []
      : [
          html`<tr><td>${named(name)}</td><td>${named(mattersMost.path)}</td><td>${(100 * mattersMost.share).toFixed(0)} % of the variance; ${signed(mattersMost.perSigmaPct, 2)} % of gain a standard deviation</td></tr>\n`,
        ],
  );
  if (rows.length === 0) return NOTHING;
  return html`<section id="matters"><h2>What most of each uncertainty comes from</h2>
<table class="ledger"><thead><tr><th scope="col">Change</th><th scope="col">Unknown</th><th scope="col">Its part</th></tr></thead><tbody>
${rows}</tbody></table></section>
`;
}
