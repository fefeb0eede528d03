/** Filling, which is volumetric efficiency, over speed. */
import { fixed } from '../../render/fixed.ts';
import { figureCell } from '../../render/marched.ts';
import { type Figure, figureTable } from '../figure.ts';
import { highest, lineFor, type NamedCurve, SPEED_AXIS, SPEED_COLUMN } from './bySpeed.ts';

/** Least span that is drawn [%]. */
const LEAST_SPAN = 10;

/** The first curve's figures stand in the table; null where it has none. */
export function filling(curves: readonly NamedCurve[]): Figure | null {
  const { points } = curves[0].curve;
  const best = highest(curves[0].curve, (p) => p.volumetricEfficiency);
  if (best === null) return null;
  return {
    id: 'filling',
    title: 'Filling',
    description: `Dry air that stays in the cylinders or passes through them, over what fills the displacement at the air of the day. ${curves.length === 1 ? 'Best' : 'Best of the first'}: ${fixed(100 * best.volumetricEfficiency, 1)} % at ${fixed(best.rpm)} rpm.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'filling, %', least: LEAST_SPAN },
        layers: curves.map((named, i) => lineFor(named, i, (p) => 100 * p.volumetricEfficiency)),
      },
    },
    table: figureTable(
      [
        SPEED_COLUMN,
        {
          name: 'filling',
          unit: '%',
          cell: figureCell((p) => fixed(100 * p.volumetricEfficiency, 1)),
        },
        { name: 'residual gas', unit: '%', cell: figureCell((p) => fixed(100 * p.residualFraction, 1)) },
        { name: 'inlet Mach', unit: '-', cell: (p) => fixed(p.inletMachIndex, 2) },
      ],
      points,
    ),
  };
}
