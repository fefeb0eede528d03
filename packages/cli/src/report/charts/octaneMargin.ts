/** The octane number an engine asks for beside the one its fuel has. */
import type { Curve, OperatingPoint } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { figureCell, marched } from '../../render/marched.ts';
import type { Column } from '../../render/table.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { FAR_RPM, highest, overSpeed, SPEED_AXIS, SPEED_COLUMN } from './bySpeed.ts';

/** Octane numbers that no drawing shows. */
const HARDLY = 0.1;
/** Least span that is drawn, octane numbers. */
const LEAST_SPAN = 10;

/**
 * Null where the curve has no figures.
 *
 * @param fuelOctane - of the fuel at hand, (R + M) / 2
 */
export function octaneMargin(curve: Curve, fuelOctane: number): Figure | null {
  const least = highest(curve, (p) => p.octaneRequired);
  if (least === null) return null;
  const spare = fuelOctane - least.octaneRequired;
  const state =
    spare >= 0
      ? `The fuel has at least ${fixed(spare, 1)} to spare, least at ${fixed(least.rpm)} rpm.`
      : `The fuel is ${fixed(-spare, 1)} short at ${fixed(least.rpm)} rpm: it detonates there.`;
  return {
    id: 'octane-margin',
    title: 'Octane margin',
    description: `Octane number, (R + M) / 2, that just does not knock. ${state} A caution, not a permission.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'octane number, (R + M) / 2', least: LEAST_SPAN },
        layers: [
          { kind: 'rule', name: `fuel, ${fixed(fuelOctane, 1)}`, y: fuelOctane, colour: 'c' },
          ...linesOf(curve),
        ],
      },
    },
    table: figureTable(columnsOf(fuelOctane), curve.points),
  };
}

/** What is asked for at this spark, and at the best; one line where they are the same: on top of each other they would hide each other. */
function linesOf({ points }: Curve): readonly Layer[] {
  const isBestSpark = marched(points).every(
    (p) => Math.abs(p.octaneAtBestTiming - p.octaneRequired) < HARDLY,
  );
  const own: Layer = {
    kind: 'line',
    name: isBestSpark ? 'at this spark, the best' : 'at this spark',
    points: overSpeed(points, (p) => p.octaneRequired),
    colour: 'b',
    marked: true,
    far: FAR_RPM,
  };
  if (isBestSpark) return [own];
  const best: Layer = {
    kind: 'line',
    name: 'at best-torque spark',
    points: overSpeed(points, (p) => p.octaneAtBestTiming),
    colour: 'd',
    dash: 'dashed',
    marked: true,
    far: FAR_RPM,
  };
  return [own, best];
}

function columnsOf(fuelOctane: number): readonly Column<OperatingPoint>[] {
  return [
    SPEED_COLUMN,
    {
      name: 'asked for',
      unit: '(R+M)/2',
      cell: figureCell((p) => `${fixed(p.octaneRequired, 1)}${p.detonates ? ' !' : ''}`),
    },
    { name: 'to spare', unit: '(R+M)/2', cell: figureCell((p) => fixed(fuelOctane - p.octaneRequired, 1)) },
    { name: 'at best spark', unit: '(R+M)/2', cell: figureCell((p) => fixed(p.octaneAtBestTiming, 1)) },
    { name: 'spark', unit: 'deg BTDC', cell: figureCell((p) => fixed(p.sparkDegBtdc, 1)) },
    { name: 'given back', unit: 'deg', cell: figureCell((p) => fixed(p.sparkGivenBackDeg, 1)) },
  ];
}
