/** The report of a ranking: what to test first, what not to test, and in which order. */

import type { Curve, RankingResult } from '@valvetide/core';
import { measureFirstLine } from '../render/measureFirstLine.ts';
import { orderParts } from '../render/orderParts.ts';
import { rankingAnswer, rankingBasis, rankingWarnings, setLines } from '../render/rankingText.ts';
import { signed } from '../render/signed.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { MOST_PANELS } from './charts/bySpeed.ts';
import { depression } from './charts/depression.ts';
import { differenceBySpeed } from './charts/differenceBySpeed.ts';
import { filling } from './charts/filling.ts';
import { octaneMargin } from './charts/octaneMargin.ts';
import { pairMatrix } from './charts/pairMatrix.ts';
import { rankedChanges } from './charts/rankedChanges.ts';
import { torqueAndPower } from './charts/torqueAndPower.ts';
import { type Charts, type Figure, gridMarkup, leadsMarkup } from './figure.ts';
import { html, type Markup, NOTHING, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup, pathMarkup } from './ledger.ts';
import { page } from './page.ts';

/** What a ranking itself does not hold. */
export interface RankExtras {
  /** Says where the speeds come from; empty where the user named them. */
  readonly note: string;
  /** The engine as it is at the speeds of the ranking, forecast when it is drawn; null where nothing was ranked. */
  readonly curve: () => Curve | null;
  /** (R + M) / 2. */
  readonly fuelOctane: number;
}

/** The charts of the page, by their ids. */
export const RANK_CHARTS = [
  'ranking',
  'difference',
  'pairs',
  'torque-and-power',
  'filling',
  'depression',
  'octane-margin',
] as const;

export function rankCharts(
  ranking: RankingResult,
  { curve, fuelOctane }: RankExtras,
  units: UnitSystem,
): Charts<(typeof RANK_CHARTS)[number]> {
  const ofCurve =
    (draw: (of: Curve) => Figure | null): (() => Figure | null) =>
    () => {
      const own = curve();
      return own === null ? null : draw(own);
    };
  const alone = (own: Curve) => [{ name: 'as it is', curve: own }];
  return {
    ranking: () => (ranking.changes.length === 0 ? null : rankedChanges(ranking, units)),
    difference: () => leadingDifference(ranking, units),
    pairs: () => pairMatrix(ranking),
    'torque-and-power': ofCurve((own) =>
      torqueAndPower(own, units, {
        band: ranking.band,
        spreadNm: own.points.map(
          ({ rpm }) => ranking.baseline?.bySpeed.find((at) => at.rpm === rpm)?.sigmaNm ?? null,
        ),
      }),
    ),
    filling: ofCurve((own) => filling(alone(own))),
    depression: ofCurve((own) => depression(alone(own), units)),
    'octane-margin': ofCurve((own) => octaneMargin(own, fuelOctane)),
  };
}

/** The changes with the largest gains, each with its ribbon. */
function leadingDifference(
  { changes, baseline, combination, dyno }: RankingResult,
  units: UnitSystem,
): Figure | null {
  if (baseline === null || changes.length === 0 || baseline.bySpeed.length === 0) return null;
  const leading = changes.slice(0, MOST_PANELS);
  return differenceBySpeed(
    leading.map(({ name, bySpeed }) => ({
      name,
      byRpm: bySpeed.map(({ rpm, gainNm, gainPct }) => ({ rpm, torqueNm: gainNm, torquePct: gainPct })),
      sigmaNm: bySpeed.map(({ sigmaNm }) => sigmaNm),
    })),
    {
      reference: combination,
      referenceTorqueNm: baseline.bySpeed.map(({ torqueNm }) => torqueNm),
      resolvablePct: dyno.resolvablePct,
      firstColour: 0,
      remark: `Ribbons: one standard deviation of each.${changes.length > MOST_PANELS ? ` The first ${MOST_PANELS} of ${changes.length} changes.` : ''}`,
    },
    units,
  );
}

export async function rankReport(
  ranking: RankingResult,
  extras: RankExtras,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const lines = [...rankingBasis(ranking, units), measureFirstLine(ranking.measureFirst), extras.note].filter(
    (line) => line !== '',
  );
  const charts = rankCharts(ranking, extras, units);
  const own = charts['torque-and-power']();
  return page({
    subject: ranking.combination,
    about,
    answer: rankingAnswer(ranking, units),
    basis: lines.map(named),
    body: [
      noticeMarkup(rankingWarnings(ranking)),
      html`<h2>The changes</h2>\n`,
      ...(await leadsMarkup([charts.ranking(), charts.difference(), charts.pairs()])),
      listMarkup('sets', 'Together', setLines(ranking, units)),
      ...orderParts(ranking).map(({ id, title, lines: steps }) => listMarkup(id, title, steps)),
      mattersMarkup(ranking),
      own === null ? NOTHING : html`<h2>The engine as it is</h2>\n`,
      ...(await leadsMarkup([own])),
      await gridMarkup([charts.filling(), charts.depression(), charts['octane-margin']()]),
      assumedMarkup(ranking.assumed, units),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(ranking.program),
  });
}

function listMarkup(id: string, title: string, lines: readonly string[]): Markup {
  if (lines.length === 0) return NOTHING;
  return html`<section id="${id}"><h2>${title}</h2>
<ul class="${id === 'order' ? 'plain order' : 'plain'}">
${lines.map((line) => html`<li>${named(line.trim().replace(/^- /, ''))}</li>\n`)}</ul></section>
`;
}

/** Which unknown is behind most of each error, and what part is the model's own. */
function mattersMarkup({ changes }: RankingResult): Markup {
  const rows = changes.flatMap(({ name, mattersMost, modelShare }) => {
    if (modelShare === null) return [];
    const unknown =
      mattersMost === null
        ? html`<td>none stands out</td><td></td>`
        : html`<td>${pathMarkup(mattersMost.path)}</td><td>${(100 * mattersMost.share).toFixed(0)} % of the variance; ${signed(mattersMost.perSigmaPct, 2)} % of gain a standard deviation</td>`;
    return [
      html`<tr><td>${named(name)}</td>${unknown}<td>${(100 * modelShare).toFixed(0)} % of the variance</td></tr>\n`,
    ];
  });
  if (rows.length === 0) return NOTHING;
  return html`<section id="matters"><h2>What most of each uncertainty comes from</h2>
<table class="ledger"><thead><tr><th scope="col">Change</th><th scope="col">Unknown</th><th scope="col">Its part</th><th scope="col">The model's own error</th></tr></thead><tbody>
${rows}</tbody></table></section>
`;
}
