/** Which knobs of an engine are fitted to its dyno sheets. */
import type { KnobName } from '@valvetide/core';
import { misuse } from '../commandFailure.ts';
import type { Invocation, OptionSpec } from '../commandSpec.ts';
import { plainShort } from '../render/plain.ts';

export const KNOBS_OPTION: OptionSpec = {
  name: 'knobs',
  value: 'LIST',
  help: 'what to fit: any of flow, metering, heat, efficiency, friction, length, dyno; without it all but efficiency',
};

/** The knobs that `--knobs` names; undefined where it was left out. */
export function knobNames({ flags, core }: Invocation): readonly KnobName[] | undefined {
  const text = flags.text('knobs');
  if (text === undefined) return undefined;
  const words = text.split(',').map((word) => word.trim());
  const known = words.flatMap((word) => core.KNOB_NAMES.find((name) => name === word) ?? []);
  const twice = new Set(words).size < words.length;
  if (known.length < words.length || twice) {
    throw misuse(
      `--knobs ${plainShort(text)}: name one or more of ${core.KNOB_NAMES.join(', ')}, each once, with commas between`,
    );
  }
  return known;
}
