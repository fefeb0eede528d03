/** Changes of which the model holds a part alone: a gain of nothing then says nothing. */
import { inherited } from '../reading/fields/fieldTable.ts';
import type { Change } from './change.ts';

/** A gain as small as this is none, alone or beside what else is fitted [%]. */
export const LEAST_GAIN_PCT = 0.1;

/** What the forecast leaves out of the change, for people; null where one of its edits is held whole. */
export function leftOutOfModel({ edits }: Pick<Change, 'edits'>): string | null {
  const found = edits.map(({ path }) => inherited(path, 'leftOut'));
  return found.every((text) => text !== undefined) ? (found[0] ?? null) : null;
}
