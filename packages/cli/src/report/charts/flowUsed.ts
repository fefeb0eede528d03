/** Flow against lift, and how long the cam keeps the valve at which lift: the part of the sheet that gets used. */
import type { ValveUseSide } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { figureIn, quantityIn, SHOWN_FLOW, SHOWN_LENGTH, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';

export function flowUsed(side: 'intake' | 'exhaust', use: ValveUseSide, units: UnitSystem): Figure {
  const length = SHOWN_LENGTH[units];
  const { of: shown, unit } = length;
  const flow = SHOWN_FLOW[units];
  const { measuredToMm, peakLiftMm, dwell } = use;
  const beyond = measuredToMm !== null && peakLiftMm > measuredToMm * 1.0001;
  const sheet =
    measuredToMm === null
      ? 'No sheet: the flow is an estimate.'
      : `The sheet ends at ${quantityIn(length, measuredToMm)}${beyond ? '; beyond it the last flow is held' : ''}.`;
  const longest = dwell.reduce((a, b) => (b.crankDeg > a.crankDeg ? b : a));
  const end: Layer[] =
    measuredToMm === null
      ? []
      : [{ kind: 'rule', name: 'end of the sheet', x: shown(measuredToMm), colour: 'soft', dash: 'dotted' }];
  const tone = side === 'intake' ? 'c' : 'd';
  return {
    id: `flow-used-${side}`,
    title: `${side === 'intake' ? 'Intake' : 'Exhaust'} flow, and the lift in use`,
    description: `Line: one cylinder's flow at ${flow.bench}. Bars: crank degrees a cycle at that lift, on the same scale; most, ${fixed(longest.crankDeg)} degrees, from ${figureIn(length, longest.fromMm)} to ${quantityIn(length, longest.toMm)}. ${sheet}`,
    drawing: {
      kind: 'plot',
      plot: {
        x: { title: `lift, ${unit}`, zero: true },
        y: { title: `${flow.unit} at ${flow.bench}; crank degrees`, zero: true },
        layers: [
          {
            kind: 'bars',
            name: 'crank degrees there',
            bars: dwell.map((d) => ({ from: shown(d.fromMm), to: shown(d.toMm), y: d.crankDeg })),
            colour: tone,
          },
          ...end,
          {
            kind: 'line',
            name: `flow, ${flow.unit}`,
            points: use.flow.map((p) => ({ x: shown(p.liftMm), y: flow.of(p.cfm28) })),
            colour: 'a',
          },
        ],
      },
    },
    table: figureTable(
      [
        { name: 'lift from', unit, cell: (d) => figureIn(length, d.fromMm) },
        { name: 'to', unit, cell: (d) => figureIn(length, d.toMm) },
        { name: 'stays', unit: 'crank deg', cell: (d) => fixed(d.crankDeg, 1) },
        {
          name: 'flow at the upper end',
          unit: flow.unit,
          cell: (d) => figureIn(flow, flowAt(use, d.toMm)),
        },
      ],
      dwell,
    ),
  };
}

/** Straight between the points of the curve. */
function flowAt({ flow }: ValveUseSide, liftMm: number): number {
  const after = Math.max(
    1,
    flow.findIndex((p) => p.liftMm >= liftMm - 1e-9),
  );
  const [a, b] = [flow[after - 1], flow[after]];
  return a.cfm28 + ((b.cfm28 - a.cfm28) * (liftMm - a.liftMm)) / (b.liftMm - a.liftMm);
}
