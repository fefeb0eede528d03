/** Words for a field of the combination file. */
import type { BySpeed } from '../../combination/combination.ts';
import type { CombinationFile } from '../schema/combinationFile.ts';

/**
 * What it is, in one or two sentences, to which the range it may lie in is added; then what may stand there, where the form does not say
 * it (a word of a list, yes or no).
 */
export type FieldWords = readonly [means: string, ...examples: readonly unknown[]];

/** Paths within a section, dots between the names; a list has those of what is in it. */
type PathsWithin<Section, Above extends string> = Section extends
  | BySpeed
  | string
  | number
  | boolean
  | null
  | undefined
  ? never
  : Section extends readonly (infer Item)[]
    ? PathsWithin<Item, Above>
    : {
        [Name in keyof Section & string]-?:
          | `${Above}${Name}`
          | PathsWithin<Section[Name], `${Above}${Name}.`>;
      }[keyof Section & string];

/** Every field that has words: one without them, or words without a field, doesn't compile. */
export type DescribedPath = PathsWithin<CombinationFile, ''> | '$schema';

/** Words for every field of some sections. */
export type WordsOf<Section extends keyof CombinationFile> = Readonly<
  Record<Extract<DescribedPath, Section | `${Section}.${string}`>, FieldWords>
>;
