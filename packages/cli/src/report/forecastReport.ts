/** The report of a forecast: a page that says what the engine is likely to make and what that rests on. */

import type { Curve, CycleTrace, ForecastSpread, Inspection, ValveUse } from '@valvetide/core';
import { answerLine } from '../render/answerLine.ts';
import { type BesideCurve, bandLine, measuredLine } from '../render/besideCurve.ts';
import { cylindersLine } from '../render/cylindersText.ts';
import { curveBasis, edgeLine } from '../render/forecastText.ts';
import { fuelLine, type PumpFuel } from '../render/fuelLine.ts';
import { warningLines } from '../render/notes.ts';
import { pointColumns } from '../render/pointColumns.ts';
import { spreadLine } from '../render/spreadText.ts';
import type { UnitSystem } from '../render/units.ts';
import { type About, NOTHING_ABOUT } from './about.ts';
import { depression } from './charts/depression.ts';
import { filling } from './charts/filling.ts';
import { flowUsed } from './charts/flowUsed.ts';
import { measuredDifference } from './charts/measuredDifference.ts';
import { octaneMargin } from './charts/octaneMargin.ts';
import { pressureLoop } from './charts/pressureLoop.ts';
import { torqueAndPower } from './charts/torqueAndPower.ts';
import { valveLift } from './charts/valveLift.ts';
import { engineSheetMarkup } from './engineSheet.ts';
import { type Charts, gridMarkup, leadsMarkup } from './figure.ts';
import { html, type Markup, NOTHING, named } from './html.ts';
import { assumedMarkup, cautionsMarkup, leftOutMarkup, noticeMarkup, worthMarkup } from './ledger.ts';
import { page } from './page.ts';
import { inBlocks, tableMarkup } from './tableMarkup.ts';

export interface ForecastReport extends BesideCurve {
  readonly curve: Curve;
  /** Says where the speeds come from; empty where the user named them. */
  readonly band: string;
  readonly inspection: Inspection;
  readonly fuel: PumpFuel;
  /** Marched when it is drawn: it takes as long as a speed of the forecast. Null without a speed to trace. */
  readonly trace: (() => CycleTrace) | null;
  readonly valves: () => ValveUse;
}

/** The charts of the page, by their ids. */
export const FORECAST_CHARTS = [
  'torque-and-power',
  'measured-difference',
  'filling',
  'depression',
  'octane-margin',
  'pressure-loop',
  'valve-lift',
  'flow-used-intake',
  'flow-used-exhaust',
] as const;

export function forecastCharts(
  { curve, fuel, trace, valves, counted, measured, spread }: ForecastReport,
  units: UnitSystem,
): Charts<(typeof FORECAST_CHARTS)[number]> {
  const alone = [{ name: 'forecast', curve }];
  return {
    'torque-and-power': () =>
      torqueAndPower(curve, units, {
        ...(counted === null ? {} : { band: counted.band }),
        ...(measured === null ? {} : { measured: measured.sheet.points }),
        ...(spread === null ? {} : { spreadNm: spreadBySpeed(curve, spread) }),
      }),
    'measured-difference': () => (measured === null ? null : measuredDifference(measured, units)),
    filling: () => filling(alone),
    depression: () => depression(alone, units),
    'octane-margin': () => octaneMargin(curve, fuel.octane),
    'pressure-loop': () => (trace === null ? null : pressureLoop(trace(), units)),
    'valve-lift': () => valveLift(valves(), units),
    'flow-used-intake': () => flowUsed('intake', valves().intake, units),
    'flow-used-exhaust': () => flowUsed('exhaust', valves().exhaust, units),
  };
}

/** Columns beside the speed in each block of the full table: as many as fit across a sheet of paper. */
const BLOCK = 8;

export async function forecastReport(
  report: ForecastReport,
  units: UnitSystem,
  about: About = NOTHING_ABOUT,
): Promise<string> {
  const { curve, band, fuel, inspection, counted, measured, spread } = report;
  const { 'torque-and-power': lead, ...others } = forecastCharts(report, units);
  const edge = edgeLine(curve);
  const lines = [
    curveBasis(curve, units),
    band,
    edge === '' ? '' : `${edge}.`,
    counted === null ? '' : bandLine(counted, units),
    cylindersLine(curve, units),
    measured === null ? '' : measuredLine(measured, units),
    spread === null ? '' : spreadLine(spread, units),
    fuelLine(curve, fuel),
  ].filter((line) => line !== '');
  return page({
    subject: curve.combination,
    about,
    answer: answerLine(curve, units),
    basis: lines.map(named),
    body: [
      noticeMarkup(warningLines(curve.warnings)),
      html`<h2>The curve</h2>\n`,
      ...(await leadsMarkup([lead()])),
      await gridMarkup(Object.values(others).map((draw) => draw())),
      engineSheetMarkup(inspection, units),
      pointsMarkup(curve, units),
      spread === null ? NOTHING : worthMarkup(spread),
      assumedMarkup(curve.assumed, units),
      leftOutMarkup,
    ],
    foot: cautionsMarkup(curve.program),
  });
}

/** One standard deviation of torque at each speed of the curve [N m]. */
function spreadBySpeed({ points }: Curve, spread: ForecastSpread): readonly (number | null)[] {
  return points.map(({ rpm }) => spread.points.find((point) => point.rpm === rpm)?.torqueNm ?? null);
}

/** Every figure of every speed. */
export function pointsMarkup(curve: Curve, units: UnitSystem): Markup {
  const tables = inBlocks(pointColumns(units), BLOCK).map(
    (columns, i) => html`${tableMarkup(`All figures, part ${i + 1}`, columns, curve.points)}\n`,
  );
  return html`<section id="figures"><h2>All figures by speed</h2>
<p class="basis">Torque and power as corrected, all else as observed. ? behind a speed: the cycle had not settled there. x behind a speed: there are no figures there. ! behind an octane number: it detonates.</p>
${tables}</section>
`;
}
