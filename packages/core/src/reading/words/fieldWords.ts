/** Words for a field of the combination file. */
import type { CombinationFile } from '../schema/combinationFile.ts';
import type { PathsWithin } from '../schema/fieldPath.ts';

/**
 * What it is, in one or two sentences, to which the range it may lie in is added; then what may stand there, where the form does not say
 * it (a word of a list, yes or no).
 */
export type FieldWords = readonly [means: string, ...examples: readonly unknown[]];

/** Every field that has words: one without them, or words without a field, doesn't compile. */
export type DescribedPath = PathsWithin<CombinationFile, 'looked into'> | '$schema';

/** Words for every field of some sections. */
export type WordsOf<Section extends keyof CombinationFile> = Readonly<
  Record<Extract<DescribedPath, Section | `${Section}.${string}`>, FieldWords>
>;
