/** The best point of a swept grid, whether it lies at an edge, and how far one may go from it. */
import { splitNumber } from '../base/units.ts';
import { indexOfHighest } from '../numerics/topOf.ts';
import { percent } from './gain.ts';
import type { Flatness, SweepBest, SweepPoint, Variable } from './sweepResult.ts';

/** The best point that keeps the limits, and how flat it lies among its neighbours; null where there is none. */
export function bestOf(
  variables: readonly Variable[],
  points: readonly SweepPoint[],
  withinPct: number,
): SweepBest | null {
  const index = highestOf(points, isAllowed);
  if (index === null) return null;
  const { values, bandGainPct } = points[index];
  const ordered = variables.flatMap((variable, v) => (isOrdered(variable) ? [{ variable, v }] : []));
  const atEdge = ordered.filter(
    ({ variable: { values: tried }, v }) =>
      tried.length > 1 && (values[v] === tried[0] || values[v] === tried[tried.length - 1]),
  );
  return {
    index,
    values,
    bandGainPct,
    atEdge: atEdge.map(({ variable }) => variable.path),
    flatness: ordered.map(({ variable, v }) => flatness(variable, v, points, index, withinPct)),
  };
}

/** Words have no neighbours and no end beyond which more may lie. */
function isOrdered({ values }: Variable): boolean {
  return values.every((value) => typeof value === 'number' || splitNumber(value) !== null);
}

function isAllowed({ breaches }: SweepPoint): boolean {
  return breaches.length === 0;
}

/** Place of the first of those that count with the highest mean power. */
export function highestOf(
  points: readonly SweepPoint[],
  counts: (point: SweepPoint) => boolean,
): number | null {
  return indexOfHighest(points.map((point) => (counts(point) ? powerOf(point) : null)));
}

/** From the best point outward along one variable as long as the mean power stays close. */
function flatness(
  { path, values }: Variable,
  v: number,
  points: readonly SweepPoint[],
  best: number,
  withinPct: number,
): Flatness {
  const line = points.filter((point) =>
    point.values.every((value, i) => i === v || value === points[best].values[i]),
  );
  const at = line.indexOf(points[best]);
  const isClose = (point: SweepPoint | undefined): boolean =>
    point !== undefined && isAllowed(point) && lossPct(points[best], point) <= withinPct;
  let from = at;
  while (isClose(line[from - 1])) from -= 1;
  let to = at;
  while (isClose(line[to + 1])) to += 1;
  return { path, withinPct, from: values[from], to: values[to] };
}

/** Mean power over the band [kW]; null where there is none. */
function powerOf({ figures }: SweepPoint): number | null {
  return figures?.band.powerKw ?? null;
}

/** Mean power that a point has less than the best one [%]; without a figure, more than any. */
function lossPct(best: SweepPoint, point: SweepPoint): number {
  const [most, own] = [powerOf(best), powerOf(point)];
  return most === null || own === null ? Number.POSITIVE_INFINITY : -percent(most, own);
}
