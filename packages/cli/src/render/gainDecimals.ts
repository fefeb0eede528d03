/** How many decimals of a gain in percent say something. */

/** Below this spread a second decimal does [%]. */
const FINE = 0.1;

/** Decimals of a column of gains and their spreads [%]: no more than the surest of them carries. */
export function gainDecimals(gains: readonly { readonly sigmaPct: number | null }[]): number {
  return gains.some(({ sigmaPct }) => sigmaPct !== null && sigmaPct < FINE) ? 2 : 1;
}
