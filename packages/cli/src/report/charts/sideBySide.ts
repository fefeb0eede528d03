/** Torque, or power, of several combinations over speed. */
import type { MarchedPoint } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { figureCell } from '../../render/marched.ts';
import type { Column } from '../../render/table.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import {
  FAR_RPM,
  farRemark,
  highest,
  lineFor,
  MOST_TOGETHER,
  type NamedCurve,
  overSpeed,
  referenceLine,
  SPEED_AXIS,
  seriesName,
} from './bySpeed.ts';

/** Least span of torque or power that is drawn, over its largest value: less makes a hill of what no dyno tells [-]. */
const LEAST_SPAN = 0.15;

/** In one drawing, or each beside the first in a small one of its own where they are many. */
export function sideBySide(
  curves: readonly NamedCurve[],
  what: 'torque' | 'power',
  band: { readonly fromRpm: number; readonly toRpm: number },
  units: UnitSystem,
): Figure {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const unit = what === 'torque' ? torqueUnit : powerUnit;
  const value = (p: Pick<MarchedPoint, 'torqueNm' | 'powerKw'>): number =>
    what === 'torque' ? torque(p.torqueNm) : power(p.powerKw);
  const [first, ...others] = curves;
  const { points } = first.curve;
  // A band of all speeds marks nothing.
  const partly = band.fromRpm > points[0].rpm || band.toRpm < points[points.length - 1].rpm;
  const span: Layer[] = partly ? [{ kind: 'span', name: 'band', from: band.fromRpm, to: band.toRpm }] : [];
  const columns: Column<number>[] = [
    { name: 'speed', unit: 'rpm', cell: (i) => fixed(curves[0].curve.points[i].rpm) },
    ...curves.map(({ name, curve }) => ({
      name: seriesName(name),
      unit,
      cell: (i: number) => figureCell((p) => fixed(value(p), 1))(curve.points[i]),
    })),
  ];
  const peaks = curves.flatMap(({ name, curve }) => {
    const best = highest(curve, value);
    return best === null
      ? []
      : [`${seriesName(name)} ${fixed(value(best))} ${unit} at ${fixed(best.rpm)} rpm`];
  });
  const top = Math.max(...curves.flatMap(({ curve }) => overSpeed(curve.points, value).map((p) => p.y)));
  const y = { title: `${what}, ${unit}`, least: LEAST_SPAN * top };
  return {
    id: what,
    title: what === 'torque' ? 'Torque' : 'Power',
    description: `Peaks: ${(others.length > MOST_TOGETHER ? peaks.slice(0, 1) : peaks).join('; ')}.${farRemark(points.map(({ rpm }) => rpm))}`,
    drawing:
      others.length > MOST_TOGETHER
        ? {
            kind: 'panels',
            panels: {
              x: SPEED_AXIS,
              y,
              panels: others.map(({ name, curve }) => ({
                title: seriesName(name),
                layers: [
                  ...span,
                  referenceLine(first, value),
                  {
                    kind: 'line',
                    name: 'with the change',
                    points: overSpeed(curve.points, value),
                    colour: 'a',
                    marked: true,
                    far: FAR_RPM,
                  },
                ],
              })),
            },
          }
        : {
            kind: 'plot',
            plot: {
              x: SPEED_AXIS,
              y,
              layers: [...span, ...curves.map((named, i) => lineFor(named, i, value))],
            },
          },
    table: figureTable(
      columns,
      curves[0].curve.points.map((_, i) => i),
    ),
  };
}
