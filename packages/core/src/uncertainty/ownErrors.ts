/** What a change does to errors: those of its own parts, those it carries on, and those of the parts it replaces. */

import type { Baseline } from '../changes/baseline.ts';
import { entailed } from '../changes/entailed.ts';
import type { Assumed, Combination } from '../combination/combination.ts';
import { otherBench } from '../combination/otherBench.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import { areNested, isWithin, sectionOf } from '../reading/fields/isWithin.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { AppliedChange } from './appliedChange.ts';
import {
  type FieldError,
  MEASURED_COMPRESSION,
  type MeasuringError,
  measuringErrors,
  ofBench,
  type Stated,
} from './measuringErrors.ts';
import { errorFacts, estimateUnknown, isUncertain, statedIn, type Unknown } from './unknown.ts';

/** What one change does to the errors of the baseline, and the unknowns it brings. */
export interface OwnErrors {
  /** Its name. */
  readonly change: string;
  /** Errors of the baseline that a value of the change carries on, by the id of the error or the path of the estimate. */
  readonly carried: ReadonlyMap<string, readonly FieldError[]>;
  /** Errors of the baseline whose part is gone, by id. */
  readonly replaced: ReadonlySet<string>;
  readonly unknowns: readonly Unknown[];
}

/**
 * @param errors - those of the baseline
 * @param isRemade - whether the change has a field estimated anew
 */
export function ownErrors(
  baseline: Baseline,
  applied: AppliedChange,
  errors: readonly MeasuringError[],
  isRemade: (path: string) => boolean,
): OwnErrors {
  const measured = ownMeasured(baseline, applied, errors);
  const estimated = ownEstimates(baseline, applied, isRemade);
  return {
    change: applied.change.name,
    carried: new Map([...measured.carried, ...estimated.carried]),
    replaced: measured.replaced,
    unknowns: [...measured.unknowns, ...estimated.unknowns],
  };
}

/** Errors of measuring, by what the engine states with the change. */
function ownMeasured(
  baseline: Baseline,
  { change, combination, values }: AppliedChange,
  errors: readonly MeasuringError[],
): Omit<OwnErrors, 'change'> {
  const edited = [...values.keys()];
  const touches = (path: string): boolean => edited.some((field) => areNested(field, path));
  const sets = (path: string): boolean =>
    change.edits.some((edit) => edit.kind === 'set' && isWithin(path, edit.path));
  const isOtherBench = otherBench(baseline.combination, combination) !== null;
  const bringsPart = (error: MeasuringError): boolean =>
    error.part.some(touches) || (isOtherBench && ofBench(error));
  const carried = new Map<string, readonly FieldError[]>();
  const replaced = new Set<string>(errors.filter(bringsPart).map(({ id }) => id));
  const unknowns: Unknown[] = [];
  const now = statedAfter(baseline, combination, values);
  for (const error of measuringErrors(now, combination, isOtherBench ? 'other' : 'fitted')) {
    const before = errors.find(({ id }) => id === error.id);
    if (before === undefined || bringsPart(error)) {
      if (before !== undefined) replaced.add(error.id);
      const id = `${error.id} of ${change.name}`;
      const within = { [change.name]: error.fields };
      unknowns.push({ ...errorFacts(error, id, change.name), fields: [], within, replacedBy: [] });
    } else if (error.part.length === 0) {
      // What scales or adds starts from the shifted value anyway.
      const fields = error.fields.filter(({ path }) => sets(path));
      if (fields.length > 0) carried.set(error.id, fields.map(carriedFrom(before)));
    }
  }
  return { carried, replaced, unknowns };
}

/** Estimates that the change has made anew, or that stand in for what it brings. */
function ownEstimates(
  baseline: Baseline,
  { change, combination, values }: AppliedChange,
  isRemade: (path: string) => boolean,
): Pick<OwnErrors, 'carried' | 'unknowns'> {
  const sections = new Set([...values.keys()].map(sectionOf));
  const old = new Map(baseline.combination.assumed.map((entry) => [entry.path, entry]));
  const carried = new Map<string, readonly FieldError[]>();
  const unknowns: Unknown[] = [];
  for (const entry of combination.assumed) {
    const remade = isRemade(entry.path);
    if (!isUncertain(entry) || (isSame(old.get(entry.path), entry) && !remade)) continue;
    const unknown = estimateUnknown({ ...entry, spread: entry.spread ?? 0 }, entry.reason, change.name);
    // Of another part it errs anew, though it comes to the same figure: of a part that stays, such as the manifold under another fuel, as before.
    const stays = remade && old.has(entry.path) && !sections.has(sectionOf(entry.path));
    if (stays) carried.set(entry.path, unknown.within[change.name]);
    else unknowns.push(unknown);
  }
  return { carried, unknowns };
}

/** What was measured stays known as well as it was, said in the field the change uses. */
function carriedFrom({ fields }: MeasuringError): (field: FieldError) => FieldError {
  const isOfVolumes = fields.some(({ path }) => path === 'chamber.volume');
  return (field) => {
    const same = fields.find(({ path }) => path === field.path);
    if (same !== undefined) return same;
    return field.path === 'chamber.compression' && isOfVolumes
      ? { ...field, sigma: MEASURED_COMPRESSION }
      : field;
  };
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
