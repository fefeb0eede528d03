/** Areas along a pipe: points with straight lines between them, cut into cells. */
import { DomainError } from '../base/errors.ts';

/** Distances from the left end [m], rising from 0 to the duct's length, and the area there [m2]; linear between. */
export type DuctProfile = readonly { readonly x: number; readonly area: number }[];

/** A profile cut into cells of equal length. */
export interface DuctCells {
  /** Length of a cell [m]. */
  readonly dx: number;
  /** Areas at the cells' faces [m2], one more than cells. */
  readonly faceArea: Float64Array;
  /** [m3] */
  readonly volume: Float64Array;
  /** Mean area of each cell [m2]. */
  readonly cellArea: Float64Array;
  readonly perVolume: Float64Array;
  /** [m2] */
  readonly wallArea: Float64Array;
}

/** @throws {@link DomainError} where cells, lengths or areas are not positive or the profile does not rise from 0 */
export function cutProfile(profile: DuctProfile, cells: number): DuctCells {
  if (!(Number.isInteger(cells) && cells > 0))
    throw new DomainError('cells', cells, 'a positive whole number');
  if (!(profile.length >= 2 && profile[0].x === 0))
    throw new DomainError('profile', profile.length, 'two points or more, from x = 0');
  for (let i = 0; i < profile.length; i++) {
    if (!(profile[i].area > 0)) throw new DomainError(`profile[${i}].area`, profile[i].area, 'positive m2');
    if (i > 0 && !(profile[i].x > profile[i - 1].x))
      throw new DomainError(`profile[${i}].x`, profile[i].x, 'rising m');
  }
  const dx = profile[profile.length - 1].x / cells;
  const overCells = (f: (area: number) => number) =>
    Float64Array.from({ length: cells }, (_, i) => integrate(profile, i * dx, (i + 1) * dx, f));
  const volume = overCells((a) => a);
  return {
    dx,
    faceArea: Float64Array.from({ length: cells + 1 }, (_, i) => areaAt(profile, i * dx)),
    volume,
    cellArea: volume.map((v) => v / dx),
    perVolume: volume.map((v) => 1 / v),
    wallArea: overCells((a) => 2 * Math.sqrt(Math.PI * a)),
  };
}

/** Area at x on a piecewise linear profile [m2]. */
function areaAt(profile: DuctProfile, x: number): number {
  for (let i = 1; i < profile.length; i++) {
    const a = profile[i - 1];
    const b = profile[i];
    if (x <= b.x || i === profile.length - 1) return a.area + ((b.area - a.area) * (x - a.x)) / (b.x - a.x);
  }
  return profile[0].area;
}

/** Integral of f(area) between two x, split at the profile's corners (Simpson's rule between them). */
function integrate(profile: DuctProfile, from: number, to: number, f: (area: number) => number): number {
  const corners = [from, ...profile.map((q) => q.x).filter((x) => x > from && x < to), to];
  let sum = 0;
  for (let i = 1; i < corners.length; i++) {
    const [a, b] = [corners[i - 1], corners[i]];
    sum +=
      ((b - a) / 6) * (f(areaAt(profile, a)) + 4 * f(areaAt(profile, (a + b) / 2)) + f(areaAt(profile, b)));
  }
  return sum;
}
