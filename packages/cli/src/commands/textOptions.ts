/** How a result is told to people where it goes. */
import type { Invocation } from '../commandSpec.ts';
import type { Destination } from '../output/deliver.ts';
import { NO_PAINT, paintFor } from '../render/paint.ts';
import type { TextOptions } from '../render/textOptions.ts';
import type { UnitSystem } from '../render/units.ts';
import { widthOf } from '../render/width.ts';
import { detailOf, unitsOf } from './readFlags.ts';

/** @param asked - units that the file asks for */
export function textOptionsOf(
  { flags, io }: Pick<Invocation, 'flags' | 'io'>,
  { path }: Pick<Destination, 'path'>,
  asked: UnitSystem,
): TextOptions {
  return {
    width: widthOf(io.stdout),
    units: unitsOf(flags, asked),
    paint: path === undefined ? paintFor(io.stdout, io.env, flags.color) : NO_PAINT,
    detail: detailOf(flags),
  };
}
