/** How layers are painted, alike in a plot and in its legend; where, each says itself. */
import type { EncodeEntry } from 'vega';
import { colour, wash } from './palette.ts';
import { DASHES, type Layer } from './plot.ts';

type LayerOf<Kind extends Layer['kind']> = Extract<Layer, { kind: Kind }>;

/** A line, or a level or an upright. */
export function strokeOf(layer: LayerOf<'line'> | LayerOf<'rule'>): EncodeEntry {
  return {
    stroke: { value: colour(layer.colour) },
    strokeWidth: { value: layer.kind === 'line' ? 2.5 : 1.5 },
    strokeDash: { value: [...DASHES[layer.dash ?? 'solid']] },
  };
}

/** Points by themselves. */
export function dotOf({ colour: name, shape }: LayerOf<'dots'>): EncodeEntry {
  return {
    shape: { value: shape },
    size: { value: 55 },
    fill: { value: 'var(--paper)' },
    stroke: { value: colour(name) },
    strokeWidth: { value: 2 },
  };
}

/** An area. */
export function washOf(layer: LayerOf<'ribbon'> | LayerOf<'span'> | LayerOf<'bars'>): EncodeEntry {
  const fill = { value: wash(layer.kind === 'span' ? 'soft' : layer.colour) };
  if (layer.kind !== 'bars') return { fill };
  return { fill, stroke: { value: colour(layer.colour) }, strokeWidth: { value: 1 } };
}
