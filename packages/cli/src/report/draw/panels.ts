/** Small plots over the same two axes, one beside and below the other: what differs between them is what is drawn. */
import type { Data, Mark, Spec } from 'vega';
import { partsOf } from './layerMarks.ts';
import { LEGEND_ROW, type Legend, legendOf } from './legend.ts';
import { linesOf } from './linesOf.ts';
import type { Axis, Layer } from './plot.ts';
import {
  axisOf,
  BOTTOM,
  dataOf,
  LEFT,
  layersMarks,
  levelsOf,
  RIGHT,
  rangeOf,
  scaleOf,
  TITLE_ROW,
  words,
} from './plotSpec.ts';

export interface Panel {
  readonly title: string;
  /** Painted in this order; named alike in every panel, since one legend serves them all. */
  readonly layers: readonly Layer[];
}

export interface Panels {
  readonly x: Axis;
  readonly y: Axis;
  readonly panels: readonly Panel[];
}

/** Width from which on three stand side by side. */
const WIDE = 600;
const GAP = 18;
const ROW_GAP = 12;
const TITLE_LINE = 18;
const TICKS = 4;

export function panelsSpec(panels: Panels, width: number): Spec {
  const { x, y } = panels;
  const parts = panels.panels.map(({ layers }) => layers.flatMap(partsOf));
  const all = parts.flat();
  const xRange = rangeOf(all, 'x');
  const size = sizeOf(panels, width);
  const { across, inner, height, legend } = size;
  const above = TITLE_ROW + legend.rows * LEGEND_ROW + (legend.rows > 0 ? 4 : 0);
  const below = size.down * size.step - ROW_GAP;
  return {
    // One panel is the plot; the others stand in what is called padding.
    width: inner,
    height,
    padding: {
      left: LEFT,
      right: RIGHT + (across - 1) * (inner + GAP),
      top: above,
      bottom: BOTTOM + below - height,
    },
    autosize: 'none',
    data: parts.flatMap((layers, k) => layers.map((layer, i): Data => dataOf(layer, `panel${k}layer${i}`))),
    scales: [scaleOf('x', x, xRange), scaleOf('y', y, rangeOf(all, 'y'))],
    marks: [
      ...parts.map((layers, k) =>
        panelMark(
          panels,
          size,
          k,
          layersMarks(layers, (i) => `panel${k}layer${i}`, xRange),
        ),
      ),
      ...legend.marks(2 - LEFT, -above),
      words(y.title, { x: { value: 2 - LEFT }, y: { value: -8 } }),
      words(x.title, {
        x: { value: (across * (inner + GAP) - GAP) / 2 },
        y: { value: below + BOTTOM - 8 },
        align: { value: 'center' },
      }),
    ],
  };
}

/** How many panels stand beside and below each other, and how large. */
interface PanelsSize {
  readonly across: number;
  readonly down: number;
  /** Width and height of a panel. */
  readonly inner: number;
  readonly height: number;
  /** Lines of each title. */
  readonly titles: readonly (readonly string[])[];
  readonly titleHeight: number;
  /** From the top of a row to that of the next. */
  readonly step: number;
  readonly legend: Legend;
}

function sizeOf({ panels }: Panels, width: number): PanelsSize {
  const across = Math.min(width > WIDE ? 3 : 2, panels.length);
  const inner = Math.floor((width - LEFT - RIGHT - (across - 1) * GAP) / across);
  const height = width > WIDE ? (across === 1 ? 240 : 150) : 120;
  const titles = panels.map(({ title }) => linesOf(title, inner));
  const titleHeight = TITLE_LINE * Math.max(...titles.map((lines) => lines.length)) + 6;
  return {
    across,
    down: Math.ceil(panels.length / across),
    inner,
    height,
    titles,
    titleHeight,
    step: titleHeight + height + ROW_GAP,
    legend: legendOf(panels[0].layers, width - 4),
  };
}

/** A panel in its place, its axes named only where no other stands below or to the left. */
function panelMark({ x, y, panels }: Panels, size: PanelsSize, k: number, marks: Mark[]): Mark {
  const { across, inner, height, step, titleHeight, titles } = size;
  const isLowest = k + across >= panels.length;
  return {
    type: 'group',
    encode: {
      enter: {
        x: { value: (k % across) * (inner + GAP) },
        y: { value: Math.floor(k / across) * step + titleHeight },
        width: { value: inner },
        height: { value: height },
      },
    },
    axes: [
      {
        ...axisOf('bottom', 'x', x, Math.max(2, Math.round(inner / 80))),
        labels: isLowest,
        labelFlush: true,
      },
      { ...levelsOf(y, TICKS), labels: k % across === 0 },
    ],
    marks: [...marks, ...titles[k].map((line, i) => titleMark(line, titles[k].length - 1 - i))],
  };
}

/** @param under - lines of the title below this one */
function titleMark(line: string, under: number): Mark {
  return {
    type: 'text',
    encode: {
      enter: {
        x: { value: 0 },
        y: { value: -10 - under * TITLE_LINE },
        text: { value: line },
        fontWeight: { value: 600 },
      },
    },
  };
}
