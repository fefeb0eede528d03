/** What a field has before any change. */

import type { Plain } from '../reading/combinationDocument.ts';
import { FIELDS, isField } from '../reading/fields/fieldTable.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { Baseline } from './baseline.ts';

/** What a field has before any change, as it would stand in a file: stated, assumed or following from others. */
export function currentValue(baseline: Baseline, path: string): Plain | undefined {
  const assumed = baseline.combination.assumed.find((entry) => entry.path === path);
  return (
    valueAt(baseline.document.data, path) ??
    valueAt(baseline.stated.data, path) ??
    (assumed === undefined ? undefined : `${assumed.value} ${assumed.unit}`) ??
    (isField(path) ? FIELDS[path].follows?.(baseline.combination) : undefined)
  );
}
