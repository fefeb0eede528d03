/** The names of a plot's layers in rows above it, each beside a sample of how it is drawn. */
import type { Mark } from 'vega';
import { dotOf, strokeOf, washOf } from './paint.ts';
import { colour } from './palette.ts';
import type { Layer } from './plot.ts';
import { FONT_SIZE } from './toSvg.ts';

export interface Legend {
  readonly rows: number;
  /** Marks whose rows start at `top`, counted downwards from the plot's upper edge (so negative). */
  readonly marks: (left: number, top: number) => Mark[];
}

export const LEGEND_ROW = 20;
const SAMPLE = 24;
const GAP = 18;
/** Width of an average letter over the type size; measured on common sans-serif faces, with a little to spare. */
const LETTER = 0.58;

export const textWidth = (text: string): number => text.length * FONT_SIZE * LETTER;

/** A single layer needs no legend: the title says what it is. */
export function legendOf(layers: readonly Layer[], width: number): Legend {
  const entries = layers.flatMap((layer) =>
    layer.kind === 'note' || layer.name === null ? [] : [{ layer, name: layer.name }],
  );
  if (entries.length < 2) return { rows: 0, marks: () => [] };
  let row = 0;
  let x = 0;
  const placed = entries.map(({ layer, name }) => {
    const takes = SAMPLE + 6 + textWidth(name);
    if (x > 0 && x + takes > width) {
      row++;
      x = 0;
    }
    const place = { layer, name, row, x };
    x += takes + GAP;
    return place;
  });
  return {
    rows: row + 1,
    marks: (left, top) =>
      placed.flatMap((place) => {
        const middle = top + place.row * LEGEND_ROW + LEGEND_ROW / 2;
        const label: Mark = {
          type: 'text',
          encode: {
            enter: {
              x: { value: left + place.x + SAMPLE + 6 },
              y: { value: middle },
              text: { value: place.name },
              baseline: { value: 'middle' },
            },
          },
        };
        return [...sampleOf(place.layer, left + place.x, middle), label];
      }),
  };
}

/** How a layer is drawn, in little. */
function sampleOf(layer: Layer, x: number, y: number): Mark[] {
  switch (layer.kind) {
    case 'line':
      return [strokeSample(layer, x, y), ...shapeSample(layer, x, y)];
    case 'rule':
      return [strokeSample(layer, x, y)];
    case 'dots': {
      const enter = { x: { value: x + SAMPLE / 2 }, y: { value: y }, ...dotOf(layer) };
      return [{ type: 'symbol', encode: { enter } }];
    }
    case 'ribbon':
    case 'span':
    case 'bars': {
      const box = { x: { value: x }, width: { value: SAMPLE }, y: { value: y - 6 }, height: { value: 12 } };
      return [{ type: 'rect', encode: { enter: { ...box, ...washOf(layer) } } }];
    }
    case 'note':
      return [];
  }
}

function strokeSample(layer: Parameters<typeof strokeOf>[0], x: number, y: number): Mark {
  const enter = { x: { value: x }, x2: { value: x + SAMPLE }, y: { value: y }, ...strokeOf(layer) };
  return { type: 'rule', encode: { enter } };
}

/** The mark of a line whose points have a shape of their own. */
function shapeSample({ shape, colour: name }: LineLook, x: number, y: number): Mark[] {
  if (shape === undefined) return [];
  const enter = {
    x: { value: x + SAMPLE / 2 },
    y: { value: y },
    shape: { value: shape },
    size: { value: 55 },
    fill: { value: colour(name) },
  };
  return [{ type: 'symbol', encode: { enter } }];
}

type LineLook = Pick<Extract<Layer, { kind: 'line' }>, 'shape' | 'colour'>;
