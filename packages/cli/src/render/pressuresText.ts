/** Measured pressures beside forecast ones, for people: what the waves do, and when. */
import type { PressureComparison, PressureOverlay } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { wrapped } from './notes.ts';
import { answerText, madeBy } from './paragraphs.ts';
import { plain } from './plain.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN_LENGTH, SHOWN_PRESSURE, type UnitSystem } from './units.ts';

/** Likeness below which a lag says little [-]. */
const UNLIKE = 0.8;

export function pressuresText(compared: PressureComparison, options: TextOptions): string {
  const { width, units, detail } = options;
  const { overlays, notes, program } = compared;
  const answer = overlays.map((overlay) => answerText(pressureAnswer(overlay), options)).join('');
  if (detail === 'quiet') return answer;
  return [
    answer,
    table(pressureColumns(units), overlays, width),
    ...notes.map((note) => wrapped(plain(note), width)),
    madeBy(program),
  ].join('\n');
}

/** When the waves come, in one sentence. */
export function pressureAnswer({ place, rpm, lagDeg, likeness, status }: PressureOverlay): string {
  const where = `${titled(place)} at ${fixed(rpm)} rpm`;
  const unsettled = status === 'settled' ? '' : ' The cycle of the forecast had not settled.';
  if (lagDeg === null || likeness < UNLIKE)
    return `${where}: the waves are not alike (${fixed(100 * likeness)} %), so that their timing can't be compared.${unsettled}`;
  const lag = Math.abs(lagDeg);
  const timing =
    lag < LAG_TOLD
      ? 'the waves of the forecast come when the measured ones do'
      : `the waves of the forecast come ${fixed(lag, 1)} crank deg ${lagDeg > 0 ? 'late' : 'early'}`;
  return `${where}: ${timing}; ${fixed(100 * likeness)} % alike.${unsettled}`;
}

/** Less than this is none [deg]: sensors and encoders are not truer. */
const LAG_TOLD = 0.5;

const titled = (word: string): string => `${word.slice(0, 1).toUpperCase()}${word.slice(1)}`;

export function pressureColumns(units: UnitSystem): readonly Column<PressureOverlay>[] {
  const { of: shown, unit, decimals } = SHOWN_PRESSURE[units];
  const length = SHOWN_LENGTH[units];
  const figure = (name: string, of: (overlay: PressureOverlay) => number): Column<PressureOverlay> => ({
    name,
    unit,
    cell: (overlay) => fixed(shown(of(overlay)), decimals),
  });
  return [
    { name: 'place', unit: '', cell: ({ place }) => place },
    { name: 'speed', unit: 'rpm', cell: ({ rpm }) => fixed(rpm) },
    { name: 'cylinder', unit: '', cell: ({ cylinder }) => fixed(cylinder) },
    {
      name: 'from valve',
      unit: length.unit,
      // Of a sensor nobody measures more.
      cell: ({ place, fromValveM }) =>
        place === 'cylinder' ? '-' : fixed(length.of(1000 * fromValveM), units === 'trade' ? 1 : 0),
    },
    figure('mean, measured', (o) => o.meanMeasuredPa),
    {
      name: 'forecast less measured',
      unit,
      cell: (o) => signed(shown(o.meanForecastPa - o.meanMeasuredPa), decimals),
    },
    figure('swing, measured', (o) => o.swingMeasuredPa),
    {
      name: 'forecast less measured',
      unit: '%',
      cell: (o) => signed(100 * (o.swingForecastPa / o.swingMeasuredPa - 1), 1),
    },
    {
      name: 'late',
      unit: 'crank deg',
      cell: ({ lagDeg }) => (lagDeg === null ? '-' : signed(lagDeg, 1)),
    },
    { name: 'alike', unit: '%', cell: ({ likeness }) => fixed(100 * likeness, 1) },
    figure('root mean square', (o) => o.rootMeanSquarePa),
  ];
}
