/** Torque as measured, in dots, over the forecasts of it, in lines. */
import type { BacktestResult, CalibrationResult } from '@valvetide/core';
import { type Line, linesChart } from './linesChart.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN } from './units.ts';
import { wrap } from './wrap.ts';

type Options = Pick<TextOptions, 'width' | 'units'>;

/** Measured torque against the forecasts before and after the fit; empty where only peaks were fitted. */
export function calibrationChart({ points }: CalibrationResult, { width, units }: Options): string {
  const { torque, torqueUnit } = SHOWN[units];
  const figures = points.filter(({ kind }) => kind === 'torque');
  const line = (letter: string, of: 'measured' | 'before' | 'after'): Line => ({
    letter,
    points: figures.map((point) => ({ x: point.rpm, y: torque(point[of]) })),
  });
  const key = `Torque ${torqueUnit}: o measured, b forecast before the fit, a after it, # both`;
  return keyed(key, [line('b', 'before'), line('a', 'after')], [line('o', 'measured')], width);
}

/** Measured torque of both sheets against the forecasts of both. */
export function backtestChart({ points }: BacktestResult, { width, units }: Options): string {
  const { torque, torqueUnit } = SHOWN[units];
  const line = (letter: string, side: 'before' | 'after', of: 'measuredNm' | 'forecastNm'): Line => ({
    letter,
    points: points.map((point) => ({ x: point.rpm, y: torque(point[side][of]) })),
  });
  const key = `Torque ${torqueUnit} before the change: o measured, b forecast; after it: x measured, a forecast; # both forecasts`;
  return keyed(
    key,
    [line('b', 'before', 'forecastNm'), line('a', 'after', 'forecastNm')],
    [line('o', 'before', 'measuredNm'), line('x', 'after', 'measuredNm')],
    width,
  );
}

function keyed(key: string, lines: readonly Line[], dots: readonly Line[], width: number): string {
  const picture = linesChart(lines, { width, unit: 'rpm', zero: false, dots });
  return picture === '' ? '' : `${wrap(key, width).join('\n')}\n${picture}`;
}
