/** The report of measured pressures: each sensor's curve over the forecast at its place. */
import type { PressureComparison, PressurePlace } from '@valvetide/core';
import { plain } from '../render/plain.ts';
import { pressureAnswer, pressureColumns } from '../render/pressuresText.ts';
import type { UnitSystem } from '../render/units.ts';
import { pressureOverlay } from './charts/pressureOverlay.ts';
import { type Charts, type Figure, leadsMarkup } from './figure.ts';
import { html, named } from './html.ts';
import { noticeMarkup } from './ledger.ts';
import { page } from './page.ts';
import { tableMarkup } from './tableMarkup.ts';

/** The charts of the page, by their ids. */
export const PRESSURE_CHARTS = ['exhaust-pressure', 'intake-pressure', 'cylinder-pressure'] as const;

/** The first of each place. */
export function pressureCharts(
  { overlays }: PressureComparison,
  units: UnitSystem,
): Charts<(typeof PRESSURE_CHARTS)[number]> {
  const of = (place: PressurePlace): Figure | null => {
    const first = overlays.find((overlay) => overlay.place === place);
    return first === undefined ? null : pressureOverlay(`${place}-pressure`, first, units);
  };
  return {
    'exhaust-pressure': () => of('exhaust'),
    'intake-pressure': () => of('intake'),
    'cylinder-pressure': () => of('cylinder'),
  };
}

export async function pressuresReport(compared: PressureComparison, units: UnitSystem): Promise<string> {
  const { combination, overlays, notes, program } = compared;
  const [answer, ...more] = overlays.map(pressureAnswer);
  const figures = overlays.map((overlay, i) => {
    const first = overlays.findIndex(({ place }) => place === overlay.place) === i;
    return pressureOverlay(`${overlay.place}-pressure${first ? '' : `-${i + 1}`}`, overlay, units);
  });
  return page({
    subject: combination,
    answer,
    basis: more.map(named),
    body: [
      noticeMarkup(notes.map((note) => plain(note))),
      html`<h2>Measured over forecast</h2>\n`,
      ...(await leadsMarkup(figures)),
      html`<section><h2>Means and waves</h2>
${tableMarkup('Means and waves of each sensor', pressureColumns(units), overlays)}
</section>
`,
    ],
    foot: [html`<p>${program.name} ${program.version}. Nothing was fitted to these pressures.</p>`],
  });
}
