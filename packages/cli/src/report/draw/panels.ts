/** Small plots over the same two axes, one beside and below the other: what differs between them is what is drawn. */
import type { Data, Mark, Spec } from 'vega';
import { partsOf } from './layerMarks.ts';
import { LEGEND_ROW, legendOf } from './legend.ts';
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

export function panelsSpec({ x, y, panels }: Panels, width: number): Spec {
  const most = width > WIDE ? 3 : 2;
  const across = Math.min(most, panels.length);
  const down = Math.ceil(panels.length / across);
  const inner = Math.floor((width - LEFT - RIGHT - (across - 1) * GAP) / across);
  const height = width > WIDE ? (across === 1 ? 240 : 150) : 120;
  const titles = panels.map(({ title }) => linesOf(title, inner));
  const titleHeight = TITLE_LINE * Math.max(...titles.map((lines) => lines.length)) + 6;
  const step = titleHeight + height + ROW_GAP;
  const legend = legendOf(panels[0].layers, width - 4);
  const legendHeight = legend.rows * LEGEND_ROW + (legend.rows > 0 ? 4 : 0);
  const parts = panels.map(({ layers }) => layers.flatMap(partsOf));
  const all = parts.flat();
  const xRange = rangeOf(all, 'x');
  const xTicks = Math.max(2, Math.round(inner / 80));
  const group = (k: number): Mark => {
    const last = k + across >= panels.length;
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
        { ...axisOf('bottom', 'x', x, xTicks), labels: last, labelFlush: true },
        { ...levelsOf(y, TICKS), labels: k % across === 0 },
      ],
      marks: [
        ...layersMarks(parts[k], (i) => `panel${k}layer${i}`, xRange),
        ...titles[k].map(
          (line, i): Mark => ({
            type: 'text',
            encode: {
              enter: {
                x: { value: 0 },
                y: { value: -10 - (titles[k].length - 1 - i) * TITLE_LINE },
                text: { value: line },
                fontWeight: { value: 600 },
              },
            },
          }),
        ),
      ],
    };
  };
  return {
    // One panel is the plot; the others stand in what is called padding.
    width: inner,
    height,
    padding: {
      left: LEFT,
      right: RIGHT + (across - 1) * (inner + GAP),
      top: legendHeight + TITLE_ROW,
      bottom: BOTTOM + down * step - ROW_GAP - height,
    },
    autosize: 'none',
    data: parts.flatMap((layers, k) => layers.map((layer, i): Data => dataOf(layer, `panel${k}layer${i}`))),
    scales: [scaleOf('x', x, xRange), scaleOf('y', y, rangeOf(all, 'y'))],
    marks: [
      ...panels.map((_, k) => group(k)),
      ...legend.marks(2 - LEFT, -(legendHeight + TITLE_ROW)),
      words(y.title, { x: { value: 2 - LEFT }, y: { value: -8 } }),
      words(x.title, {
        x: { value: (across * (inner + GAP) - GAP) / 2 },
        y: { value: down * step - ROW_GAP + BOTTOM - 8 },
        align: { value: 'center' },
      }),
    ],
  };
}
