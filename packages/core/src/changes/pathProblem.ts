/** Paths of a change that no combination file has. */

import type { MisspeltProblem, Problem } from '../combination/problem.ts';
import { isWithin } from '../reading/fields/isWithin.ts';
import { notForecast, notForecastMessage } from '../reading/notForecast.ts';
import { newFieldFor } from '../reading/oldNames.ts';
import { nearestPaths } from '../reading/schema/fieldPaths.ts';
import type { Change } from './change.ts';
import { sourceProblem } from './sourceProblem.ts';

/** Whether a combination file has such a field; one of an entry of a list is `burn.spark.0.advance`. */
export function isKnown(path: string, known: readonly string[]): boolean {
  const withoutNumbers = path.replaceAll(/\.\d+(?=\.|$)/gu, '');
  if (known.includes(path)) return true;
  return path !== withoutNumbers && known.some((field) => isWithin(withoutNumbers, field));
}

/** An unknown path with the nearest there are, or with what it is called now. */
export function pathProblem(
  change: Pick<Change, 'name' | 'source'>,
  path: string,
  known: readonly string[],
  value: unknown,
): Problem {
  const now = newFieldFor(path, value);
  if (now !== null) return misspeltPath(change, path, 'has another name now', `write ${now}`, null);
  const matter = notForecast(path);
  if (matter !== null) {
    const { message, hint } = notForecastMessage(matter);
    return misspeltPath(change, path, message, hint, null);
  }
  const near = nearestPaths(path, known);
  const hint = near.length === 0 ? 'valvetide schema lists the fields' : `did you mean ${near.join(' or ')}?`;
  return misspeltPath(change, path, 'is not a field of a combination', hint, near[0] ?? null);
}

function misspeltPath(
  change: Pick<Change, 'name' | 'source'>,
  path: string,
  message: string,
  hint: string,
  nearest: string | null,
): MisspeltProblem {
  return { ...sourceProblem(change, path, 'invalid', message, hint), code: 'unknown-path', nearest };
}
