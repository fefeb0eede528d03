/** A baseline, with or without changes, as it would be if the unknowns were off. */
import { eachScaled, eachSum } from '../base/quantityArithmetic.ts';
import { applyChanges } from '../changes/applyChanges.ts';
import { assignedValues } from '../changes/assignedValues.ts';
import { type Baseline, sheetsOf } from '../changes/baseline.ts';
import type { Change, FieldEdit } from '../changes/change.ts';
import { currentValue } from '../changes/currentValue.ts';
import type { Assumed, Combination } from '../combination/combination.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import { editDocument } from '../reading/editDocument.ts';
import { isWithin } from '../reading/fields/isWithin.ts';
import { resolveDocument } from '../reading/resolveDocument.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { FieldError } from './measuringErrors.ts';
import type { Unknown } from './unknown.ts';

/** An unknown and how far off it is [standard deviations]. */
export interface Offset {
  readonly unknown: Unknown;
  readonly z: number;
}

/**
 * The baseline with `changes` applied and the unknowns off by `offsets`; null where that can't be built, a throat larger
 * than its valve say. Unknowns of parts that none of the changes brings do nothing.
 *
 * The unknowns of the baseline move its file first, so that a change that sets a field is certain of it, and one that
 * scales or adds starts from what the field really is.
 */
export function perturbed(
  baseline: Baseline,
  changes: readonly Change[],
  offsets: readonly Offset[],
  sheet: SheetSource | undefined,
): Combination | null {
  const moved = movedBaseline(baseline, changes, offsets, sheet);
  if (moved === null) return null;
  if (changes.length === 0) return moved.combination;
  const altered = changes.map((change) => movedChange(moved, change, offsets, sheet));
  if (altered.includes(null)) return null;
  const result = applyChanges(
    moved,
    altered.filter((change) => change !== null),
    { sheet, effectless: 'allow' },
  );
  return result.ok ? result.value : null;
}

function movedBaseline(
  baseline: Baseline,
  changes: readonly Change[],
  offsets: readonly Offset[],
  sheet: SheetSource | undefined,
): Baseline | null {
  let { document } = baseline;
  for (const { unknown, z } of offsets) {
    if (changes.some(({ name }) => unknown.replacedBy.includes(name))) continue;
    for (const field of unknown.fields) {
      const start = valueAt(document.data, field.path) ?? field.silent ?? currentValue(baseline, field.path);
      const value = shifted(start, field, z);
      if (value === null) return null;
      document = editDocument(document, field.path, value);
    }
  }
  if (document === baseline.document) return baseline;
  const resolved = resolveDocument(document, {
    sheet: sheetsOf(baseline.sheets, sheet),
    written: baseline.stated,
  });
  if (!resolved.ok) return null;
  const { assumed, warnings } = baseline.combination;
  return { ...baseline, document, combination: { ...resolved.value, assumed, warnings } };
}

function movedChange(
  baseline: Baseline,
  change: Change,
  offsets: readonly Offset[],
  sheet: SheetSource | undefined,
): Change | null {
  let moved = change;
  for (const { unknown, z } of offsets) {
    for (const field of unknown.within[change.name] ?? []) {
      const next = movedField(baseline, moved, field, z, sheet);
      if (next === null) return null;
      moved = next;
    }
  }
  return moved;
}

/** The change with one of its fields, or one it leaves to an estimate, off by z. */
function movedField(
  baseline: Baseline,
  change: Change,
  field: FieldError,
  z: number,
  sheet: SheetSource | undefined,
): Change | null {
  const { path } = field;
  const values = assignedValues(baseline, [change], []);
  const whole = [...values].find(([edited]) => isWithin(path, edited));
  const start = whole === undefined ? undefined : within(whole[1], whole[0], path);
  const value = shifted(start ?? untouched(baseline, change, field, whole, sheet), field, z);
  if (value === null) return null;
  const others = change.edits.filter(({ path: edited }) => edited !== (whole?.[0] ?? path));
  if (whole === undefined)
    return {
      ...change,
      edits: [...others, ...newBeside(baseline, change, path, sheet), { kind: 'set', path, value }],
    };
  const moved = whole[0] === path ? value : replaced(whole[1], path.slice(whole[0].length + 1), value);
  return { ...change, edits: [...others, { kind: 'set', path: whole[0], value: moved }] };
}

/**
 * The other estimates of a part that the change alone brings, which the baseline has as a word or not at all: the discharge of an opening
 * is of no use in a file without the opening.
 */
function newBeside(
  baseline: Baseline,
  change: Change,
  path: string,
  sheet: SheetSource | undefined,
): readonly FieldEdit[] {
  const section = parentOf(path);
  const before = valueAt(baseline.document.data, section);
  if (before !== null && typeof before === 'object') return [];
  return estimatesIn(baseline, change, sheet)
    .filter((entry) => entry.path !== path && parentOf(entry.path) === section)
    .map((entry) => ({ kind: 'set', path: entry.path, value: written(entry) }));
}

const parentOf = (path: string): string => path.slice(0, path.lastIndexOf('.'));

/** What a field holds that the change says nothing of: other errors may have moved it already, a bench say all its sheets. */
function untouched(
  baseline: Baseline,
  change: Change,
  { path, silent }: FieldError,
  whole: readonly [string, Plain | null] | undefined,
  sheet: SheetSource | undefined,
): Plain | undefined {
  if (silent === null) return estimateIn(baseline, change, path, sheet);
  // What a change sets whole brings nothing of the baseline's along.
  return (whole === undefined ? valueAt(baseline.document.data, path) : undefined) ?? silent;
}

/** What stands in a field that the change does not name: an estimate made for it, or what the baseline has. */
function estimateIn(
  baseline: Baseline,
  change: Change,
  path: string,
  sheet: SheetSource | undefined,
): Plain | undefined {
  const entry = estimatesIn(baseline, change, sheet).find((assumed) => assumed.path === path);
  return entry === undefined ? currentValue(baseline, path) : written(entry);
}

function estimatesIn(baseline: Baseline, change: Change, sheet: SheetSource | undefined): readonly Assumed[] {
  const result = applyChanges(baseline, [change], { sheet, effectless: 'allow' });
  return result.ok ? result.value.assumed : [];
}

function written({ value, unit }: Assumed): Plain {
  return unit === '' ? value : `${value} ${unit}`;
}

function within(value: Plain, at: string, path: string): Plain | undefined {
  return path === at ? value : valueAt(value, path.slice(at.length + 1));
}

function replaced(value: Plain, path: string, by: Plain): Plain {
  const document = { file: '', data: { whole: value }, positions: {} };
  return editDocument(document, `whole.${path}`, by).data['whole'] ?? by;
}

function shifted(start: Plain | undefined, { by, sigma, unit }: FieldError, z: number): Plain | null {
  if (start === undefined || start === null) return null;
  const amount = sigma * z;
  const result =
    by === 'scale'
      ? eachScaled(start, 1 + amount)
      : eachSum(start, unit === '' ? amount : `${amount} ${unit}`);
  return result.ok ? result.value : null;
}
