/** A measured pressure over the forecast one, by crank angle. */
import type { PressureOverlay } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { pressureAnswer } from '../../render/pressuresText.ts';
import { SHOWN_PRESSURE, type UnitSystem } from '../../render/units.ts';
import type { Point } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';

/** Angles of the table [deg]. */
const TABLE_STEP = 30;

/** @param id - unique on its page */
export function pressureOverlay(id: string, overlay: PressureOverlay, units: UnitSystem): Figure {
  const { of: shown, unit, decimals } = SHOWN_PRESSURE[units];
  const { place, rpm, cylinder, angleDeg, measuredPa, forecastPa } = overlay;
  const rows = angleDeg.map((angle, i) => ({
    angle,
    measured: shown(measuredPa[i]),
    forecast: shown(forecastPa[i]),
  }));
  const line = (of: 'measured' | 'forecast'): readonly Point[] =>
    rows.map((row) => ({ x: row.angle, y: row[of] }));
  const angles = Array.from({ length: 720 / TABLE_STEP + 1 }, (_, i) => -360 + i * TABLE_STEP);
  const listed = angles.flatMap((angle) => {
    const near = rows.reduce((a, b) => (Math.abs(b.angle - angle) < Math.abs(a.angle - angle) ? b : a));
    return Math.abs(near.angle - angle) <= TABLE_STEP / 2 ? [near] : [];
  });
  return {
    id,
    title: `Pressure in the ${place}${place === 'cylinder' ? '' : ' pipe'}, cylinder ${cylinder} at ${fixed(rpm)} rpm`,
    description: `${pressureAnswer(overlay)} Absolute pressures; 0 is firing top centre.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: { title: 'crank angle after firing top centre, deg', domain: [-360, 360] },
        y: { title: `pressure, ${unit}` },
        layers: [
          { kind: 'line', name: 'forecast', points: line('forecast'), colour: 'a' },
          { kind: 'line', name: 'measured', points: line('measured'), colour: 'b', dash: 'dashed' },
        ],
      },
    },
    table: figureTable(
      [
        { name: 'angle', unit: 'deg ATDC', cell: ({ angle }) => fixed(angle) },
        { name: 'measured', unit, cell: ({ measured }) => fixed(measured, decimals) },
        { name: 'forecast', unit, cell: ({ forecast }) => fixed(forecast, decimals) },
      ],
      listed,
    ),
  };
}
