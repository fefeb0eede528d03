/** Where a curve, or a list of values, is highest. */

/** A point of a curve. */
export interface CurvePoint {
  readonly x: number;
  readonly y: number;
}

/**
 * The top of the parabola through the highest point and its neighbours; the highest point itself where it stands at an
 * end, or where the three do not bend downward.
 */
export function topOf(points: readonly CurvePoint[]): CurvePoint {
  const at = points.reduce((best, { y }, i) => (y > points[best].y ? i : best), 0);
  if (at === 0 || at === points.length - 1) return points[at];
  const [a, b, c] = points.slice(at - 1, at + 2);
  const rise = (b.y - a.y) / (b.x - a.x);
  const bend = ((c.y - b.y) / (c.x - b.x) - rise) / (c.x - a.x);
  if (!(bend < 0)) return b;
  const x = (a.x + b.x) / 2 - rise / (2 * bend);
  return { x, y: a.y + (x - a.x) * (rise + bend * (x - b.x)) };
}

/**
 * Where the top of the parabola through three equally spaced values lies, in steps from the middle one; null where they do
 * not bend downward.
 */
export function topBetween(before: number, here: number, after: number): number | null {
  const bend = before - 2 * here + after;
  return bend < 0 ? (before - after) / (2 * bend) : null;
}

/** Place of the first of the highest values; null where there is none. */
export function indexOfHighest(values: readonly (number | null)[]): number | null {
  let best: number | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const [i, value] of values.entries()) {
    if (value === null || !(value > most)) continue;
    most = value;
    best = i;
  }
  return best;
}
