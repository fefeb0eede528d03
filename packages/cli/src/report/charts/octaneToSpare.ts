/** How much more octane the fuel of each combination has than the engine asks for. */
import { fixed } from '../../render/fixed.ts';
import { figureCell } from '../../render/marched.ts';
import { signed } from '../../render/signed.ts';
import type { Column } from '../../render/table.ts';
import { type Figure, figureTable } from '../figure.ts';
import { highest, lineFor, type NamedCurve, SPEED_AXIS, seriesName } from './bySpeed.ts';

export interface FuelledCurve extends NamedCurve {
  /** Of the fuel at hand, (R + M) / 2. */
  readonly fuelOctane: number;
}

/** Least span that is drawn, octane numbers. */
const LEAST_SPAN = 5;

export function octaneToSpare(curves: readonly FuelledCurve[]): Figure {
  const { points } = curves[0].curve;
  const least = curves.flatMap(({ name, curve, fuelOctane }) => {
    const most = highest(curve, (p) => p.octaneRequired);
    return most === null
      ? []
      : [`${seriesName(name)} ${signed(fuelOctane - most.octaneRequired, 1)} at ${fixed(most.rpm)} rpm`];
  });
  const columns: Column<number>[] = [
    { name: 'speed', unit: 'rpm', cell: (i) => fixed(points[i].rpm) },
    ...curves.map(({ name, curve, fuelOctane }) => ({
      name: seriesName(name),
      unit: '(R+M)/2',
      cell: (i: number) =>
        figureCell((p) => `${signed(fuelOctane - p.octaneRequired, 1)}${p.detonates ? ' !' : ''}`)(
          curve.points[i],
        ),
    })),
  ];
  return {
    id: 'octane-margin',
    title: 'Octane to spare',
    description: `Octane number of the fuel, (R + M) / 2, less the one that just does not knock at the spark of the forecast; below zero it detonates. Least: ${least.join('; ')}. A caution, not a permission.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'octane numbers to spare, (R + M) / 2', zero: true, least: LEAST_SPAN },
        layers: [
          { kind: 'rule', name: null, y: 0, colour: 'ink' },
          ...curves.map((named, i) => lineFor(named, i, (p) => named.fuelOctane - p.octaneRequired)),
        ],
      },
    },
    table: figureTable(
      columns,
      points.map((_, i) => i),
    ),
  };
}
