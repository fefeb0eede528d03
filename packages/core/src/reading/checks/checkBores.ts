/**
 * Bores and areas that no part of such an engine has, where the same number in another unit is usual: the unit is the likely slip, so the
 * file is asked back. A size that is odd in every unit is an engine of its own, and left alone.
 */

import { parseQuantity, splitNumber, toUnit } from '../../base/units.ts';
import type { Combination, Port } from '../../combination/combination.ts';
import { SIDES } from '../../combination/sides.ts';
import type { CombinationDocument } from '../combinationDocument.ts';
import type { ResolveContext } from '../resolve/context.ts';
import { discArea } from '../resolve/pipes.ts';
import type { PipeSection } from '../schema/exhaustSection.ts';
import type { FieldPath, FieldPlace, PipePath } from '../schema/fieldPath.ts';
import { fitted } from '../schema/inductionParts.ts';
import { valueAt } from '../valueAt.ts';
import type { Report } from './report.ts';

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
  /** Valves, over the bore. */
  intake: { least: 0.26, most: 0.66 },
  exhaust: { least: 0.2, most: 0.62 },
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

/** Sizes that one part of an engine has. */
type Part = (context: ResolveContext, combination: Combination) => readonly Stated[];

/** The unit that was likely meant, and the question. */
interface Meant {
  readonly unit: string;
  readonly hint: string;
}

interface Slip extends Stated, Meant {}

export function checkBores(
  document: CombinationDocument,
  context: ResolveContext,
  combination: Combination,
  report: Report,
): void {
  const toldOf = (...parts: readonly Part[]): boolean => {
    const sizes = parts.flatMap((part) => part(context, combination));
    const slips = sizes.flatMap((size) => slipOf(document, size));
    for (const slip of slips) tell(slip, report);
    return slips.length > 0;
  };
  // What hangs on a size in doubt is not judged: the cylinder first, then its valves, then what is measured by them.
  if (toldOf(cylinder) || toldOf(valves)) return;
  toldOf(ports, inductionSizes, exhaustSizes);
  checkPrimary(document, context, combination, report);
}

function tell({ path, size, by, band, dimension, unit, hint }: Slip, report: Report): void {
  const [is, least, most] = [size, band.least * by, band.most * by].map((value, i) =>
    numberIn(unit, value, dimension, i === 0 ? 3 : 2),
  );
  const message = `is ${is} ${unit}, where engines like this have ${least} to ${most} ${unit}`;
  report.problem(path, 'bore-slip', message, hint);
}

/** A size in the unit that the rest of the file is likely in. */
function numberIn(unit: string, size: number, dimension: Stated['dimension'], digits = 3): string {
  return String(Number(toUnit(size, unit, dimension).toPrecision(digits)));
}

/** The slip, where the size is outside its band and the same number in another unit is within. */
function slipOf(document: CombinationDocument, part: Stated): readonly Slip[] {
  const ratio = part.size / part.by;
  if (isWithin(ratio, part.band)) return [];
  const meant = otherUnit(document, part.path, part.dimension, (factor) =>
    isWithin(factor * ratio, part.band),
  );
  return meant === null ? [] : [{ ...part, ...meant }];
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
  dimension: keyof typeof UNITS,
  suits: (factor: number) => boolean,
): Meant | null {
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
  return unit === undefined ? null : { unit, hint: `did you mean ${number} ${unit}?` };
}

/** A field that may not be stated, with its path. */
type Field = readonly [FieldPlace, number | undefined];

/** Those of the fields that are stated. */
function stated(
  dimension: Stated['dimension'],
  by: number,
  band: Band,
  ...fields: readonly Field[]
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
    ...stated('length', stroke, { least: 1 / most, most: 1 / least }, ['engine.bore', bore]),
    ...stated('length', bore, BANDS.strokeOverBore, ['engine.stroke', stroke]),
  ];
}

/** Too small; one too large is told by what it does not fit. */
function valves({ file }: ResolveContext, combination: Combination): readonly Stated[] {
  return SIDES.flatMap((side) =>
    stated('length', file.engine.bore / Math.sqrt(combination[side].valves), BANDS[side], [
      `heads.${side}.valve`,
      file.heads?.[side]?.valve,
    ]),
  ).filter(({ size, by, band }) => size < band.least * by);
}

