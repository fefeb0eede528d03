/** Figures by which one engine is told from another, in SI units, as far as its file states them. */
import { type Dimension, parseQuantity } from '../../packages/core/src/base/units.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { camSideFigures } from '../../packages/core/src/forecast/camFigures.ts';
import type { Plain } from '../../packages/core/src/reading/combinationDocument.ts';
import { readDocument } from '../../packages/core/src/reading/readDocument.ts';
import { resolveDocument } from '../../packages/core/src/reading/resolveDocument.ts';
import { valueAt } from '../../packages/core/src/reading/valueAt.ts';

export interface Figure {
  readonly what: string;
  readonly value: number;
}

type Value = (combination: Combination) => number | undefined;

/** What each figure is in the engine as read, and the fields of which one must stand in the file for it to count as stated. */
const FIGURES: readonly (readonly [what: string, value: Value, fields: readonly string[]])[] = [
  ['bore', ({ block }) => block.bore, ['engine.bore']],
  ['stroke', ({ block }) => block.stroke, ['engine.stroke']],
  ['rod', ({ block }) => block.rodLength, ['engine.rod']],
  ['intake duration at 0.050 in', duration('intake'), ['cam.intake.at050', 'cam.intake.table']],
  ['exhaust duration at 0.050 in', duration('exhaust'), ['cam.exhaust.at050', 'cam.exhaust.table']],
  [
    'separation',
    ({ intake, exhaust }) => (intake.centreline + exhaust.centreline) / 2,
    ['cam.separation', 'cam.exhaust.centreline'],
  ],
  ['intake rocker ratio', ({ intake }) => intake.rockerRatio, ['valvetrain.intakeRatio']],
  ['exhaust rocker ratio', ({ exhaust }) => exhaust.rockerRatio, ['valvetrain.exhaustRatio']],
  [
    'inside of the header tube',
    ({ exhaustSystem }) => Math.sqrt((4 / Math.PI) * exhaustSystem.primary.area),
    ['exhaust.primary.diameter', 'exhaust.primary.inside'],
  ],
];

/** Quantities that the engine as read no longer has by themselves. */
const WRITTEN: readonly (readonly [what: string, field: string, dimension: Dimension])[] = [
  ['chamber', 'chamber.volume', 'volume'],
  ['outside of the header tube', 'exhaust.primary.diameter', 'length'],
  ['carburetor rating', 'induction.carburetor.rating', 'flow'],
];

function duration(side: 'intake' | 'exhaust'): Value {
  return (combination) =>
    camSideFigures(combination[side], side, combination.friction.valvetrain).at050?.durationDeg;
}

/** The stated figures of a combination file; a lobe table states its duration. */
export function statedFigures(text: string, sheet?: (name: string) => string | undefined): Figure[] {
  const read = readDocument(text);
  const resolved = read.ok ? resolveDocument(read.value, { sheet }) : read;
  if (!read.ok || !resolved.ok) throw new Error(`not a combination: ${text.slice(0, 200)}`);
  const { data } = read.value;
  const states = (field: string): boolean => valueAt(data, field) !== undefined;
  const figures = FIGURES.filter(([, , fields]) => fields.some(states)).map(([what, value]) => ({
    what,
    value: value(resolved.value) ?? Number.NaN,
  }));
  const written = WRITTEN.filter(([, field]) => states(field)).map(([what, field, dimension]) => ({
    what,
    value: si(valueAt(data, field), dimension),
  }));
  return [...figures, ...written];
}

export function si(quantity: Plain | undefined, dimension: Dimension): number {
  const parsed = parseQuantity(String(quantity), dimension);
  if (!parsed.ok) throw new Error(`not a quantity: ${String(quantity)}`);
  return parsed.value.kept;
}

/** The kind of figure, on whichever side it stands: a rocker ratio is one on either. */
export function kindOf(what: string): string {
  return what.replace(/^(intake|exhaust|inside of the|outside of the) /, '');
}
