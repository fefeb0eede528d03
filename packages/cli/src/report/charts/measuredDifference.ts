/** How far a forecast is off what a dyno measured, speed by speed. */
import type { AgainstMeasured } from '../../render/againstMeasured.ts';
import { measuredColumns } from '../../render/besideCurve.ts';
import { fixed } from '../../render/fixed.ts';
import { signed } from '../../render/signed.ts';
import type { UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { SPEED_AXIS } from './bySpeed.ts';

export function measuredDifference(measured: AgainstMeasured, units: UnitSystem): Figure {
  const { bySpeed, sheet, meanPct, rootMeanSquarePct } = measured;
  const scatter: Layer[] =
    sheet.repeatability === null
      ? []
      : [
          {
            kind: 'ribbon',
            name: 'scatter of a pull',
            colour: 'soft',
            points: bySpeed.map(({ rpm }) => {
              const high = 100 * (sheet.repeatability?.deviation ?? 0);
              return { x: rpm, low: -high, high };
            }),
          },
        ];
  return {
    id: 'measured-difference',
    title: 'Forecast against measured',
    description: `Forecast torque less measured torque: off by ${fixed(rootMeanSquarePct, 1)} %, root mean square, ${signed(meanPct, 1)} % in the mean.${scatter.length === 0 ? '' : ' Shaded: one standard deviation from pull to pull.'}`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'forecast less measured, %', zero: true },
        layers: [
          ...scatter,
          { kind: 'rule', name: null, y: 0, colour: 'ink' },
          {
            kind: 'line',
            name: 'forecast less measured',
            points: bySpeed.map(({ rpm, differencePct }) => ({ x: rpm, y: differencePct })),
            colour: 'a',
            marked: true,
          },
        ],
      },
    },
    table: figureTable(measuredColumns(units), bySpeed),
  };
}
