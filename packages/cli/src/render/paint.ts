/** Colour, where it is wanted: a few named uses, each a pair of escape sequences or nothing. */
import type { Io, Sink } from '../io.ts';

export interface Paint {
  strong(text: string): string;
  faint(text: string): string;
  torque(text: string): string;
  power(text: string): string;
  caution(text: string): string;
}

const ESC = '\u001b[';
const wrap = (on: number, off: number) => (text: string) => `${ESC}${on}m${text}${ESC}${off}m`;
const same = (text: string) => text;

export const NO_PAINT: Paint = { strong: same, faint: same, torque: same, power: same, caution: same };
const COLOURS: Paint = {
  strong: wrap(1, 22),
  faint: wrap(2, 22),
  torque: wrap(36, 39),
  power: wrap(33, 39),
  caution: wrap(35, 39),
};

/**
 * `flag` is `--color` / `--no-color`, undefined when neither was given, and decides first. Then `NO_COLOR`
 * (present and not empty) says no, `FORCE_COLOR` (present, not empty, not 0) says yes, `TERM=dumb` says no;
 * else a terminal gets colour and a file or a pipe does not.
 */
export function paintFor(sink: Sink, env: Io['env'], flag: boolean | undefined): Paint {
  return wantsColour(sink, env, flag) ? COLOURS : NO_PAINT;
}

function wantsColour(sink: Sink, env: Io['env'], flag: boolean | undefined): boolean {
  if (flag !== undefined) return flag;
  if ((env.NO_COLOR ?? '') !== '') return false;
  const force = env.FORCE_COLOR ?? '';
  if (force !== '' && force !== '0' && force !== 'false') return true;
  return sink.isTTY && env.TERM !== 'dumb';
}
