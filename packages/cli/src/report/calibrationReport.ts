/** The report of a calibration: before and after beside what was measured, and what moved. */
import type { CalibrationResult } from '@valvetide/core';
import {
  calibrationAnswer,
  calibrationBasis,
  calibrationFindings,
  calibrationPoints,
} from '../render/calibrationText.ts';
import type { UnitSystem } from '../render/units.ts';
import { fitBySpeed, knobMoves } from './charts/calibrationCharts.ts';
import { leadMarkup } from './figure.ts';
import { html, NOTHING, named } from './html.ts';
import { cautionsMarkup, leftOutMarkup, noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** @param version - of this program */
export async function calibrationReport(
  result: CalibrationResult,
  version: string,
  units: UnitSystem,
): Promise<string> {
  const { disagreement } = result;
  const fit = fitBySpeed(result, units);
  return page({
    subject: result.combination,
    answer: calibrationAnswer(result),
    basis: [calibrationBasis(result, units), ...calibrationFindings(result)].map(named),
    body: [
      noticeMarkup([
        ...(disagreement === null
          ? []
          : [disagreement.message, ...disagreement.culprits.map((culprit) => `check ${culprit}`)]),
        ...result.notes,
      ]),
      html`<h2>The fit</h2>\n`,
      fit === null
        ? tableMarkup('Measured and forecast', calibrationPoints(result, units), result.points)
        : await leadMarkup(fit),
      result.knobs.length === 0 ? NOTHING : await leadMarkup(knobMoves(result)),
      leftOutMarkup,
    ],
    foot: cautionsMarkup({ name: 'valvetide', version }),
  });
}
