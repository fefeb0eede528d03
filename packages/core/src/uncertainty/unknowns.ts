/** What isn't known of a baseline and of the parts that changes bring. */

import type { Baseline } from '../changes/baseline.ts';
import { entailed } from '../changes/entailed.ts';
import type { Assumed } from '../combination/combination.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import type { FieldFacts } from '../reading/fields/fieldFacts.ts';
import { FIELDS, isField } from '../reading/fields/fieldTable.ts';
import { isWithin } from '../reading/fields/isWithin.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { AppliedChange } from './appliedChange.ts';
import { type MeasuringError, measuringErrors } from './measuringErrors.ts';
import { type OwnErrors, ownErrors } from './ownErrors.ts';
import type { Correlated } from './pairedDraws.ts';
import { errorFacts, estimateUnknown, isUncertain, statedIn, type Unknown } from './unknown.ts';

/** All of it. */
export interface Unknowns {
  readonly all: readonly Unknown[];
  /** The knobs of a calibration; null where there is none. */
  readonly calibrated: Correlated | null;
}

/** Unknowns of the baseline, from what it assumes, what it was fitted with and what it states; and of each change's parts. */
export function unknownsOf(baseline: Baseline, applied: readonly AppliedChange[]): Unknowns {
  const { combination } = baseline;
  const knobs = combination.calibration?.knobs ?? [];
  const remade = remakers(baseline, applied);
  const errors = measuringErrors(statedIn(baseline, combination.assumed), combination);
  const own = applied.map((one) =>
    ownErrors(baseline, one, errors, (path) => remade(path).includes(one.change.name)),
  );
  const fitted = knobs.map((knob) => estimateUnknown(knob, 'as the fit to dyno sheets left it', null));
  const fittedPaths = new Set(knobs.flatMap(({ path }) => [path, ...(takenIn(path)?.estimates ?? [])]));
  const open = combination.assumed.filter((entry) => isUncertain(entry) && !fittedPaths.has(entry.path));
  const taken = new Set<string>(knobs.flatMap(({ path }) => takenIn(path)?.errors ?? []));
  const untaken = errors.filter(({ id }) => !taken.has(id));
  const correlation = combination.calibration?.correlation;
  return {
    all: [
      ...fitted,
      ...open.map((entry) => assumedUnknown(entry, own, remade(entry.path))),
      ...untaken.map((error) => measuredUnknown(error, own)),
      ...own.flatMap(({ unknowns }) => unknowns),
    ],
    calibrated: correlation === undefined ? null : { ids: knobs.map(({ path }) => path), correlation },
  };
}

/** @param remade - changes that have it estimated anew */
function assumedUnknown(entry: Assumed, own: readonly OwnErrors[], remade: readonly string[]): Unknown {
  const within = carriedOn(own, entry.path);
  return {
    ...estimateUnknown({ ...entry, spread: entry.spread ?? 0 }, entry.reason, null),
    within,
    replacedBy: remade.filter((name) => !Object.hasOwn(within, name)),
  };
}

/** The errors stay those of the parts: a change that brings another carburetor brings another error. */
function measuredUnknown(error: MeasuringError, own: readonly OwnErrors[]): Unknown {
  return {
    ...errorFacts(error, error.id, null),
    fields: error.fields,
    within: carriedOn(own, error.id),
    replacedBy: own.flatMap(({ change, replaced }) => (replaced.has(error.id) ? [change] : [])),
  };
}

/** What moves in the changes that carry an error on, by their names. */
function carriedOn(own: readonly OwnErrors[], id: string): Unknown['within'] {
  return Object.fromEntries(
    own.flatMap(({ change, carried }) => {
      const fields = carried.get(id);
      return fields === undefined ? [] : [[change, fields] as const];
    }),
  );
}

const takenIn = (path: string): FieldFacts['fitTakesIn'] =>
  isField(path) ? FIELDS[path].fitTakesIn : undefined;

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
