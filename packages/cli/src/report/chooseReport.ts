/** The report of a choice from a shelf: the best builds, what money buys, what matters, and what was not looked at. */

import type { ChoiceResult } from '@valvetide/core';
import { chosenAnswer, chosenBasis, chosenWarnings, searchLines } from '../render/chosenText.ts';
import { leftOutLines } from '../render/marched.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { bestBuilds } from './charts/bestBuilds.ts';
import { choiceEffects } from './charts/choiceEffects.ts';
import { moneyFrontier } from './charts/moneyFrontier.ts';
import { type Charts, leadsMarkup } from './figure.ts';
import { html, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';

/** The charts of the page, by their ids. */
export const CHOOSE_CHARTS = ['builds', 'money', 'choices'] as const;

export function chooseCharts(
  chosen: ChoiceResult,
  units: UnitSystem,
): Charts<(typeof CHOOSE_CHARTS)[number]> {
  return {
    builds: () => bestBuilds(chosen, units),
    money: () => moneyFrontier(chosen),
    choices: () => choiceEffects(chosen),
  };
}

/** @param note - says where the speeds come from; empty where the user or the shelf named them */
export async function chooseReport(
  chosen: ChoiceResult,
  note: string,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const lines = [...chosenBasis(chosen, units), ...searchLines(chosen), note].filter((line) => line !== '');
  return page({
    subject: chosen.combination,
    about,
    answer: chosenAnswer(chosen, units),
    basis: lines.map(named),
    body: [
      noticeMarkup([...chosenWarnings(chosen), ...leftOutLines(chosen.leftOut)]),
      html`<h2>The builds</h2>\n`,
      ...(await leadsMarkup(Object.values(chooseCharts(chosen, units)).map((draw) => draw()))),
      assumedMarkup(chosen.assumed, units),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(chosen.program),
  });
}
