/** An unknown by itself: what moves when it is off, and how it is told. */

import type { Baseline } from '../changes/baseline.ts';
import type { Assumed } from '../combination/combination.ts';
import { FIELDS, isField } from '../reading/fields/fieldTable.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { FieldError, MeasuringError, Stated } from './measuringErrors.ts';

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

/** In a study other estimates are pinned, and what only sizes them does nothing any more; what measured figures are read by never did. */
const isIdle = (path: string): boolean =>
  isField(path) && (FIELDS[path].estimate === 'sizes-them' || FIELDS[path].estimate === 'of-measuring');

/** Whether an estimate is a number with a spread that moves something. */
export function isUncertain({ path, value, spread }: Assumed): boolean {
  return typeof value === 'number' && spread !== null && spread > 0 && !isIdle(path);
}

/** What the file of a baseline states, its estimates left out. */
export function statedIn(baseline: Baseline, assumed: readonly Assumed[]): Stated {
  const estimates = new Set(assumed.map(({ path }) => path));
  return (path) => (estimates.has(path) ? undefined : (valueAt(baseline.document.data, path) ?? undefined));
}

/** @param of - the change whose part the estimate is of; null: the baseline's */
export function estimateUnknown(
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

/** What is told of an error of measuring. */
export function errorFacts(
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
