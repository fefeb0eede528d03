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

/** Share of torque that is no difference between cylinders [-]: a tenth of what any dyno repeats within. */
const ALIKE = 5e-4;

interface Figure {
  readonly title: string;
  readonly value: (figures: CylinderFigures) => number;
  readonly decimals: number;
}

function withCylinders(curve: Curve): readonly WithCylinders[] {
  return marched(curve.points).filter(
    (point): point is WithCylinders => point.cylinders !== undefined && point.cylinders.length > 1,
  );
}

/** Empty where the curve has no cylinders of its own. */
export function cylindersText(curve: Curve, width: number, units: UnitSystem): string {
  const points = withCylinders(curve);
  if (points.length === 0) return '';
  const count = points[0].cylinders.length;
  return shownIn(units, points)
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

/** What a file may say of each cylinder: shown where it says different things. */
const APART: readonly Figure[] = [
  { title: 'Lambda by cylinder', value: (c) => c.lambda, decimals: 3 },
  { title: 'Compression ratio by cylinder', value: (c) => c.compressionRatio, decimals: 2 },
];

function differs(points: readonly WithCylinders[], value: Figure['value']): boolean {
  return points.some(({ cylinders }) => cylinders.some((c) => value(c) !== value(cylinders[0])));
}

/** How far the cylinders are apart where power is highest, on one line; empty where the curve has none of its own. */
export function cylindersLine(curve: Curve, units: UnitSystem): string {
  const point = withCylinders(curve).find(({ rpm }) => rpm === curve.peak?.power.rpm);
  if (point === undefined) return '';
  const { cylinders } = point;
  if (cylinders.every((c) => isAlike(c, cylinders[0])))
    return `All cylinders do the same at ${fixed(point.rpm)} rpm.`;
  const range = ({ value, decimals }: Figure): string => {
    const all = cylinders.map(value);
    return `${fixed(Math.min(...all), decimals)} to ${fixed(Math.max(...all), decimals)}`;
  };
  const { torque, torqueUnit } = SHOWN[units];
  const most = cylinders.reduce((a, b) => (b.octaneRequired > a.octaneRequired ? b : a));
  const exhaust = exhaustIn(units);
  return [
    `Cylinders at ${fixed(point.rpm)} rpm, least to most: torque ${range({ title: '', value: (c) => torque(c.torqueNm), decimals: 1 })} ${torqueUnit}`,
    `exhaust ${range(exhaust)} ${units === 'trade' ? 'F' : 'C'}`,
    `octane needed ${range(OCTANE)}, most by cylinder ${most.cylinder}, which decides the spark; --verbose shows each.`,
  ].join(', ');
}

/** Whether two cylinders are as one in every digit that is shown: of torque, of degrees and of octane. */
function isAlike(a: CylinderFigures, b: CylinderFigures): boolean {
  return (
    Math.abs(a.torqueNm / b.torqueNm - 1) < ALIKE &&
    Math.abs(a.exhaustTemperatureK - b.exhaustTemperatureK) < 0.5 &&
    Math.abs(a.octaneRequired - b.octaneRequired) < 0.05
  );
}

const OCTANE: Figure = {
  title: 'Octane needed by cylinder',
  value: (c) => c.octaneRequired,
  decimals: 1,
};

function exhaustIn(units: UnitSystem): Figure {
  return units === 'trade'
    ? { title: 'Exhaust by cylinder, F', value: (c) => toFahrenheit(c.exhaustTemperatureK), decimals: 0 }
    : { title: 'Exhaust by cylinder, C', value: (c) => toCelsius(c.exhaustTemperatureK), decimals: 0 };
}

function shownIn(units: UnitSystem, points: readonly WithCylinders[]): readonly Figure[] {
  const { torque, torqueUnit } = SHOWN[units];
  return [
    { title: 'Filling by cylinder, %', value: (c) => 100 * c.volumetricEfficiency, decimals: 1 },
    { title: `Torque by cylinder, ${torqueUnit}`, value: (c) => torque(c.torqueNm), decimals: 1 },
    ...APART.filter(({ value }) => differs(points, value)),
    OCTANE,
    exhaustIn(units),
  ];
}
