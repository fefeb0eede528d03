/** Named amounts as bars from zero, one below the other, each with its error and its figure. */
import type { Mark, Spec } from 'vega';
import { textWidth } from './legend.ts';
import { linesOf } from './linesOf.ts';
import { type Colour, colour, wash } from './palette.ts';
import { FONT_SIZE } from './toSvg.ts';

/** An amount with its name. */
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

/** Amounts on one axis. */
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

/** Where everything of a row stands [px]. */
interface RowLayout {
  /** Whether names and figures stand beside the bars, or above them. */
  readonly wide: boolean;
  readonly width: number;
  /** Room beside the bars, and what is left for them. */
  readonly left: number;
  readonly right: number;
  readonly inner: number;
  /** Room for the groups before the names. */
  readonly groupRoom: number;
  /** Lines of each name. */
  readonly names: readonly (readonly string[])[];
  /** Height of a row; in it the top of the bar, its middle, and the line that words stand on. */
  readonly row: number;
  readonly barTop: number;
  readonly middle: number;
  readonly text: number;
}

function layoutOf(rows: readonly Row[], width: number): RowLayout {
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
  return { wide, width, left, right, inner, groupRoom, names, row, barTop, middle, text };
}

/** The drawing, as wide as asked for [px]. */
export function rowsSpec({ title, rows, noise }: Rows, width: number): Spec {
  const layout = layoutOf(rows, width);
  const { wide, left, right, inner, names, row, text } = layout;
  const values = rows.map(({ group = '', value, error, figure, colour: own }, i) => ({
    i,
    name: names[i],
    // The middle of its lines beside the bar, the last of them above it.
    nameAt: text - (wide ? LINE / 2 : LINE) * (names[i].length - 1),
    group,
    value,
    low: error?.[0] ?? value,
    high: error?.[1] ?? value,
    figure,
    fill: error === null ? colour(own) : wash(own),
    stroke: colour(own),
  }));
  const ends = [0, noise, -noise, ...values.flatMap(({ value, low, high }) => [value, low, high])];
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
    marks: [...ground(noise, layout), ...bars(layout), ...words(layout)],
  };
}

const from = { data: 'rows' };

/** So far below the top of its row. */
const below = (offset: number) => ({ scale: 'y', field: 'i', offset });

/** What is too small to be told apart, the line of nothing, and paper under the names. */
function ground(noise: number, { wide, width, barTop }: RowLayout): Mark[] {
  const strip: Mark = {
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
  };
  const zero: Mark = {
    type: 'rule',
    encode: {
      enter: {
        x: { scale: 'x', value: 0 },
        y: { value: 0 },
        y2: { signal: 'height' },
        stroke: { value: colour('soft') },
      },
    },
  };
  // Where names stand above their bars, no line runs through the letters.
  const paper: Mark = {
    type: 'rect',
    from,
    encode: {
      enter: {
        x: { value: -SIDE },
        width: { value: width },
        y: below(0),
        height: { value: barTop - 3 },
        fill: { value: 'var(--paper)' },
      },
    },
  };
  return wide ? [strip, zero] : [strip, zero, paper];
}

/** The bars with their errors. */
function bars({ barTop, middle }: RowLayout): Mark[] {
  const ink = { stroke: { value: colour('ink') }, strokeWidth: { value: 1.5 } };
  return [
    {
      type: 'rect',
      from,
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
      from,
      encode: {
        enter: {
          x: { scale: 'x', field: 'low' },
          x2: { scale: 'x', field: 'high' },
          y: below(middle),
          ...ink,
        },
      },
    },
    ...(['low', 'high'] as const).map(
      (end): Mark => ({
        type: 'rule',
        from,
        encode: {
          enter: { x: { scale: 'x', field: end }, y: below(middle - 4), y2: below(middle + 4), ...ink },
        },
      }),
    ),
  ];
}

/** Names, their groups and the figures. */
function words({ wide, left, right, inner, groupRoom, text }: RowLayout): Mark[] {
  const nameY = { scale: 'y', field: 'i', offset: { field: 'nameAt' } };
  const begin = wide ? -left + SIDE : 0;
  return [
    {
      type: 'text',
      from,
      encode: {
        enter: {
          x: { value: begin + groupRoom },
          y: nameY,
          text: { field: 'name' },
          lineHeight: { value: LINE },
          fontWeight: { value: 600 },
        },
      },
    },
    {
      type: 'text',
      from,
      encode: {
        enter: {
          x: { value: begin },
          y: nameY,
          text: { field: 'group' },
          fill: { value: colour('soft') },
        },
      },
    },
    {
      type: 'text',
      from,
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
  ];
}
