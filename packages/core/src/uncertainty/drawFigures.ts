/** What many draws of one gain come to: how often they pass a limit or another gain. */

/** Share of the draws above a limit. */
export function shareAbove(values: Float64Array, limit: number): number {
  return values.reduce((count, value) => count + (value > limit ? 1 : 0), 0) / values.length;
}

/** Share of the draws in which one gain is the larger; a draw that ties counts half. */
export function chanceToBeat(one: Float64Array, other: Float64Array): number {
  const count = one.reduce((sum, value, i) => sum + (value > other[i] ? 1 : value === other[i] ? 0.5 : 0), 0);
  return count / one.length;
}
