/** The mean of some values. */

/** Sum over count, in the unit of the values; not a number where there are none. */
export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
