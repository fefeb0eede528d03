/** How far the manifold falls below the outside air at full throttle. */
import { fixed } from '../../render/fixed.ts';
import { figureCell, marched } from '../../render/marched.ts';
import { figureIn, quantityIn, SHOWN_DEPRESSION, toInHg, type UnitSystem } from '../../render/units.ts';
import { type Figure, figureTable } from '../figure.ts';
import { highest, lineFor, type NamedCurve, SPEED_AXIS, SPEED_COLUMN } from './bySpeed.ts';

/** Depression at full throttle above which metering counts as a restriction [inHg]; common practice, no source. */
const RESTRICTION = 1.5;

/** Least span that is drawn [inHg]. */
const LEAST_SPAN = 0.5;

/** Null where the first curve has no figures. */
export function depression(curves: readonly NamedCurve[], units: UnitSystem): Figure | null {
  const depth = SHOWN_DEPRESSION[units];
  const { of: shown, unit } = depth;
  const { points } = curves[0].curve;
  const most = highest(curves[0].curve, (p) => p.manifoldVacuumInHg);
  if (most === null) return null;
  const reaches = curves.some(({ curve }) =>
    marched(curve.points).some((p) => p.manifoldVacuumInHg > 0.7 * RESTRICTION),
  );
  return {
    id: 'depression',
    title: 'Manifold depression',
    description: `Outside air less plenum pressure at full throttle. ${curves.length === 1 ? 'Most' : 'Most of the first'}: ${quantityIn(depth, most.manifoldVacuumInHg)} at ${fixed(most.rpm)} rpm. Above ${fixed(shown(RESTRICTION), 1)} ${unit} the trade speaks of a restriction.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: `depression, ${unit}`, zero: true, least: shown(LEAST_SPAN) },
        layers: [
          ...(reaches
            ? [
                {
                  kind: 'rule' as const,
                  name: `${fixed(shown(RESTRICTION), 1)} ${unit}`,
                  y: shown(RESTRICTION),
                  colour: 'soft' as const,
                  dash: 'dotted' as const,
                },
              ]
            : []),
          ...curves.map((named, i) => lineFor(named, i, (p) => shown(p.manifoldVacuumInHg))),
        ],
      },
    },
    table: figureTable(
      [
        SPEED_COLUMN,
        { name: 'depression', unit, cell: figureCell((p) => figureIn(depth, p.manifoldVacuumInHg)) },
        {
          name: 'plenum, absolute',
          unit,
          cell: figureCell((p) =>
            fixed(units === 'trade' ? toInHg(p.manifoldPressureKpa) : p.manifoldPressureKpa, depth.decimals),
          ),
        },
      ],
      points,
    ),
  };
}
