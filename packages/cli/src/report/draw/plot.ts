/** A diagram of lines, ribbons, dots and bands over two axes, as data. */
import type { Colour } from './palette.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export type Dash = 'solid' | 'dashed' | 'dotted';

export type Shape = 'circle' | 'square' | 'diamond' | 'triangle-up';

export const DASHES: Readonly<Record<Dash, readonly number[]>> = {
  solid: [],
  dashed: [8, 4],
  dotted: [2, 3],
};

export type Layer =
  | {
      readonly kind: 'line';
      /** Shown in the legend; null: not shown. */
      readonly name: string | null;
      readonly points: readonly Point[];
      readonly colour: Colour;
      readonly dash?: Dash;
      /** Marks each point. */
      readonly marked?: boolean;
      /** Shape of the marks; else a circle. */
      readonly shape?: Shape;
      /** Points farther apart than this are joined by a broken line: nothing is known between them. */
      readonly far?: number;
    }
  | {
      readonly kind: 'ribbon';
      readonly name: string | null;
      readonly points: readonly { readonly x: number; readonly low: number; readonly high: number }[];
      readonly colour: Colour;
    }
  | {
      readonly kind: 'dots';
      readonly name: string | null;
      readonly points: readonly Point[];
      readonly colour: Colour;
      readonly shape: Shape;
    }
  /** From one x to another over the whole height. */
  | { readonly kind: 'span'; readonly name: string | null; readonly from: number; readonly to: number }
  /** A level or an upright over the whole width or height. */
  | {
      readonly kind: 'rule';
      readonly name: string | null;
      readonly x?: number;
      readonly y?: number;
      readonly colour: Colour;
      readonly dash?: Dash;
    }
  /** Bars from zero, side by side over the whole width of each class. */
  | {
      readonly kind: 'bars';
      readonly name: string | null;
      readonly bars: readonly { readonly from: number; readonly to: number; readonly y: number }[];
      readonly colour: Colour;
    }
  | {
      readonly kind: 'note';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly colour: Colour;
      readonly side: 'above' | 'below';
    };

export interface Axis {
  readonly title: string;
  /** Ends of the axis; else round numbers around everything drawn. */
  readonly domain?: readonly [number, number];
  /** Least span: an axis that ends around what is drawn makes much of next to nothing. */
  readonly least?: number;
  /** The axis has to show zero. */
  readonly zero?: boolean;
  /** Powers of ten, for values above zero. */
  readonly log?: boolean;
  /** Whole numbers without separators, as speeds are written. */
  readonly whole?: boolean;
}

export interface Plot {
  readonly x: Axis;
  readonly y: Axis;
  /** Painted in this order, the first at the bottom. */
  readonly layers: readonly Layer[];
}

/** Outer size of a drawing. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Two of these stand side by side on a wide screen; one fills a telephone, its type still readable. */
export const USUAL_SIZE: Size = { width: 430, height: 300 };
/** The leading drawing on a wide screen. */
export const WIDE_SIZE: Size = { width: 960, height: 430 };
