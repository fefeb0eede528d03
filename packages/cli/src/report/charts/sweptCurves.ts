/** Torque over speed at some of the values of a swept field, each beside the engine as it is. */
import type { SweepResult } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { plainShort } from '../../render/plain.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { FAR_RPM, farRemark, SPEED_AXIS } from './bySpeed.ts';

/** The first, the last, the best and others evenly between. */
const MOST = 5;

/** Least span of torque that is drawn, over the largest: less makes a hill of what no dyno tells [-]. */
const LEAST_SPAN = 0.15;

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
  const line = (torqueNm: readonly number[], own: boolean): Layer => ({
    kind: 'line',
    name: own ? 'as it is' : 'with the value',
    points: sweep.rpm.map((rpm, n) => ({ x: rpm, y: torque(torqueNm[n]) })),
    colour: own ? 'soft' : 'a',
    marked: !own,
    far: FAR_RPM,
  });
  const { baseline } = sweep;
  const all = [...shown.map(({ figures }) => figures), ...(baseline === null ? [] : [baseline])];
  const least = LEAST_SPAN * torque(Math.max(...all.flatMap(({ torqueNm }) => torqueNm)));
  return {
    id: 'swept-curves',
    title: 'Torque at some of the values',
    description: `${shown.length} of ${done.length} points, the best among them.${farRemark(sweep.rpm)}`,
    drawing: {
      kind: 'panels',
      panels: {
        x: SPEED_AXIS,
        y: { title: `torque, ${torqueUnit}`, least },
        panels: shown.map(({ i, name, figures }) => ({
          title: i === sweep.best?.index ? `${name} (best)` : name,
          layers: [
            ...(baseline === null ? [] : [line(baseline.torqueNm, true)]),
            line(figures.torqueNm, false),
          ],
        })),
      },
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
