/** A back-test drawn: the gain forecast beside the gain measured, and the curves they come from. */
import type { BacktestResult } from '@valvetide/core';
import { backtestPoints, gainText } from '../../render/backtestText.ts';
import { fixed } from '../../render/fixed.ts';
import { signed } from '../../render/signed.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { SPEED_AXIS } from './bySpeed.ts';

/** Null where nothing was forecast. */
export function gainBySpeed(result: BacktestResult, units: UnitSystem): Figure | null {
  const { points, measured, gain } = result;
  if (points.length === 0 || gain === null) return null;
  const doubt = 100 * measured.resolvable;
  return {
    id: 'gain',
    title: 'Gain forecast and measured',
    description: `Torque after the change more than before it. Over the band, mean power: forecast ${gainText(gain)}, measured ${signed(100 * gain.measured, 1)} %. Shaded around what was measured: the ${fixed(doubt, 1)} % that ${measured.pulls.before} and ${measured.pulls.after} pulls tell apart.${gain.spread === null ? '' : ' The ribbon around the forecast is one standard deviation of what is not known of engine and parts.'}`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'torque gained, %', zero: true },
        layers: [
          {
            kind: 'ribbon',
            name: `what the pulls can show, ${fixed(doubt, 1)} %`,
            colour: 'soft',
            points: points.map(({ rpm, measuredGain }) => ({
              x: rpm,
              low: 100 * measuredGain - doubt,
              high: 100 * measuredGain + doubt,
            })),
          },
          ...spreadRibbon(points),
          { kind: 'rule', name: null, y: 0, colour: 'ink' },
          {
            kind: 'line',
            name: 'forecast',
            points: points.map(({ rpm, forecastGain }) => ({ x: rpm, y: 100 * forecastGain })),
            colour: 'a',
            marked: true,
          },
          {
            kind: 'dots',
            name: 'measured',
            points: points.map(({ rpm, measuredGain }) => ({ x: rpm, y: 100 * measuredGain })),
            colour: 'ink',
            shape: 'circle',
          },
        ],
      },
    },
    table: figureTable(backtestPoints(units), points),
  };
}

/** Around the forecast, where its spread is known. */
function spreadRibbon(points: BacktestResult['points']): Layer[] {
  const known = points.flatMap(({ rpm, forecastGain, spread }) =>
    spread === null
      ? []
      : [{ x: rpm, low: 100 * (forecastGain - spread), high: 100 * (forecastGain + spread) }],
  );
  return known.length === 0
    ? []
    : [{ kind: 'ribbon', name: 'one standard deviation', colour: 'a', points: known }];
}

/** Torque before and after, forecast as lines and measured as marks; null where nothing was forecast. */
export function beforeAndAfter(result: BacktestResult, units: UnitSystem): Figure | null {
  const { points } = result;
  if (points.length === 0) return null;
  const { torque, torqueUnit } = SHOWN[units];
  const side = (of: 'before' | 'after', colour: 'a' | 'b'): Layer[] => [
    {
      kind: 'line',
      name: `forecast ${of}`,
      points: points.map((p) => ({ x: p.rpm, y: torque(p[of].forecastNm) })),
      colour,
      dash: of === 'before' ? 'dashed' : 'solid',
    },
    {
      kind: 'dots',
      name: `measured ${of}`,
      points: points.map((p) => ({ x: p.rpm, y: torque(p[of].measuredNm) })),
      colour,
      shape: of === 'before' ? 'diamond' : 'circle',
    },
  ];
  return {
    id: 'before-and-after',
    title: 'Before and after',
    description:
      'Torque forecast as lines, measured as open marks. Only the sheet before was fitted; of the sheet after nothing was used but for this.',
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: `torque, ${torqueUnit}` },
        layers: [...side('before', 'b'), ...side('after', 'a')],
      },
    },
    table: figureTable(backtestPoints(units), points),
  };
}
