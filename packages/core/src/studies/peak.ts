/** The top of a curve between its speeds. */

/**
 * Largest value of a curve [unit of the values]: of the parabola through the highest point and its neighbours, or the
 * highest point itself where it stands at an end.
 */
export function peakValue(points: readonly { readonly x: number; readonly y: number }[]): number {
  const top = points.reduce((best, { y }, i) => (y > points[best].y ? i : best), 0);
  const highest = points[top].y;
  if (top === 0 || top === points.length - 1) return highest;
  const [a, b, c] = points.slice(top - 1, top + 2);
  const rise = (b.y - a.y) / (b.x - a.x);
  const bend = ((c.y - b.y) / (c.x - b.x) - rise) / (c.x - a.x);
  if (!(bend < 0)) return highest;
  const x = (a.x + b.x) / 2 - rise / (2 * bend);
  return a.y + (x - a.x) * (rise + bend * (x - b.x));
}
