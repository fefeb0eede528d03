/** What isn't known of a baseline and of the parts that changes bring. */

import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import { entailed } from '../changes/entailed.ts';
import type { Assumed, Combination } from '../combination/combination.ts';
import { otherBench } from '../combination/otherBench.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import type { FieldFacts } from '../reading/fields/fieldFacts.ts';
import { FIELDS, isField } from '../reading/fields/fieldTable.ts';
import { areNested, isWithin } from '../reading/fields/isWithin.ts';
import { valueAt } from '../reading/valueAt.ts';
import {
  type FieldError,
  type MeasuringError,
  measuringErrors,
  ofBench,
  type Stated,
} from './measuringErrors.ts';
import type { Correlated } from './pairedDraws.ts';

/** Something not known exactly, with one standard deviation. Plain and serialisable. */
export interface Unknown {
  /** Its name among all unknowns; of a part that a change brings, with the change's name. */
  readonly id: string;
  /** Field of the file, the first where it moves several. */
  readonly path: string;
  /** One standard deviation, in `unit`, or in percent of the value where `unit` is `%`. */
  readonly sigma: number;
  readonly unit: string;
  readonly reason: string;
  /** The change whose part it belongs to; null: the baseline's, shared by every candidate that keeps the part. */
  readonly of: string | null;
  /** What moves in the baseline's file; empty where it belongs to a change. */
  readonly fields: readonly FieldError[];
  /** What moves in a change itself, by its name: the error of its new part, or one of the bench that goes along. */
  readonly within: Readonly<Record<string, readonly FieldError[]>>;
  /** Changes that replace the part, so that its error is gone. */
  readonly replacedBy: readonly string[];
}

/** All of it. */
export interface Unknowns {
  readonly all: readonly Unknown[];
  /** The knobs of a calibration; null where there is none. */
  readonly calibrated: Correlated | null;
}

/** A change with the combination it gives. */
export interface AppliedChange {
  readonly change: Change;
  readonly combination: Combination;
  /** Value of each field the change edits, as it would stand in a file. */
  readonly values: ReadonlyMap<string, Plain>;
}

/** Unknowns of the baseline, from what it assumes, what it was fitted with and what it states; and of each change's parts. */
export function unknownsOf(baseline: Baseline, applied: readonly AppliedChange[]): Unknowns {
  const { combination } = baseline;
  const stated = statedIn(baseline, combination.assumed);
  const knobs = combination.calibration?.knobs ?? [];
  const remade = remakers(baseline, applied);
  const fitted = knobs.map((knob) => estimateUnknown(knob, 'as the fit to dyno sheets left it', null));
  const fittedPaths = new Set(knobs.flatMap(({ path }) => [path, ...(takenIn(path)?.estimates ?? [])]));
  const errors = measuringErrors(stated, combination);
  const own = applied.map((one) =>
    ownErrors(baseline, one, errors, (path) => remade(path).includes(one.change.name)),
  );
  const assumed = combination.assumed
    .filter((entry) => isUncertain(entry) && !fittedPaths.has(entry.path))
    .map((entry) => {
      const unknown = estimateUnknown({ ...entry, spread: entry.spread ?? 0 }, entry.reason, null);
      const within = Object.fromEntries(
        own.flatMap(({ change, carried }) => {
          const fields = carried.get(entry.path);
          return fields === undefined ? [] : [[change, fields] as const];
        }),
      );
      const replacedBy = remade(entry.path).filter((name) => !Object.hasOwn(within, name));
      return { ...unknown, within, replacedBy };
    });
  // The errors stay those of the parts: a change that brings another carburetor brings another error.
  const taken = new Set<string>(knobs.flatMap(({ path }) => takenIn(path)?.errors ?? []));
  const measured = errors
    .filter(({ id }) => !taken.has(id))
    .map((error): Unknown => {
      const carried = own.flatMap(({ change, carried }) => {
        const fields = carried.get(error.id);
        return fields === undefined ? [] : [[change, fields] as const];
      });
      const replacedBy = own.filter(({ replaced }) => replaced.has(error.id)).map(({ change }) => change);
      return {
        ...describe(error, error.id, null),
        fields: error.fields,
        within: Object.fromEntries(carried),
        replacedBy,
      };
    });
  const all = [...fitted, ...assumed, ...measured, ...own.flatMap(({ unknowns }) => unknowns)];
  const correlation = combination.calibration?.correlation;
  return {
    all,
    calibrated: correlation === undefined ? null : { ids: knobs.map(({ path }) => path), correlation },
  };
}

const takenIn = (path: string): FieldFacts['fitTakesIn'] =>
  isField(path) ? FIELDS[path].fitTakesIn : undefined;

/** In a study other estimates are pinned, and what only sizes them does nothing any more; what measured figures are read by never did. */
const isIdle = (path: string): boolean =>
  isField(path) && (FIELDS[path].estimate === 'sizes-them' || FIELDS[path].estimate === 'of-measuring');

function isUncertain({ path, value, spread }: Assumed): boolean {
  return typeof value === 'number' && spread !== null && spread > 0 && !isIdle(path);
}

function statedIn(baseline: Baseline, assumed: readonly Assumed[]): Stated {
  const estimates = new Set(assumed.map(({ path }) => path));
  return (path) => (estimates.has(path) ? undefined : (valueAt(baseline.document.data, path) ?? undefined));
}

