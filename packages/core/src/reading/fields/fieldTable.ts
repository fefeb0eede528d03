/**
 * Every field of the combination file with what is known of it beside its schema and its default: what it entails, how wrong it may be,
 * what settles it, how far the engine comes apart for it. A field without a row doesn't compile.
 */
import type { FieldPath } from '../schema/fieldPath.ts';
import { CAM_FIELDS, VALVETRAIN_FIELDS } from './camFields.ts';
import { CHAMBER_FIELDS, ENGINE_FIELDS } from './engineFields.ts';
import { EXHAUST_FIELDS } from './exhaustFields.ts';
import type { FieldFacts } from './fieldFacts.ts';
import { HEADS_FIELDS } from './headsFields.ts';
import { INDUCTION_FIELDS } from './inductionFields.ts';
import { RUNNING_FIELDS } from './runningFields.ts';

export const FIELDS: Readonly<Record<FieldPath, FieldFacts>> = {
  ...ENGINE_FIELDS,
  ...CHAMBER_FIELDS,
  ...HEADS_FIELDS,
  ...CAM_FIELDS,
  ...VALVETRAIN_FIELDS,
  ...INDUCTION_FIELDS,
  ...EXHAUST_FIELDS,
  ...RUNNING_FIELDS,
};

/** Every row, in the order of the file's sections. */
export const FIELD_ROWS: readonly (readonly [path: FieldPath, facts: FieldFacts])[] = Object.entries(
  FIELDS,
) as [FieldPath, FieldFacts][];

/** Whether such a field is in the table; a name of an entry of a list is not. */
export function isField(path: string): path is FieldPath {
  return Object.hasOwn(FIELDS, path);
}

/** A fact of a field, or of the nearest that it lies in and that has one; undefined where none has, or the path is none. */
export function inherited<Fact extends keyof FieldFacts>(
  path: string,
  fact: Fact,
): FieldFacts[Fact] | undefined {
  for (let at = path; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('.')))) {
    const found = isField(at) ? FIELDS[at][fact] : undefined;
    if (found !== undefined) return found;
  }
  return undefined;
}
