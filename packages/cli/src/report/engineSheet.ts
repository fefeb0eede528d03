/** The engine as the files describe it, in a dozen figures, so that a print says what it is about. */
import type { Inspection } from '@valvetide/core';
import { fixed } from '../render/fixed.ts';
import { chamberForm } from '../render/inspectionText.ts';
import {
  figureIn,
  quantityIn,
  SHOWN_FLOW,
  SHOWN_LENGTH,
  toCubicInch,
  toSquareInch,
  type UnitSystem,
} from '../render/units.ts';
import { html, type Markup } from './html.ts';

export function engineSheetMarkup(inspection: Inspection, units: UnitSystem): Markup {
  const items = engineSheet(inspection, units).map(
    ([term, value]) => html`<div><dt>${term}</dt><dd>${value}</dd></div>\n`,
  );
  return html`<section id="engine"><h2>The engine as read</h2>
<dl class="sheet">
${items}</dl></section>
`;
}

function engineSheet(
  { block, compression, chamber, cam, flow }: Inspection,
  units: UnitSystem,
): readonly (readonly [string, string])[] {
  const trade = units === 'trade';
  const length = (mm: number): string => quantityIn(SHOWN_LENGTH[units], mm);
  const area = (mm2: number): string => (trade ? `${fixed(toSquareInch(mm2), 2)} in2` : `${fixed(mm2)} mm2`);
  const degrees = (value: number | undefined): string => (value === undefined ? '-' : `${fixed(value)} deg`);
  const flowed = SHOWN_FLOW[units];
  return [
    [
      'Displacement',
      trade ? `${fixed(toCubicInch(block.displacementCm3), 1)} in3` : `${fixed(block.displacementCm3)} cm3`,
    ],
    ['Cylinders, bore x stroke', `${block.cylinders}, ${length(block.boreMm)} x ${length(block.strokeMm)}`],
    ['Rod over stroke', fixed(block.rodOverStroke, 2)],
    ['Compression', `${fixed(compression.ratio, 2)}:1`],
    ['Chamber', chamberForm(chamber, units)],
    [
      'Net valve lift, intake / exhaust',
      `${length(cam.intake.valveLiftMm)} / ${length(cam.exhaust.valveLiftMm)}`,
    ],
    [
      `Duration at ${trade ? '0.050 in' : '1.27 mm'} of lobe`,
      `${degrees(cam.intake.at050?.durationDeg)} / ${degrees(cam.exhaust.at050?.durationDeg)}`,
    ],
    ['Lobe separation, advance', `${fixed(cam.separationDeg, 1)} cam deg, ${fixed(cam.advanceDeg, 1)} deg`],
    [
      `Flow at full lift, ${flowed.bench}`,
      `${figureIn(flowed, flow.intakeCfm28)} / ${quantityIn(flowed, flow.exhaustCfm28)}`,
    ],
    ['Exhaust over intake flow', `${fixed(100 * flow.exhaustOverIntake)} %`],
    ['Port area', `${area(flow.intakePortMm2)} / ${area(flow.exhaustPortMm2)}`],
    [metering(flow), `${quantityIn(flowed, flow.inductionCfm15)} at ${flowed.rating}`],
  ];
}

/** `Carburetor`, or of several `2 carburetors together`. */
function metering({ inductionKind: kind, inductionCount: count }: Inspection['flow']): string {
  if (count === 1) return kind === 'carburetor' ? 'Carburetor' : 'Throttle body';
  return `${kind === 'carburetor' ? `${count} carburetors` : `${count} throttle bodies`} together`;
}
