/** Cylinder pressure over cylinder volume: the work of one cycle as an area, the gas exchange at its foot. */
import type { CycleTrace } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { SHOWN_PRESSURE, toCubicInch, type UnitSystem } from '../../render/units.ts';
import type { Point } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';

/** Angles of the table [deg after firing top centre]. */
const TABLE_STEP = 30;

export function pressureLoop(trace: CycleTrace, units: UnitSystem): Figure {
  const trade = units === 'trade';
  const volumeUnit = trade ? 'in3' : 'cm3';
  const { of: pressureOf, unit: pressureUnit } = SHOWN_PRESSURE[units];
  const volumeOf = (m3: number): number => (trade ? toCubicInch(m3 * 1e6) : m3 * 1e6);
  const points = trace.angleDeg.map((angle, i) => ({
    angle,
    x: volumeOf(trace.volumeM3[i]),
    y: pressureOf(trace.pressurePa[i]),
  }));
  const part = (from: number, to: number): Point[] =>
    points.filter(({ angle }) => angle >= from && angle <= to).map(({ x, y }) => ({ x, y }));
  const peak = points.reduce((a, b) => (b.y > a.y ? b : a));
  const place = `cylinder ${trace.cylinder} at ${fixed(trace.rpm)} rpm`;
  return {
    id: 'pressure-loop',
    title: `Pressure and volume, ${place}`,
    description: `Absolute pressure, on a scale of powers of ten so that the gas exchange shows. Highest ${fixed(peak.y)} ${pressureUnit}, ${fixed(peak.angle)} degrees after top centre.${trace.status === 'settled' ? '' : ' The cycle had not settled, so the loop does not close.'}`,
    drawing: {
      kind: 'plot',
      plot: {
        x: { title: `volume above the piston, ${volumeUnit}`, zero: true },
        y: { title: `pressure, ${pressureUnit}`, log: true },
        layers: [
          { kind: 'line', name: 'compression', points: part(-180, 0), colour: 'a' },
          { kind: 'line', name: 'expansion', points: part(0, 180), colour: 'b' },
          { kind: 'line', name: 'exhaust', points: part(180, 360), colour: 'd', dash: 'dashed' },
          { kind: 'line', name: 'intake', points: part(-360, -180), colour: 'c', dash: 'dotted' },
        ],
      },
    },
    table: figureTable(
      [
        { name: 'angle', unit: 'deg ATDC', cell: (p) => fixed(p.angle) },
        { name: 'volume', unit: volumeUnit, cell: (p) => fixed(p.x, trade ? 2 : 1) },
        { name: 'pressure', unit: pressureUnit, cell: (p) => fixed(p.y, trade ? 1 : 2) },
      ],
      Array.from({ length: 720 / TABLE_STEP }, (_, i) => nearest(points, i * TABLE_STEP - 360)),
    ),
  };
}

function nearest<P extends { readonly angle: number }>(points: readonly P[], angle: number): P {
  return points.reduce((a, b) => (Math.abs(b.angle - angle) < Math.abs(a.angle - angle) ? b : a));
}
