/** Torque, or power, of several combinations over speed. */
import type { MarchedPoint } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { figureCell } from '../../render/marched.ts';
import type { Column } from '../../render/table.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { highest, lineFor, type NamedCurve, SPEED_AXIS, seriesName } from './bySpeed.ts';

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
  const { points } = curves[0].curve;
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
  return {
    id: what,
    title: what === 'torque' ? 'Torque' : 'Power',
    description: `Peaks: ${peaks.join('; ')}.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: `${what}, ${unit}` },
        layers: [...span, ...curves.map((named, i) => lineFor(named, i, value))],
      },
    },
    table: figureTable(
      columns,
      curves[0].curve.points.map((_, i) => i),
    ),
  };
}
