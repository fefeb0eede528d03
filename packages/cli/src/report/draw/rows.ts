/** Named amounts as bars from zero, one below the other, each with its error and its figure. */
import type { Spec } from 'vega';
import { textWidth } from './legend.ts';
import { linesOf } from './linesOf.ts';
import { type Colour, colour, wash } from './palette.ts';
import { FONT_SIZE } from './toSvg.ts';

export interface Row {
  readonly name: string;
  /** Stands before the name, apart from it. */
  readonly group?: string;
  readonly value: number;
  /** Ends of the error bar; null for none. */
  readonly error: readonly [low: number, high: number] | null;
  /** The figure in words, `+11 +/- 5 hp`. */
  readonly figure: string;
  readonly colour: Colour;
}

export interface Rows {
  /** Title of the axis with its unit. */
  readonly title: string;
  readonly rows: readonly Row[];
  /** Amounts too small to be told apart from nothing, shaded on both sides of zero; 0 for none. */
  readonly noise: number;
}

/** Height of a row on a narrow drawing: its name on a line of its own, then the bar. */
const ROW = 40;
/** Of a row on a wide one, where name and figure stand beside the bar. */
const WIDE_ROW = 28;
const BAR = 13;
/** Width from which on names stand beside the bars, and most of it they may take. */
const WIDE = 600;
const MOST_NAME = 0.36;
/** Room for half a figure of the axis on each side, for the axis with its title below, between name and figure. */
const SIDE = 20;
const BOTTOM = 46;
const GAP = 12;
/** Lines a name may take, and the height of one more. */
const MOST_LINES = 3;
const LINE = 15;

export function rowsSpec({ title, rows, noise }: Rows, width: number): Spec {
  const wide = width > WIDE;
  const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map(textWidth));
  const figureRoom = widest(rows.map(({ figure }) => figure));
  const groups = rows.map(({ group = '' }) => group);
  const groupRoom = groups.every((group) => group === '') ? 0 : widest(groups) + GAP;
  const nameRoom = Math.min(groupRoom + widest(rows.map(({ name }) => name)), width * MOST_NAME);
  const left = wide ? nameRoom + GAP + SIDE : SIDE;
  const right = wide ? figureRoom + GAP + SIDE : SIDE;
  const inner = width - left - right;
  const room = (figure: string): number => (wide ? nameRoom : inner - textWidth(figure) - GAP) - groupRoom;
  const names = rows.map(({ name, figure }) => linesOf(name, room(figure), MOST_LINES));
  const more = LINE * Math.max(0, ...names.map((lines) => lines.length - 1));
  const row = (wide ? WIDE_ROW : ROW) + more;
  const barTop = wide ? (row - BAR) / 2 : row - BAR - 4;
  const middle = barTop + BAR / 2;
  const text = wide ? middle + 5 : barTop - 6;
  const values = rows.map((row, i) => ({
    i,
    name: names[i],
    // The middle of its lines beside the bar, the last of them above it.
    nameAt: text - (wide ? LINE / 2 : LINE) * (names[i].length - 1),
    group: row.group ?? '',
    value: row.value,
    low: row.error?.[0] ?? row.value,
    high: row.error?.[1] ?? row.value,
    figure: row.figure,
    fill: row.error === null ? colour(row.colour) : wash(row.colour),
    stroke: colour(row.colour),
  }));
  const ends = [0, noise, -noise, ...values.flatMap(({ value, low, high }) => [value, low, high])];
  const below = (offset: number) => ({ scale: 'y', field: 'i', offset });
  return {
    width: inner,
    height: rows.length * row,
    padding: { left, right, top: 4, bottom: BOTTOM },
    // Nothing is measured, as in plots: the drawing is as wide as asked for.
    autosize: 'none',
    data: [{ name: 'rows', values }],
    scales: [
      {
        name: 'x',
        type: 'linear',
        domain: [Math.min(...ends), Math.max(...ends)],
        range: 'width',
        nice: true,
      },
      { name: 'y', type: 'linear', domain: [0, rows.length], range: [0, rows.length * row] },
    ],
    axes: [
      { orient: 'bottom', scale: 'x', title, tickCount: Math.round(inner / 90), grid: true, domain: false },
    ],
    marks: [
      {
        type: 'rect',
        encode: {
          enter: {
            x: { scale: 'x', value: -noise },
            x2: { scale: 'x', value: noise },
            y: { value: 0 },
            y2: { signal: 'height' },
            fill: { value: noise > 0 ? wash('soft') : 'transparent' },
          },
        },
      },
      {
        type: 'rule',
        encode: {
          enter: {
            x: { scale: 'x', value: 0 },
            y: { value: 0 },
            y2: { signal: 'height' },
            stroke: { value: colour('soft') },
          },
        },
      },
      // Where names stand above their bars, no line runs through the letters.
      ...(wide
        ? []
        : [
            {
              type: 'rect' as const,
              from: { data: 'rows' },
              encode: {
                enter: {
                  x: { value: -SIDE },
                  width: { value: width },
                  y: below(0),
                  height: { value: barTop - 3 },
                  fill: { value: 'var(--paper)' },
                },
              },
            },
          ]),
      {
        type: 'rect',
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { scale: 'x', value: 0 },
            x2: { scale: 'x', field: 'value' },
            y: below(barTop),
            height: { value: BAR },
            fill: { field: 'fill' },
            stroke: { field: 'stroke' },
            strokeWidth: { value: 1.5 },
          },
        },
      },
      {
        type: 'rule',
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { scale: 'x', field: 'low' },
            x2: { scale: 'x', field: 'high' },
            y: below(middle),
            stroke: { value: colour('ink') },
            strokeWidth: { value: 1.5 },
          },
        },
      },
      ...(['low', 'high'] as const).map((end) => ({
        type: 'rule' as const,
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { scale: 'x', field: end },
            y: below(middle - 4),
            y2: below(middle + 4),
            stroke: { value: colour('ink') },
            strokeWidth: { value: 1.5 },
          },
        },
      })),
      {
        type: 'text',
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { value: (wide ? -left + SIDE : 0) + groupRoom },
            y: { scale: 'y', field: 'i', offset: { field: 'nameAt' } },
            text: { field: 'name' },
            lineHeight: { value: LINE },
            fontWeight: { value: 600 },
          },
        },
      },
      {
        type: 'text',
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { value: wide ? -left + SIDE : 0 },
            y: { scale: 'y', field: 'i', offset: { field: 'nameAt' } },
            text: { field: 'group' },
            fill: { value: colour('soft') },
          },
        },
      },
      {
        type: 'text',
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { value: wide ? inner + right - SIDE : inner },
            y: below(text),
            align: { value: 'right' },
            text: { field: 'figure' },
            fill: { value: colour('soft') },
            fontSize: { value: FONT_SIZE },
          },
        },
      },
    ],
  };
}