/** The changes that set a field, or a part with it, or have it estimated anew: moving it in the baseline does nothing to them. */
function remakers(
  baseline: Baseline,
  applied: readonly AppliedChange[],
): (path: string) => readonly string[] {
  const now = (path: string): Plain | undefined => valueAt(baseline.document.data, path);
  const gone = applied.map(({ change, values }) => {
    const set = change.edits.flatMap(({ kind, path }) => (kind === 'set' ? [path] : []));
    const { drops, releases } = entailed(values, baseline.combination, now);
    return { name: change.name, paths: [...set, ...drops, ...releases] };
  });
  return (path) =>
    gone.flatMap(({ name, paths }) => (paths.some((field) => isWithin(path, field)) ? [name] : []));
}

function estimateUnknown(
  entry: { readonly path: string; readonly unit: string; readonly spread: number },
  reason: string,
  of: string | null,
): Unknown {
  const { path, unit, spread } = entry;
  const field: FieldError = { path, by: 'add', sigma: spread, unit, silent: null };
  return {
    id: of === null ? path : `${path} of ${of}`,
    path,
    sigma: spread,
    unit,
    reason,
    of,
    fields: of === null ? [field] : [],
    within: of === null ? {} : { [of]: [field] },
    replacedBy: [],
  };
}

function describe(
  { fields, reason }: MeasuringError,
  id: string,
  of: string | null,
): Pick<Unknown, 'id' | 'path' | 'sigma' | 'unit' | 'reason' | 'of'> {
  const [{ path, by, sigma, unit }] = fields;
  return {
    id,
    path,
    sigma: by === 'scale' ? 100 * sigma : Math.abs(sigma),
    unit: by === 'scale' ? '%' : unit,
    reason,
    of,
  };
}

interface OwnErrors {
  readonly change: string;
  /** Errors of the baseline that a value of the change carries on, by id. */
  readonly carried: ReadonlyMap<string, readonly FieldError[]>;
  /** Errors of the baseline whose part is gone, by id. */
  readonly replaced: ReadonlySet<string>;
  readonly unknowns: readonly Unknown[];
}

function ownErrors(
  baseline: Baseline,
  { change, combination, values }: AppliedChange,
  errors: readonly MeasuringError[],
  isRemade: (path: string) => boolean,
): OwnErrors {
  const edited = [...values.keys()];
  const touches = (path: string): boolean => edited.some((field) => areNested(field, path));
  const sets = (path: string): boolean =>
    change.edits.some((edit) => edit.kind === 'set' && isWithin(path, edit.path));
  const now = statedAfter(baseline, combination, values);
  const carried = new Map<string, readonly FieldError[]>();
  const replaced = new Set<string>();
  const unknowns: Unknown[] = [];
  const moved = otherBench(baseline.combination, combination) !== null;
  const bringsPart = (error: MeasuringError): boolean =>
    error.part.some(touches) || (moved && ofBench(error));
  for (const error of measuringErrors(now, combination, moved ? 'other' : 'fitted')) {
    const before = errors.find(({ id }) => id === error.id);
    if (before !== undefined && error.part.length === 0 && !bringsPart(error)) {
      // What scales or adds starts from the shifted value anyway.
      const fields = error.fields.filter(({ path }) => sets(path));
      if (fields.length > 0)
        carried.set(
          error.id,
          fields.map((field) => carriedError(field, before)),
        );
    } else if (before === undefined || bringsPart(error)) {
      if (before !== undefined) replaced.add(error.id);
      const id = `${error.id} of ${change.name}`;
      unknowns.push({
        ...describe(error, id, change.name),
        fields: [],
        within: { [change.name]: error.fields },
        replacedBy: [],
      });
    }
  }
  for (const error of errors) if (bringsPart(error)) replaced.add(error.id);
  const old = new Map(baseline.combination.assumed.map((entry) => [entry.path, entry]));
  for (const entry of combination.assumed) {
    const remade = isRemade(entry.path);
    if (!isUncertain(entry) || (isSame(old.get(entry.path), entry) && !remade)) continue;
    const unknown = estimateUnknown({ ...entry, spread: entry.spread ?? 0 }, entry.reason, change.name);
    // Of another part it errs anew, though it comes to the same figure: of a part that stays, such as the manifold under another fuel, as before.
    const stays = remade && old.has(entry.path) && !edited.some((path) => isSameSection(path, entry.path));
    if (stays) carried.set(entry.path, unknown.within[change.name]);
    else unknowns.push(unknown);
  }
  return { change: change.name, carried, replaced, unknowns };
}

/** What was measured stays known as well as it was, said in the field the change uses. */
function carriedError(field: FieldError, before: MeasuringError): FieldError {
  const same = before.fields.find(({ path }) => path === field.path);
  if (same !== undefined) return same;
  const measured = before.fields.some(({ path }) => path === 'chamber.volume');
  return field.path === 'chamber.compression' && measured ? { ...field, sigma: field.sigma / 5 } : field;
}

function isSameSection(one: string, other: string): boolean {
  return one.split('.')[0] === other.split('.')[0];
}

function isSame(a: Assumed | undefined, b: Assumed): boolean {
  return a !== undefined && a.value === b.value && a.unit === b.unit;
}

/** What the baseline and the change state together. */
function statedAfter(
  baseline: Baseline,
  combination: Combination,
  values: ReadonlyMap<string, Plain>,
): Stated {
  const before = statedIn(baseline, combination.assumed);
  const { drops } = entailed(values, baseline.combination, (path) => valueAt(baseline.document.data, path));
  return (path) => {
    for (const [field, value] of values) {
      if (!isWithin(path, field)) continue;
      return path === field
        ? (value ?? undefined)
        : (valueAt(value, path.slice(field.length + 1)) ?? undefined);
    }
    return drops.some((field) => isWithin(path, field)) ? undefined : before(path);
  };
}
