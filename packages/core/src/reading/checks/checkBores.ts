/**
 * Bores and areas that no part of such an engine has, where the same number in another unit is usual: the unit is the likely slip, so the
 * file is asked back. A size that is odd in every unit is an engine of its own, and left alone.
 */

import { type Dimension, parseQuantity, splitNumber } from '../../base/units.ts';
import type { Combination, Port } from '../../combination/combination.ts';
import type { CombinationDocument } from '../readDocument.ts';
import type { ResolveContext } from '../resolve/context.ts';
import { discArea } from '../resolve/pipes.ts';
import type { PipeSection } from '../schema/exhaustSection.ts';
import type { FieldPath, FieldPlace } from '../schema/fieldPath.ts';
import { valueAt } from '../valueAt.ts';
import { inches, type Report, squareInches } from './report.ts';

/** What parts of a kind have, over what they are measured by [-]. */
interface Band {
  readonly least: number;
  readonly most: number;
}

/**
 * The widest bands any builder stays in (common practice, no source); a centimetre for an inch falls 2.5 times short of the middle.
 * Diameters are over the valve, all of one cylinder's side taken as one; areas over its area. What several cylinders share grows with
 * the cube root of their number: they take turns.
 */
const BANDS = {
  strokeOverBore: { least: 0.4, most: 1.9 },
  intakeValveOverBore: { least: 0.26, most: 0.66 },
  exhaustValveOverBore: { least: 0.2, most: 0.62 },
  throat: { least: 0.6, most: 1 },
  portArea: { least: 0.25, most: 2.5 },
  smallestArea: { least: 0.16, most: 2 },
  runnerArea: { least: 0.25, most: 6 },
  primary: { least: 0.6, most: 2.2 },
  secondary: { least: 0.6, most: 3 },
  outlet: { least: 0.6, most: 4 },
  balance: { least: 0.3, most: 1.3 },
  throttle: { least: 0.45, most: 3.5 },
  duct: { least: 0.4, most: 3.5 },
  restrictor: { least: 0.24, most: 2.5 },
} as const satisfies Readonly<Record<string, Band>>;

/** One stated size: a diameter [m] or an area [m2], and what such sizes are measured by. */
interface Stated {
  readonly path: FieldPlace;
  readonly size: number;
  readonly by: number;
  readonly band: Band;
  readonly dimension: 'length' | 'area';
}

/** A size with what the file wrote of it. */
interface Slip extends Stated {
  readonly hint: string;
}

export function checkBores(
  document: CombinationDocument,
  context: ResolveContext,
  combination: Combination,
  report: Report,
): void {
  // What hangs on a size in doubt is not judged: the cylinder first, then its valves, then what is measured by them.
  for (const parts of [cylinder, valves, ports, tracts]) {
    const slips = parts(context, combination).flatMap((stated) => slipOf(document, stated));
    for (const slip of slips) tell(slip, report);
    if (slips.length > 0) return;
  }
  checkPrimary(document, context, combination, report);
}

function tell({ path, size, by, band, dimension, hint }: Slip, report: Report): void {
  const shown = dimension === 'area' ? squareInches : inches;
  const message = `comes to ${shown(size)}: engines like this have ${shown(band.least * by)} to ${shown(band.most * by)}`;
  report.problem(path, 'bore-slip', message, hint);
}

/** The slip, where the size is outside its band and the same number in another unit is within. */
function slipOf(document: CombinationDocument, stated: Stated): readonly Slip[] {
  const ratio = stated.size / stated.by;
  if (isWithin(ratio, stated.band)) return [];
  const hint = otherUnit(document, stated.path, stated.dimension, (factor) =>
    isWithin(factor * ratio, stated.band),
  );
  return hint === null ? [] : [{ ...stated, hint }];
}

function isWithin(ratio: number, { least, most }: Band): boolean {
  return ratio >= least && ratio <= most;
}

/** Units that may have been meant, the likeliest first. Nobody writes millimetres for centimetres. */
const UNITS = { length: ['in', 'cm', 'mm'], area: ['in2', 'cm2', 'mm2'] } as const;

