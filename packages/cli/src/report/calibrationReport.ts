/** The report of a calibration: before and after beside what was measured, and what moved. */

import type { CalibrationResult } from '@valvetide/core';
import {
  calibrationAnswer,
  calibrationBasis,
  calibrationFindings,
  calibrationPoints,
} from '../render/calibrationText.ts';
import { leftOutLines } from '../render/marched.ts';
import { heldBackLine } from '../render/pullRate.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { fitBySpeed, fitDifference, knobMoves } from './charts/calibrationCharts.ts';
import { type Charts, leadsMarkup } from './figure.ts';
import { html, NOTHING, named } from './html.ts';
import { cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** The charts of the page, by their ids. */
export const CALIBRATION_CHARTS = ['fit', 'fit-difference', 'knobs'] as const;

export function calibrationCharts(
  result: CalibrationResult,
  units: UnitSystem,
): Charts<(typeof CALIBRATION_CHARTS)[number]> {
  return {
    fit: () => (result.points.length === 0 ? null : fitBySpeed(result, units)),
    'fit-difference': () => (result.points.length === 0 ? null : fitDifference(result, units)),
    knobs: () => (result.knobs.length === 0 ? null : knobMoves(result)),
  };
}

/** @param version - of this program */
export async function calibrationReport(
  result: CalibrationResult,
  version: string,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const { disagreement } = result;
  const charts = calibrationCharts(result, units);
  const fit = charts.fit();
  return page({
    subject: result.combination,
    about,
    answer: calibrationAnswer(result),
    basis: [
      calibrationBasis(result, units),
      heldBackLine(result.heldBack, units),
      ...calibrationFindings(result),
    ]
      .filter((line) => line !== '')
      .map(named),
    body: [
      noticeMarkup([
        ...(disagreement === null
          ? []
          : [disagreement.message, ...disagreement.culprits.map((culprit) => `check ${culprit}`)]),
        ...result.notes,
        ...leftOutLines(result.leftOut),
      ]),
      html`<h2>The fit</h2>\n`,
      fit === null
        ? tableMarkup('Measured and forecast', calibrationPoints(result, units), result.points)
        : NOTHING,
      ...(await leadsMarkup([fit, charts['fit-difference'](), charts.knobs()])),
      leftOutMarkup,
    ],
    foot: cautionsMarkup({ name: 'valvetide', version }),
  });
}
