/** How much is said. */

/** `quiet`: the answer line and no progress; `verbose`: every column. */
export type Detail = 'quiet' | 'normal' | 'verbose';
