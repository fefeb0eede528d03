/** A name that stands without a value between commas: `{ compression: 9,5 }` is a field of 9 and a field named 5. */

import { isScalar, type Pair } from 'yaml';
import type { Plain } from '../combinationDocument.ts';
import { shortName } from './shortName.ts';
import type { Complaint } from './walk.ts';

/** What is wrong, and the field that was probably meant. */
export interface BareName {
  readonly complaint: Complaint;
  /** The field before with its decimals; null where there is none to be seen. */
  readonly mended: { readonly name: string; readonly value: Plain } | null;
}

/** What a name without a value may have been: the digits behind a decimal comma, or a slip. */
export function bareName(items: readonly Pair[], index: number): BareName {
  const written = writtenOf(items[index].key);
  const before = index > 0 ? items[index - 1] : null;
  const whole = writtenOf(before?.value);
  if (before !== null && isScalar(before.key) && /^[+-]?\d+$/u.test(whole) && /^\d/u.test(written)) {
    const meant = `${whole}.${written}`;
    const message = `has a decimal comma in '${shortName(`${whole},${written}`)}'`;
    return {
      complaint: ['decimal-comma', message, `write ${shortName(meant)}`],
      mended: {
        name: String(before.key.value),
        value: Number.isFinite(Number(meant)) ? Number(meant) : meant,
      },
    };
  }
  const message = `has no value: '${shortName(written)}' stands alone between commas`;
  return {
    complaint: ['value-missing', message, 'write its value behind a colon, or take it out'],
    mended: null,
  };
}

/** A scalar letter for letter; nothing for whatever is none. */
function writtenOf(node: unknown): string {
  return isScalar(node) ? (node.source ?? String(node.value)) : '';
}
