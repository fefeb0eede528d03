/** Each cylinder of a curve that marched them all: a small table a figure, a line a speed. */
import type { Curve, CylinderFigures, MarchedPoint } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { marched } from './marched.ts';
import { type Column, table } from './table.ts';
import { SHOWN, toCelsius, toFahrenheit, type UnitSystem } from './units.ts';
import { wrap } from './wrap.ts';

interface WithCylinders extends MarchedPoint {
  readonly cylinders: readonly CylinderFigures[];
}

interface Figure {
  readonly title: string;
  readonly value: (figures: CylinderFigures) => number;
  readonly decimals: number;
}

/** Empty where the curve has no cylinders of its own. */
export function cylindersText(curve: Curve, width: number, units: UnitSystem): string {
  const points = marched(curve.points).filter(
    (point): point is WithCylinders => point.cylinders !== undefined && point.cylinders.length > 1,
  );
  if (points.length === 0) return '';
  const count = points[0].cylinders.length;
  return shownIn(units)
    .map(({ title, value, decimals }) => {
      const columns: Column<WithCylinders>[] = [
        { name: 'speed', unit: 'rpm', cell: ({ rpm }) => fixed(rpm) },
        ...Array.from({ length: count }, (_, i) => ({
          name: `cyl ${i + 1}`,
          unit: '',
          cell: ({ cylinders }: WithCylinders) => fixed(value(cylinders[i]), decimals),
        })),
        {
          name: 'apart',
          unit: '',
          cell: ({ cylinders }) => {
            const all = cylinders.map(value);
            return fixed(Math.max(...all) - Math.min(...all), decimals);
          },
        },
      ];
      return `${wrap(title, width).join('\n')}\n${table(columns, points, width)}`;
    })
    .join('\n');
}

function shownIn(units: UnitSystem): readonly Figure[] {
  const { torque, torqueUnit } = SHOWN[units];
  return [
    { title: 'Filling by cylinder, %', value: (c) => 100 * c.volumetricEfficiency, decimals: 1 },
    { title: `Torque by cylinder, ${torqueUnit}`, value: (c) => torque(c.torqueNm), decimals: 1 },
    { title: 'Octane needed by cylinder', value: (c) => c.octaneRequired, decimals: 1 },
    units === 'trade'
      ? { title: 'Exhaust by cylinder, F', value: (c) => toFahrenheit(c.exhaustTemperatureK), decimals: 0 }
      : { title: 'Exhaust by cylinder, C', value: (c) => toCelsius(c.exhaustTemperatureK), decimals: 0 },
  ];
}