/** The written number with a unit that suits, as a question; `suits` is given how many times as large it then is. */
function otherUnit(
  document: CombinationDocument,
  path: FieldPlace,
  dimension: Dimension & keyof typeof UNITS,
  suits: (factor: number) => boolean,
): string | null {
  const written = valueAt(document.data, path);
  const text = typeof written === 'string' ? written.trim() : '';
  const parts = splitNumber(text);
  const read = parseQuantity(text, dimension);
  if (parts === null || !read.ok) return null;
  const number = text.slice(0, text.length - parts.unit.length).trim();
  const unit = UNITS[dimension].find((other) => {
    if (read.value.unit.startsWith('mm') && other.startsWith('cm')) return false;
    const meant = parseQuantity(`${number} ${other}`, dimension);
    return meant.ok && suits(meant.value.kept / read.value.kept);
  });
  return unit === undefined ? null : `did you mean ${number} ${unit}?`;
}

/** A field that may not be stated, with its path. */
type Field = readonly [FieldPlace, number | undefined];

function diameters(fields: readonly Field[], by: number, band: Band): readonly Stated[] {
  return sizes(fields, by, band, 'length');
}

function areas(fields: readonly Field[], by: number, band: Band): readonly Stated[] {
  return sizes(fields, by, band, 'area');
}

function sizes(
  fields: readonly Field[],
  by: number,
  band: Band,
  dimension: Stated['dimension'],
): readonly Stated[] {
  return fields.flatMap(([path, size]) => (size === undefined ? [] : [{ path, size, by, band, dimension }]));
}

/** Diameter of one valve as large as the cylinder's valves of a side [m]. */
function valveOf({ valves: count, valveDiameter }: Port): number {
  return valveDiameter * Math.sqrt(count);
}

/** Either of the two may be the slip, so both are asked for. */
function cylinder({ file: { engine } }: ResolveContext): readonly Stated[] {
  const { bore, stroke } = engine;
  const { least, most } = BANDS.strokeOverBore;
  return [
    ...diameters([['engine.bore', bore]], stroke, { least: 1 / most, most: 1 / least }),
    ...diameters([['engine.stroke', stroke]], bore, BANDS.strokeOverBore),
  ];
}

function valves(
  { file: { engine, heads } }: ResolveContext,
  { intake, exhaust }: Combination,
): readonly Stated[] {
  return [
    ...diameters(
      [['heads.intake.valve', heads?.intake?.valve]],
      engine.bore / Math.sqrt(intake.valves),
      BANDS.intakeValveOverBore,
    ),
    ...diameters(
      [['heads.exhaust.valve', heads?.exhaust?.valve]],
      engine.bore / Math.sqrt(exhaust.valves),
      BANDS.exhaustValveOverBore,
    ),
  ];
}

function ports({ file: { heads } }: ResolveContext, combination: Combination): readonly Stated[] {
  return (['intake', 'exhaust'] as const).flatMap((side) => {
    const { throat, portArea, minimumArea } = heads?.[side] ?? {};
    const port = combination[side];
    const area = discArea(valveOf(port));
    return [
      ...diameters([[`heads.${side}.throat`, throat]], port.valveDiameter, BANDS.throat),
      ...areas([[`heads.${side}.portArea`, portArea]], area, BANDS.portArea),
      ...areas([[`heads.${side}.minimumArea`, minimumArea]], area, BANDS.smallestArea),
    ];
  });
}

function tracts(context: ResolveContext, combination: Combination): readonly Stated[] {
  return [...inductionSizes(context, combination), ...exhaustSizes(context, combination)];
}

