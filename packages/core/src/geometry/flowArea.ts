/** Effective flow area of a valve against its lift, from the points of a sheet. */
import { DomainError } from '../base/errors.ts';
import { monotoneCubic } from '../numerics/interpolate.ts';

/** Points of a sheet: effective area [m2] of all valves of one side together against lift [m], rising above 0. */
export interface FlowPoints {
  readonly lift: readonly number[];
  readonly area: readonly number[];
}

/**
 * Effective area [m2] as a function of lift [m].
 *
 * In proportion to lift below the first point (constant coefficient on the curtain), a monotone cubic between the
 * points, held above the last: a sheet says nothing about lift beyond it.
 *
 * @throws {@link DomainError} naming the first entry out of order
 */
export function flowArea(points: FlowPoints): (lift: number) => number {
  const { lift, area } = points;
  if (!(lift.length > 0)) throw new DomainError('lift', lift.length, 'at least one point');
  if (area.length !== lift.length) {
    throw new DomainError('area', area.length, `as many entries as lift, ${lift.length}`);
  }
  lift.forEach((at, i) => {
    const before = i > 0 ? lift[i - 1] : 0;
    if (!(at > before && Number.isFinite(at))) throw new DomainError(`lift[${i}]`, at, `above ${before} m`);
    if (!(area[i] > 0 && Number.isFinite(area[i])))
      throw new DomainError(`area[${i}]`, area[i], 'positive m2');
  });
  const curve = monotoneCubic([0, ...lift], [0, ...area]);
  const first = lift[0];
  const slope = area[0] / first;
  return (at) => (at <= 0 ? 0 : at < first ? slope * at : curve.valueAt(at));
}
