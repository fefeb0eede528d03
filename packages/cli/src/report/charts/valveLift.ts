/** Lift of both valves around gas exchange, and the piston between them. */
import type { ValveUse } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { SHOWN_LENGTH, type UnitSystem } from '../../render/units.ts';
import type { Point } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';

/** Crank degrees shown on both sides of gas-exchange top centre. */
const REACH = 290;
const TABLE_STEP = 20;

export function valveLift(use: ValveUse, units: UnitSystem): Figure {
  const { of: shown, unit, decimals } = SHOWN_LENGTH[units];
  const rows = use.angleDeg
    .map((angle, i) => ({
      angle: angle - 360,
      intake: shown(use.intake.liftMm[i]),
      exhaust: shown(use.exhaust.liftMm[i]),
      piston: shown(use.pistonDropMm[i]),
    }))
    .filter(({ angle }) => Math.abs(angle) <= REACH);
  const top = 1.12 * shown(Math.max(use.intake.peakLiftMm, use.exhaust.peakLiftMm));
  return {
    id: 'valve-lift',
    title: 'Valve lift',
    description: `Net lift at the valve: intake ${fixed(shown(use.intake.peakLiftMm), decimals)} ${unit}, exhaust ${fixed(shown(use.exhaust.peakLiftMm), decimals)} ${unit}. The piston's distance from its top is drawn for orientation; it says nothing about clearance.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: { title: 'crank degrees after gas-exchange top centre', domain: [-REACH, REACH] },
        y: { title: `lift, ${unit}`, domain: [0, top] },
        layers: [
          {
            kind: 'line',
            name: 'piston below its top',
            points: rows.filter(({ piston }) => piston < 1.5 * top).map((r) => ({ x: r.angle, y: r.piston })),
            colour: 'soft',
            dash: 'dotted',
          },
          {
            kind: 'line',
            name: 'exhaust',
            points: offSeat(rows, 'exhaust'),
            colour: 'd',
            dash: 'dashed',
          },
          {
            kind: 'line',
            name: 'intake',
            points: offSeat(rows, 'intake'),
            colour: 'c',
          },
        ],
      },
    },
    table: figureTable(
      [
        { name: 'angle', unit: 'deg', cell: (r) => fixed(r.angle) },
        { name: 'exhaust lift', unit, cell: (r) => fixed(r.exhaust, decimals) },
        { name: 'intake lift', unit, cell: (r) => fixed(r.intake, decimals) },
        { name: 'piston below top', unit, cell: (r) => fixed(r.piston, decimals) },
      ],
      rows.filter(({ angle }) => angle % TABLE_STEP === 0),
    ),
  };
}

/** The lift from seat to seat; a shut valve is not drawn. */
function offSeat<Side extends 'intake' | 'exhaust'>(
  rows: readonly ({ readonly angle: number } & Readonly<Record<Side, number>>)[],
  side: Side,
): Point[] {
  const open = (i: number): boolean => rows[i] !== undefined && rows[i][side] > 0;
  return rows.flatMap((row, i) =>
    open(i - 1) || open(i) || open(i + 1) ? [{ x: row.angle, y: row[side] }] : [],
  );
}
