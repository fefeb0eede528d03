/** A band of speeds in a sentence. */
import type { SpeedBand } from '@valvetide/core';
import { fixed } from './fixed.ts';

/** `over 3500 to 7000 rpm`, or `at 5500 rpm`. */
export function bandText({ band: { fromRpm, toRpm } }: { readonly band: SpeedBand }): string {
  return fromRpm === toRpm ? `at ${fixed(fromRpm)} rpm` : `over ${fixed(fromRpm)} to ${fixed(toRpm)} rpm`;
}
