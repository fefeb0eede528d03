/** Several dyno sheets of one state of an engine as one. */
import { DomainError } from '../base/errors.ts';
import type { DynoSheet } from './dynoSheet.ts';
import type { Pull } from './readPull.ts';
import { recorrectSheet } from './recorrectSheet.ts';

/**
 * All pulls of the sheets under the standard of the first. A pull is called by its sheet and its name where there are
 * several sheets.
 *
 * @throws {@link DomainError} without sheets, or where one can't be taken to the first's standard
 *
 * @example
 * ```ts
 * const both = mergeSheets([sheet, sheet]);
 * ```
 */
export function mergeSheets(sheets: readonly DynoSheet[]): DynoSheet {
  const [first, ...others] = sheets;
  if (first === undefined) throw new DomainError('sheets', 0, 'one dyno sheet or more');
  if (others.length === 0) return first;
  const same = sheets.map((sheet) => recorrectSheet(sheet, first.standard).sheet);
  const named = ({ name, pulls }: DynoSheet): Pull[] =>
    pulls.map((pull) => ({ ...pull, name: `${name} ${pull.name}` }));
  const merged = {
    ...first,
    name: sheets.map((sheet) => sheet.name).join(' + '),
    pulls: same.flatMap(named),
    ignored: [...new Set(same.flatMap((sheet) => sheet.ignored))],
    notes: [...new Set(same.flatMap((sheet) => sheet.notes))],
  };
  return same.some(({ atWheels }) => atWheels) ? { ...merged, atWheels: true } : merged;
}
