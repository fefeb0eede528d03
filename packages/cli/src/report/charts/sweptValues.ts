/** Mean power over the values of one field, or over a grid of two. */

import type { SweepPoint, SweepResult } from '@valvetide/core';
import { markedName } from '../../render/breaches.ts';
import { fixed } from '../../render/fixed.ts';
import { plain, plainShort } from '../../render/plain.ts';
import { peakFigure } from '../../render/shortFigure.ts';
import { signed } from '../../render/signed.ts';
import { type SweptNumbers, sweptNumbers } from '../../render/sweptNumbers.ts';
import type { Column } from '../../render/table.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import { gridSpec } from '../draw/grid.ts';
import { type Figure, figureTable } from '../figure.ts';

export function sweptValues(sweep: SweepResult, units: UnitSystem): Figure {
  const { power, powerUnit } = SHOWN[units];
  const drawing =
    sweep.variables.length === 2
      ? map(sweep)
      : (line(sweep, power, powerUnit) ?? bars(sweep, power, powerUnit));
  const place = sweep.variables.map(({ path }) => plainShort(path, 60)).join(' and ');
  return {
    id: 'swept-values',
    title: `Mean power by ${place}`,
    description: `${sweep.best === null ? '' : `Best at ${sweep.best.values.map((value) => plain(String(value))).join(', ')}. `}${sweep.variables.length === 2 ? 'Each cell: gain of mean power against the combination as it is, in percent; the best is framed, a dash has no engine.' : 'Mean power over the band, at each value tried.'}${brokenAt(sweep.points)}`,
    drawing,
    table: figureTable(columns(sweep, units), sweep.points),
  };
}

/** Least span of mean power that is drawn, over its largest: less makes a hill of what no dyno tells [-]. */
const LEAST_SPAN = 0.08;

/** The values that break a limit, in a sentence. */
function brokenAt(points: readonly SweepPoint[]): string {
  const broken = points.filter(({ breaches }) => breaches.length > 0);
  if (broken.length === 0) return '';
  const most = 6;
  const named = broken.slice(0, most).map(({ values }) => plainShort(values.join(', '), 30));
  const rest = broken.length > most ? ` and ${broken.length - most} others` : '';
  return ` Breaks a limit, marked !, at ${named.join('; ')}${rest}.`;
}

/** A scale that a line can be drawn along; null where one value, or no order, makes none. */
export function alongScale(values: readonly (string | number)[]): SweptNumbers | null {
  const found = sweptNumbers(values);
  const rises = found?.numbers.every((n, i) => i === 0 || n > found.numbers[i - 1]) === true;
  return values.length > 1 && rises ? found : null;
}

function line(
  { variables: [variable], points, best, baseline }: SweepResult,
  power: (kw: number) => number,
  unit: string,
): Figure['drawing'] | null {
  const scale = alongScale(variable.values);
  if (scale === null) return null;
  const drawn = points.flatMap(({ figures }, i) =>
    figures === null ? [] : [{ x: scale.numbers[i], y: power(figures.band.powerKw) }],
  );
  if (drawn.length === 0) return null;
  const top = best === null ? null : points[best.index].figures;
  return {
    kind: 'plot',
    plot: {
      x: {
        title: `${plainShort(variable.path, 40)}${scale.unit === '' ? '' : `, ${plainShort(scale.unit, 12)}`}`,
      },
      y: { title: `mean power, ${unit}`, least: LEAST_SPAN * Math.max(...drawn.map(({ y }) => y)) },
      layers: [
        ...(baseline === null
          ? []
          : [
              {
                kind: 'rule' as const,
                name: 'as it is',
                y: power(baseline.band.powerKw),
                colour: 'soft' as const,
                dash: 'dashed' as const,
              },
            ]),
        { kind: 'line', name: 'with the value', points: drawn, colour: 'a', marked: true },
        ...(best === null || top === null
          ? []
          : [
              {
                kind: 'note' as const,
                x: scale.numbers[best.index],
                y: power(top.band.powerKw),
                text: `${fixed(power(top.band.powerKw), 1)} ${unit}`,
                colour: 'a' as const,
                side: 'above' as const,
              },
            ]),
      ],
    },
  };
}

function bars(
  { points, baseline }: SweepResult,
  power: (kw: number) => number,
  unit: string,
): Figure['drawing'] {
  return {
    kind: 'rows',
    rows: {
      title: baseline === null ? `mean power, ${unit}` : 'gain of mean power, %',
      noise: 0,
      rows: points.flatMap(({ values, figures, bandGainPct }) =>
        figures === null
          ? []
          : [
              {
                name: plainShort(values.join(', '), 40),
                value: bandGainPct ?? power(figures.band.powerKw),
                error: null,
                figure: `${fixed(power(figures.band.powerKw), 1)} ${unit}`,
                colour: (bandGainPct ?? 0) < 0 ? ('b' as const) : ('a' as const),
              },
            ],
      ),
    },
  };
}

function map({ variables: [down, across], points, best }: SweepResult): Figure['drawing'] {
  const text = ({ bandGainPct, figures, breaches }: SweepPoint): string =>
    bandGainPct === null
      ? figures === null
        ? '-'
        : '?'
      : `${signed(bandGainPct, 1)}${breaches.length > 0 ? '!' : ''}`;
  return {
    kind: 'spec',
    spec: (width) =>
      gridSpec(
        {
          rowTitle: `down: ${plainShort(down.path, 40)}`,
          columnTitle: `across: ${plainShort(across.path, 40)}`,
          rows: down.values.map((value) => plain(String(value))),
          columns: across.values.map((value) => plain(String(value))),
          cells: points.map((point, i) => ({
            row: Math.floor(i / across.values.length),
            column: i % across.values.length,
            value: point.bandGainPct,
            text: text(point),
            marked: i === best?.index,
          })),
        },
        width,
      ),
  };
}

function columns({ variables }: SweepResult, units: UnitSystem): Column<SweepPoint>[] {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  return [
    ...variables.map(({ path }, i) => ({
      name: plainShort(path, 40),
      unit: '',
      cell: (point: SweepPoint) =>
        i === 0 ? markedName(String(point.values[i]), point) : String(point.values[i]),
      align: 'left' as const,
    })),
    {
      name: 'mean power',
      unit: powerUnit,
      cell: ({ figures, refused }) =>
        figures === null ? (refused === null ? 'not run' : 'refused') : fixed(power(figures.band.powerKw), 1),
    },
    {
      name: 'gain',
      unit: '%',
      cell: ({ bandGainPct }) => (bandGainPct === null ? '' : signed(bandGainPct, 1)),
    },
    {
      name: 'peak torque',
      unit: torqueUnit,
      cell: ({ figures }) => (figures === null ? '' : peakFigure(torque(figures.peak.torque.torqueNm))),
    },
    {
      name: 'peak power',
      unit: powerUnit,
      cell: ({ figures }) => (figures === null ? '' : peakFigure(power(figures.peak.power.powerKw))),
    },
    {
      name: 'worst loss',
      unit: '%',
      cell: ({ worstLoss }) => (worstLoss === null ? '' : fixed(worstLoss.torquePct, 1)),
    },
  ];
}
