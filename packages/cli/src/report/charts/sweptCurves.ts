/** Torque over speed at some of the values of a swept field: a few curves say more than all of them. */
import type { SweepResult } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { plainShort } from '../../render/plain.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { SPEED_AXIS, seriesColour, seriesDash } from './bySpeed.ts';

/** Curves drawn at most: the first, the last, the best and others evenly between. */
const MOST = 5;

/** Null with a single speed, or where nothing was forecast. */
export function sweptCurves(sweep: SweepResult, units: UnitSystem): Figure | null {
  const { torque, torqueUnit } = SHOWN[units];
  const done = sweep.points.flatMap((point, i) =>
    point.figures === null
      ? []
      : [{ i, name: plainShort(point.values.join(', '), 30), figures: point.figures }],
  );
  if (done.length === 0 || sweep.rpm.length < 2) return null;
  const places = Array.from({ length: Math.min(MOST, done.length) }, (_, k) =>
    Math.round((k * (done.length - 1)) / Math.max(1, Math.min(MOST, done.length) - 1)),
  );
  const bestPlace = done.findIndex(({ i }) => i === sweep.best?.index);
  const chosen = [...new Set([...places, ...(bestPlace < 0 ? [] : [bestPlace])])].sort((a, b) => a - b);
  const shown = chosen.map((place) => done[place]);
  const layers = shown.map(
    ({ i, name, figures }, k): Layer => ({
      kind: 'line',
      name: i === sweep.best?.index ? `${name} (best)` : name,
      points: sweep.rpm.map((rpm, n) => ({ x: rpm, y: torque(figures.torqueNm[n]) })),
      colour: seriesColour(k),
      dash: seriesDash(k),
    }),
  );
  return {
    id: 'swept-curves',
    title: 'Torque at some of the values',
    description: `${shown.length} of ${done.length} points, the best among them.`,
    drawing: {
      kind: 'plot',
      plot: { x: SPEED_AXIS, y: { title: `torque, ${torqueUnit}` }, layers },
    },
    table: figureTable(
      [
        { name: 'speed', unit: 'rpm', cell: (n: number) => fixed(sweep.rpm[n]) },
        ...done.map(({ name, figures }) => ({
          name,
          unit: torqueUnit,
          cell: (n: number) => fixed(torque(figures.torqueNm[n]), 1),
        })),
      ],
      sweep.rpm.map((_, n) => n),
    ),
  };
}