function ports({ file }: ResolveContext, combination: Combination): readonly Stated[] {
  return SIDES.flatMap((side) => {
    const written = file.heads?.[side];
    const port = combination[side];
    const area = discArea(valveOf(port));
    return [
      ...stated('length', port.valveDiameter, BANDS.throat, [`heads.${side}.throat`, written?.throat]),
      ...stated('area', area, BANDS.portArea, [`heads.${side}.portArea`, written?.portArea]),
      ...stated('area', area, BANDS.smallestArea, [`heads.${side}.minimumArea`, written?.minimumArea]),
    ];
  });
}

function inductionSizes(
  { file: { induction } }: ResolveContext,
  { block: { cylinders }, intake, induction: made }: Combination,
): readonly Stated[] {
  const { throttle, inletDuct, airbox, restrictor, spacer, runner, manifold } = induction ?? {};
  const valve = valveOf(intake);
  const shared = (count: number): number => valve * Math.cbrt(cylinders / count);
  const own = manifold === 'individual-throttles' || manifold === 'individual-runner' ? cylinders : 1;
  const bores = fitted(restrictor);
  const holes = fitted(spacer);
  const behind = (count: number): number => shared(1) / Math.sqrt(count);
  return [
    ...stated(
      'area',
      discArea(valve),
      BANDS.runnerArea,
      ['induction.runner.entryArea', runner?.entryArea],
      ['induction.runner.exitArea', runner?.exitArea],
    ),
    ...stated('length', shared(throttle?.count ?? own), BANDS.throttle, [
      'induction.throttle.diameter',
      throttle?.diameter,
    ]),
    ...stated(
      'length',
      shared(1),
      BANDS.duct,
      ['induction.inletDuct.inside', fitted(inletDuct)?.inside],
      ['induction.airbox.inlet.inside', airbox?.inlet?.inside],
    ),
    ...stated('length', behind(bores?.bores ?? 1), BANDS.restrictor, [
      'induction.restrictor.bore',
      bores?.bore,
    ]),
    ...stated('length', behind(holes?.bores ?? made.feed?.bores ?? 1), BANDS.duct, [
      'induction.spacer.bore',
      holes?.bore,
    ]),
  ];
}

/** Where a tube's size is stated: outside, or inside. */
function tube(
  path: PipePath | `exhaust.primary.steps.${number}`,
  section: Partial<PipeSection> | undefined,
): readonly Field[] {
  return [
    [`${path}.diameter`, section?.diameter],
    [`${path}.inside`, section?.inside],
  ];
}

function exhaustSizes(
  { file }: ResolveContext,
  { block: { cylinders }, exhaust, exhaustSystem: { collectors } }: Combination,
): readonly Stated[] {
  const { primary, secondary, collector, balance, box } = file.exhaust ?? {};
  const valve = valveOf(exhaust);
  const outlet = valve * Math.cbrt(collectors === null ? 1 : cylinders / collectors.groups.length);
  const merged = typeof collector === 'object' ? collector : undefined;
  const steps = (primary?.steps ?? []).flatMap((step, i) => tube(`exhaust.primary.steps.${i}`, step));
  return [
    ...stated('length', valve, BANDS.secondary, ...steps, ...tube('exhaust.secondary', secondary)),
    ...stated(
      'length',
      outlet,
      BANDS.outlet,
      ...tube('exhaust.collector', merged),
      ...tube('exhaust.box.pipe', box?.pipe),
    ),
    ...stated(
      'length',
      2 * Math.sqrt((collectors?.area ?? 0) / Math.PI),
      BANDS.balance,
      ...tube('exhaust.balance', balance),
    ),
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
  const meant = otherUnit(document, path, 'length', (factor) =>
    isWithin((factor * inside) / valve, BANDS.primary),
  );
  const isTooSmall = inside < BANDS.primary.least * valve;
  if (meant === null && !(isTooSmall && file.heads?.exhaust?.valve !== undefined)) return;
  const unit = meant?.unit ?? 'in';
  const { valves: count, valveDiameter } = exhaust;
  const of = `${count === 1 ? 'an exhaust valve' : `${count} exhaust valves`} of ${numberIn(unit, valveDiameter, 'length')} ${unit}`;
  const message = `is ${numberIn(unit, inside, 'length')} ${unit} inside, too ${isTooSmall ? 'narrow' : 'wide'} for ${of}`;
  report.problem(path, 'primary-slip', message, meant?.hint ?? null);
}
