/** Changes of which the model holds a part alone: a gain of nothing then says nothing. */
import { inherited } from '../reading/fields/fieldTable.ts';
import type { Change } from './change.ts';

/** What the forecast leaves out of the change, for people; null where one of its edits is held whole. */
export function leftOutOfModel({ edits }: Pick<Change, 'edits'>): string | null {
  const found = edits.map(({ path }) => inherited(path, 'leftOut'));
  return found.every((text) => text !== undefined) ? (found[0] ?? null) : null;
}
