/** A report and a single chart, beside a command's result. */
import { misuse } from '../commandFailure.ts';
import type { Invocation } from '../commandSpec.ts';
import { deliverSideFile, type SideFiles } from '../output/sideFiles.ts';
import type { UnitSystem } from '../render/units.ts';
import type { Charts } from '../report/figure.ts';
import { standaloneSvg } from '../report/standaloneSvg.ts';
import { detailOf, unitsOf } from './readFlags.ts';

/** What a result gives to draw. */
export interface Drawn {
  readonly page: (units: UnitSystem) => Promise<string>;
  /** The usual one first. */
  readonly charts: (units: UnitSystem) => Charts;
}

/** `asked`: the units of the file. Nothing is drawn, nor the drawing program loaded, where neither is asked for. */
export async function deliverDrawn(
  { flags, io }: Invocation,
  { report, svg }: SideFiles,
  drawn: Drawn,
  asked: UnitSystem,
): Promise<void> {
  const units = unitsOf(flags, asked);
  const detail = detailOf(flags);
  if (report !== null) deliverSideFile(io, report, await drawn.page(units), detail);
  if (svg === null) return;
  const charts = drawn.charts(units);
  const [usual] = Object.keys(charts);
  const chosen = flags.text('chart') ?? usual;
  const figure = charts[chosen]();
  if (figure === null) throw misuse(`--chart ${chosen}: this result has nothing to draw in it`);
  deliverSideFile(io, svg, await standaloneSvg(figure), detail);
}
