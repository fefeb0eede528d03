/** The size of values that scatter about nothing. */

/** Root of the mean of the squares, in the unit of the values; 0 where there are none. */
export function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / Math.max(1, values.length));
}
