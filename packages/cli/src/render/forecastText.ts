/** A curve for people: the answer first, then the picture, the figures and what they rest on. */

import type { Curve, ForecastSpread } from '@valvetide/core';
import { answerLine } from './answerLine.ts';
import { type BesideCurve, bandLine, measuredColumns, measuredLine } from './besideCurve.ts';
import { chart } from './chart.ts';
import { referenceAir, standardName } from './correction.ts';
import { cylindersLine, cylindersText } from './cylindersText.ts';
import { fixed } from './fixed.ts';
import { fuelLine, type PumpFuel } from './fuelLine.ts';
import { marched, marksText } from './marched.ts';
import { assumedReasons, assumedTable, cautionsText, warningsText, wrapped } from './notes.ts';
import { madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { CHECKS, pointColumns } from './pointColumns.ts';
import { spreadColumn, spreadLine, worthText } from './spreadText.ts';
import { leftOut, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** `band` says where the speeds come from; empty where the user named them. `fuel`: what burns. */
export function forecastText(
  curve: Curve,
  { band, fuel }: { readonly band: string; readonly fuel: PumpFuel },
  { counted, measured, spread }: BesideCurve,
  options: TextOptions,
): string {
  const { width, units, paint, detail } = options;
  const answer = `${paint.strong(answerLine(curve, units))}\n`;
  if (detail === 'quiet') return answer;
  return paragraphs([
    answer +
      [
        `${plain(curve.combination)}. ${curveBasis(curve, units)}`,
        band,
        hinted(edgeLine(curve)),
        counted === null ? '' : bandLine(counted, units),
        spread === null ? '' : spreadLine(spread, units),
        fuelLine(curve, fuel),
      ]
        .map((line) => wrapped(line, width))
        .join(''),
    chart(chartPoints(curve, units), {
      width,
      torqueUnit: SHOWN[units].torqueUnit,
      powerUnit: SHOWN[units].powerUnit,
      paint,
    }),
    figures(curve, spread, options),
    measured === null
      ? ''
      : wrapped(measuredLine(measured, units), width) +
        table(measuredColumns(units), measured.bySpeed, width),
    spread === null ? '' : worthText(spread, curve, options),
    assumedPart(curve, spread, options),
    paint.caution(warningsText(curve.warnings, width)),
    cautionsText(width),
    madeBy(curve.program),
  ]);
}

/** Where the spread is worked out, what it is worth to know each value says more than the list of them. */
function assumedPart(
  { assumed }: Curve,
  spread: ForecastSpread | null,
  { detail, units, width }: TextOptions,
): string {
  if (detail === 'verbose') return assumedReasons(assumed, units, width);
  return spread === null ? assumedTable(assumed, units) : '';
}

/** Corrections beyond this are noted, as the standards call the result suspect [-]; a test holds it to the library's. */
export const NOTED_BEYOND = 0.03;

/** What torque and power refer to. */
export function curveBasis(curve: Curve, units: UnitSystem): string {
  const { standard, factor } = curve.correction;
  const note =
    Math.abs(factor - 1) > NOTED_BEYOND ? ' (more than 3 %: a sheet of a milder day is surer)' : '';
  return standard === 'none'
    ? 'Torque and power as observed, no correction.'
    : `Torque and power corrected to ${standardName(standard)}, ${referenceAir(standard, units)}, factor ${fixed(factor, 4)}${note}; all else as observed.`;
}

/** A peak on the edge of the band is none: the curve goes on rising beyond it. */
export function edgeLine({ points, peak }: Curve): string {
  if (points.length < 2 || peak === null) return '';
  const first = points[0].rpm;
  const last = points[points.length - 1].rpm;
  const edges = [
    peak.torque.rpm === first ? `torque is highest at the lowest speed, ${fixed(first)} rpm` : '',
    peak.torque.rpm === last ? `torque still rises at the highest speed, ${fixed(last)} rpm` : '',
    peak.power.rpm === last ? `power still rises at the highest speed, ${fixed(last)} rpm` : '',
  ].filter((edge) => edge !== '');
  return edges.length === 0 ? '' : `Not a true peak: ${edges.join(', ')}`;
}

const hinted = (edge: string): string => (edge === '' ? '' : `${edge}; widen --rpm.`);

function figures(curve: Curve, spread: ForecastSpread | null, { width, units, detail }: TextOptions): string {
  const [speed, torque, ...others] = pointColumns(units);
  const all = [speed, torque, ...(spread === null ? [] : [spreadColumn(spread, units)]), ...others];
  const columns = detail === 'verbose' ? all : all.filter(({ name }) => !CHECKS.has(name));
  const marks = marksText(curve.points);
  if (detail === 'verbose') {
    const each = cylindersText(curve, width, units);
    return table(columns, curve.points, width) + marks + (each === '' ? '' : `\n${each}`);
  }
  const more = leftOut(columns, curve.points, width);
  const hint =
    more.length === 0 ? '' : wrapped(`Also computed (--verbose, --csv, --json): ${more.join(', ')}`, width);
  return table(columns, curve.points, width, 1) + marks + hint + wrapped(cylindersLine(curve, units), width);
}

function chartPoints(
  curve: Curve,
  units: UnitSystem,
): readonly { rpm: number; torque: number; power: number }[] {
  return marched(curve.points).map((p) =>
    units === 'trade'
      ? { rpm: p.rpm, torque: p.torqueLbFt, power: p.powerHp }
      : { rpm: p.rpm, torque: p.torqueNm, power: p.powerKw },
  );
}