function inductionSizes(
  { file: { induction } }: ResolveContext,
  { block: { cylinders }, intake, induction: made }: Combination,
): readonly Stated[] {
  const { throttle, inletDuct, airbox, restrictor, spacer, runner, manifold } = induction ?? {};
  const valve = valveOf(intake);
  const shared = (count: number): number => valve * Math.cbrt(cylinders / count);
  const own = manifold === 'individual-throttles' || manifold === 'individual-runner' ? cylinders : 1;
  const bores = restrictor !== undefined && restrictor !== 'none' ? restrictor : undefined;
  const holes = spacer !== undefined && spacer !== 'none' ? spacer : undefined;
  const runnerAreas: readonly Field[] = [
    ['induction.runner.entryArea', runner?.entryArea],
    ['induction.runner.exitArea', runner?.exitArea],
  ];
  return [
    ...areas(runnerAreas, discArea(valve), BANDS.runnerArea),
    ...diameters(
      [['induction.throttle.diameter', throttle?.diameter]],
      shared(throttle?.count ?? own),
      BANDS.throttle,
    ),
    ...diameters(
      [
        ['induction.inletDuct.inside', inletDuct === 'none' ? undefined : inletDuct?.inside],
        ['induction.airbox.inlet.inside', airbox?.inlet?.inside],
      ],
      shared(1),
      BANDS.duct,
    ),
    ...diameters(
      [['induction.restrictor.bore', bores?.bore]],
      shared(1) / Math.sqrt(bores?.bores ?? 1),
      BANDS.restrictor,
    ),
    ...diameters(
      [['induction.spacer.bore', holes?.bore]],
      shared(1) / Math.sqrt(holes?.bores ?? made.feed?.bores ?? 1),
      BANDS.duct,
    ),
  ];
}

/** Where a tube's size is stated: outside, or inside. */
function tube(path: FieldPath, section: PipeSection | undefined): readonly Field[] {
  return [
    [`${path}.diameter` as FieldPath, section?.diameter],
    [`${path}.inside` as FieldPath, section?.inside],
  ];
}

function exhaustSizes(
  { file }: ResolveContext,
  { block: { cylinders }, exhaust, exhaustSystem: { collectors } }: Combination,
): readonly Stated[] {
  const { primary, secondary, collector, balance, box } = file.exhaust ?? {};
  const valve = valveOf(exhaust);
  const behind = valve * Math.cbrt(collectors === null ? 1 : cylinders / collectors.groups.length);
  const steps = (primary?.steps ?? []).flatMap(({ diameter, inside }, index): readonly Field[] => [
    [`exhaust.primary.steps.${index}.diameter`, diameter],
    [`exhaust.primary.steps.${index}.inside`, inside],
  ]);
  const merged = typeof collector === 'object' ? collector : undefined;
  return [
    ...diameters(steps, valve, BANDS.secondary),
    ...diameters(tube('exhaust.secondary', secondary), valve, BANDS.secondary),
    ...diameters(tube('exhaust.collector', merged), behind, BANDS.outlet),
    ...diameters(tube('exhaust.box.pipe', box?.pipe), behind, BANDS.outlet),
    ...(collectors === null
      ? []
      : diameters(tube('exhaust.balance', balance), 2 * Math.sqrt(collectors.area / Math.PI), BANDS.balance)),
  ];
}

/** A primary against its valve. Much smaller than a valve that is stated, it is a slip whatever its unit. */
function checkPrimary(
  document: CombinationDocument,
  { file }: ResolveContext,
  { exhaust, exhaustSystem }: Combination,
  report: Report,
): void {
  const field = (['diameter', 'inside'] as const).find((name) => file.exhaust?.primary?.[name] !== undefined);
  if (field === undefined) return;
  const inside = 2 * Math.sqrt(exhaustSystem.primary.area / Math.PI);
  const valve = valveOf(exhaust);
  if (isWithin(inside / valve, BANDS.primary)) return;
  const path: FieldPath = `exhaust.primary.${field}`;
  const hint = otherUnit(document, path, 'length', (factor) =>
    isWithin((factor * inside) / valve, BANDS.primary),
  );
  const isTooSmall = inside < BANDS.primary.least * valve && file.heads?.exhaust?.valve !== undefined;
  if (hint === null && !isTooSmall) return;
  const message = `leaves ${inches(inside)} inside, for exhaust valves as large as one of ${inches(valve)}`;
  report.problem(path, 'primary-slip', message, hint);
}
