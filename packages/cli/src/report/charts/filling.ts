/** Volumetric efficiency over speed. */
import { fixed } from '../../render/fixed.ts';
import { type Figure, figureTable } from '../figure.ts';
import { lineFor, type NamedCurve, SPEED_AXIS, SPEED_COLUMN } from './bySpeed.ts';

/** The first curve's figures stand in the table. */
export function filling(curves: readonly NamedCurve[]): Figure {
  const { points } = curves[0].curve;
  const best = points.reduce((a, b) => (b.volumetricEfficiency > a.volumetricEfficiency ? b : a));
  return {
    id: 'filling',
    title: 'Volumetric efficiency',
    description: `Dry air trapped and passed through, over what the swept volume holds of outside air. ${curves.length === 1 ? 'Best' : 'Best of the first'}: ${fixed(100 * best.volumetricEfficiency, 1)} % at ${fixed(best.rpm)} rpm.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'volumetric efficiency, %' },
        layers: curves.map((named, i) => lineFor(named, i, (p) => 100 * p.volumetricEfficiency)),
      },
    },
    table: figureTable(
      [
        SPEED_COLUMN,
        { name: 'volumetric efficiency', unit: '%', cell: (p) => fixed(100 * p.volumetricEfficiency, 1) },
        { name: 'residual gas', unit: '%', cell: (p) => fixed(100 * p.residualFraction, 1) },
        { name: 'inlet Mach', unit: '-', cell: (p) => fixed(p.inletMachIndex, 2) },
      ],
      points,
    ),
  };
}
