/** Changes of which the model holds a part alone: a gain of nothing then says nothing. */
import type { Change } from './change.ts';
import { isWithin } from './entailed.ts';

/** Fields, and what the model leaves out of a change that touches nothing else. */
const HELD_IN_PART: readonly (readonly [path: string, leftOut: string])[] = [
  [
    'induction.plenum',
    'of a spacer or a larger plenum the forecast holds the volume, not how air and fuel turn into the runners',
  ],
  ['chamber.crevice', 'of a crevice the forecast holds the volume, not the fuel that hides in it'],
  [
    'induction.carburetor.count',
    'of more carburetors the forecast holds the flow area, not how evenly they feed the cylinders',
  ],
];

/** What the forecast leaves out of the change, for people; null where one of its edits is held whole. */
export function leftOutOfModel({ edits }: Pick<Change, 'edits'>): string | null {
  const found = edits.map(({ path }) => HELD_IN_PART.find(([field]) => isWithin(path, field)));
  return found.every((entry) => entry !== undefined) ? (found[0]?.[1] ?? null) : null;
}
