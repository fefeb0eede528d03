/** Torque, or power, of several combinations over speed. */
import type { MarchedPoint, SpeedBand } from '@valvetide/core';
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

/** What is drawn of each curve, in the units of the page. */
interface Shown {
  readonly what: 'torque' | 'power';
  readonly unit: string;
  readonly value: (point: Pick<MarchedPoint, 'torqueNm' | 'powerKw'>) => number;
}

function shownAs(what: Shown['what'], units: UnitSystem): Shown {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  return what === 'torque'
    ? { what, unit: torqueUnit, value: (p) => torque(p.torqueNm) }
    : { what, unit: powerUnit, value: (p) => power(p.powerKw) };
}

/** In one drawing, or each beside the first in a small one of its own where they are many. */
export function sideBySide(
  curves: readonly NamedCurve[],
  what: 'torque' | 'power',
  band: SpeedBand,
  units: UnitSystem,
): Figure {
  const shown = shownAs(what, units);
  const { points } = curves[0].curve;
  return {
    id: what,
    title: what === 'torque' ? 'Torque' : 'Power',
    description: `Peaks: ${peaksOf(curves, shown)}.${farRemark(points.map(({ rpm }) => rpm))}`,
    drawing: drawingOf(curves, shown, band),
    table: figureTable(
      columnsOf(curves, shown),
      points.map((_, i) => i),
    ),
  };
}

/** Those of all; of many curves only that of the first. */
function peaksOf(curves: readonly NamedCurve[], { unit, value }: Shown): string {
  const peaks = curves.flatMap(({ name, curve }) => {
    const best = highest(curve, value);
    return best === null
      ? []
      : [`${seriesName(name)} ${fixed(value(best))} ${unit} at ${fixed(best.rpm)} rpm`];
  });
  return (isMany(curves) ? peaks.slice(0, 1) : peaks).join('; ');
}

/** Too many besides the first to be told apart in one drawing. */
function isMany(curves: readonly NamedCurve[]): boolean {
  return curves.length - 1 > MOST_TOGETHER;
}

function drawingOf(
  curves: readonly NamedCurve[],
  { what, unit, value }: Shown,
  band: SpeedBand,
): Figure['drawing'] {
  const [first, ...others] = curves;
  const top = Math.max(...curves.flatMap(({ curve }) => overSpeed(curve.points, value).map((p) => p.y)));
  const axes = { x: SPEED_AXIS, y: { title: `${what}, ${unit}`, least: LEAST_SPAN * top } };
  const span = bandSpan(first, band);
  if (!isMany(curves)) {
    const layers = [...span, ...curves.map((named, i) => lineFor(named, i, value))];
    return { kind: 'plot', plot: { ...axes, layers } };
  }
  const panels = others.map(({ name, curve }) => {
    const changed: Layer = {
      kind: 'line',
      name: 'with the change',
      points: overSpeed(curve.points, value),
      colour: 'a',
      marked: true,
      far: FAR_RPM,
    };
    return { title: seriesName(name), layers: [...span, referenceLine(first, value), changed] };
  });
  return { kind: 'panels', panels: { ...axes, panels } };
}

/** A band of all speeds marks nothing. */
function bandSpan({ curve: { points } }: NamedCurve, { fromRpm, toRpm }: SpeedBand): readonly Layer[] {
  const isPart = fromRpm > points[0].rpm || toRpm < points[points.length - 1].rpm;
  return isPart ? [{ kind: 'span', name: 'band', from: fromRpm, to: toRpm }] : [];
}

function columnsOf(curves: readonly NamedCurve[], { unit, value }: Shown): readonly Column<number>[] {
  return [
    { name: 'speed', unit: 'rpm', cell: (i) => fixed(curves[0].curve.points[i].rpm) },
    ...curves.map(({ name, curve }) => ({
      name: seriesName(name),
      unit,
      cell: (i: number) => figureCell((p) => fixed(value(p), 1))(curve.points[i]),
    })),
  ];
}
