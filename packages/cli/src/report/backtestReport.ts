/** The report of a back-test: a known change, forecast and held to what was measured. */

import type { BacktestResult } from '@valvetide/core';
import { backtestAnswer, backtestHeldBack, backtestVerdict } from '../render/backtestText.ts';
import { calibrationAnswer, calibrationBasis, calibrationFindings } from '../render/calibrationText.ts';
import { leftOutLines } from '../render/marched.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { calibrationCharts } from './calibrationReport.ts';
import { beforeAndAfter, gainBySpeed } from './charts/backtestCharts.ts';
import { type Charts, gridMarkup, leadsMarkup } from './figure.ts';
import { html, named } from './html.ts';
import { cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';

/** The charts of the page, by their ids. */
export const BACKTEST_CHARTS = ['gain', 'before-and-after', 'fit', 'fit-difference', 'knobs'] as const;

export function backtestCharts(
  result: BacktestResult,
  units: UnitSystem,
): Charts<(typeof BACKTEST_CHARTS)[number]> {
  return {
    gain: () => gainBySpeed(result, units),
    'before-and-after': () => beforeAndAfter(result, units),
    ...calibrationCharts(result.calibration, units),
  };
}

export async function backtestReport(
  result: BacktestResult,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const { calibration } = result;
  const charts = backtestCharts(result, units);
  const { disagreement } = calibration;
  return page({
    subject: result.combination,
    about,
    answer: backtestAnswer(result),
    basis: [backtestVerdict(result), ...backtestHeldBack(result, units), `${calibrationAnswer(calibration)}.`]
      .filter((line) => line !== '')
      .map(named),
    body: [
      noticeMarkup([
        ...(disagreement === null
          ? []
          : [disagreement.message, ...disagreement.culprits.map((culprit) => `check ${culprit}`)]),
        ...result.notes,
        ...calibration.notes,
        ...leftOutLines(result.leftOut),
      ]),
      html`<h2>The change</h2>\n`,
      ...(await leadsMarkup([charts.gain(), charts['before-and-after']()])),
      html`<h2>The calibration it rests on</h2>\n`,
      ...[calibrationBasis(calibration, units), ...calibrationFindings(calibration)].map(
        (line) => html`<p class="basis">${named(line)}</p>\n`,
      ),
      await gridMarkup([charts.fit(), charts['fit-difference']()]),
      ...(await leadsMarkup([charts.knobs()])),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(result.program),
  });
}
