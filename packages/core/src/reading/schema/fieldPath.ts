/** The path of a field of the combination file, as a type: a misspelt one doesn't compile. */
import type { BySpeed } from '../../combination/combination.ts';
import type { CombinationFile } from './combinationFile.ts';

/**
 * Paths within a section, dots between the names. A value by speed counts as one field; so does a list, or there are those of what is in
 * it.
 */
export type PathsWithin<
  Section,
  Lists extends 'whole' | 'looked into',
  Above extends string = '',
> = Section extends BySpeed | string | number | boolean | null | undefined
  ? never
  : Section extends readonly (infer Item)[]
    ? Lists extends 'whole'
      ? never
      : PathsWithin<Item, Lists, Above>
    : {
        [Name in keyof Section & string]-?:
          | `${Above}${Name}`
          | PathsWithin<Section[Name], Lists, `${Above}${Name}.`>;
      }[keyof Section & string];

/** A field of the combination file, or a section of them: `cam.intake.centreline`. */
export type FieldPath = PathsWithin<CombinationFile, 'whole'>;

/** The sections that are a round tube. */
export type PipePath =
  | 'exhaust.primary'
  | 'exhaust.secondary'
  | 'exhaust.collector'
  | 'exhaust.balance'
  | 'exhaust.box.pipe';

/** A field, or something in the list that a field is: `exhaust.primary.steps.0.after`. */
export type FieldPlace = FieldPath | `${FieldPath}.${number}` | `${FieldPath}.${number}.${string}`;
