/** Where a number begins at nothing and will have decimals. */

/**
 * Zero [-] as a number with decimals from the beginning. An engine that runs JavaScript takes a field that holds 0 for one of whole
 * numbers, and has to compile all that reads it anew once it holds others; of the two zeros this one is no whole number.
 */
export const ZERO = -0;
