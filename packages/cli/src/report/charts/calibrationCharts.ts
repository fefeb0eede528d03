/** A fit before and after, beside what was measured; and how far each knob moved. */
import type { CalibrationResult } from '@valvetide/core';
import { calibrationPoints, knobColumns } from '../../render/calibrationText.ts';
import { fixed } from '../../render/fixed.ts';
import { signed } from '../../render/signed.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import { type Figure, figureTable } from '../figure.ts';
import { SPEED_AXIS } from './bySpeed.ts';

/** Torque measured and forecast; null where only peaks were measured. */
export function fitBySpeed(result: CalibrationResult, units: UnitSystem): Figure | null {
  const points = result.points.filter(({ kind }) => kind === 'torque');
  if (points.length < 2) return null;
  const { torque, torqueUnit } = SHOWN[units];
  const along = (side: 'before' | 'after' | 'measured') =>
    points.map((p) => ({ x: p.rpm, y: torque(p[side]) }));
  return {
    id: 'fit',
    title: 'Measured and forecast',
    description: `Torque of the sheet beside the forecast before and after the fit; off by ${fixed(100 * result.error.before, 1)} % before, ${fixed(100 * result.error.after, 1)} % after, root mean square. Shaded: one standard deviation that the fit allows a figure.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: `torque, ${torqueUnit}` },
        layers: [
          {
            kind: 'ribbon',
            name: 'allowed',
            colour: 'soft',
            points: points.map((p) => ({
              x: p.rpm,
              low: torque(p.measured - p.sigma),
              high: torque(p.measured + p.sigma),
            })),
          },
          { kind: 'line', name: 'before', points: along('before'), colour: 'b', dash: 'dashed' },
          { kind: 'line', name: 'after', points: along('after'), colour: 'a' },
          { kind: 'dots', name: 'measured', points: along('measured'), colour: 'ink', shape: 'circle' },
        ],
      },
    },
    table: figureTable(calibrationPoints(result, units), result.points),
  };
}

/** How far the forecast is off the sheet, before and after; null where only peaks were measured. */
export function fitDifference(result: CalibrationResult, units: UnitSystem): Figure | null {
  const points = result.points.filter(({ kind }) => kind === 'torque');
  if (points.length < 2) return null;
  const off = (side: 'before' | 'after') =>
    points.map((p) => ({ x: p.rpm, y: 100 * (p[side] / p.measured - 1) }));
  return {
    id: 'fit-difference',
    title: 'What the fit left over',
    description:
      'Forecast torque less measured torque, before and after the fit. Shaded: one standard deviation that the fit allows a figure. What no knob explains stays visible: there is no correction by speed.',
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'forecast less measured, %', zero: true },
        layers: [
          {
            kind: 'ribbon',
            name: 'allowed',
            colour: 'soft',
            points: points.map((p) => {
              const high = (100 * p.sigma) / p.measured;
              return { x: p.rpm, low: -high, high };
            }),
          },
          { kind: 'rule', name: null, y: 0, colour: 'ink' },
          { kind: 'line', name: 'before', points: off('before'), colour: 'b', dash: 'dashed', marked: true },
          { kind: 'line', name: 'after', points: off('after'), colour: 'a', marked: true },
        ],
      },
    },
    table: figureTable(calibrationPoints(result, units), points),
  };
}

/** Each knob's move, in standard deviations of what was believed of it before. */
export function knobMoves({ knobs }: CalibrationResult): Figure {
  return {
    id: 'knobs',
    title: 'How far each knob moved',
    description:
      'In standard deviations of what was believed before; the error bar is what is left uncertain. Shaded: one standard deviation either way, no reason for surprise.',
    drawing: {
      kind: 'rows',
      rows: {
        title: 'standard deviations of the estimate',
        noise: 1,
        rows: knobs.map(({ what, before, after, spread, spreadBefore, unit }) => {
          const moved = (after - before) / spreadBefore;
          const left = spread / spreadBefore;
          return {
            name: what,
            value: moved,
            error: [moved - left, moved + left],
            figure: `${fixed(before, 3)} to ${fixed(after, 3)}${unit === '' ? '' : ` ${unit}`}, ${signed(moved, 1)}`,
            colour: moved < 0 ? 'b' : 'a',
          };
        }),
      },
    },
    table: figureTable(knobColumns(), knobs),
  };
}
