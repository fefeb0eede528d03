/** `2500:7000:500` and `3000,5500,6000` to a list of speeds. */
import { type CommandFailure, misuse } from '../commandFailure.ts';
import { plainShort } from '../render/plain.ts';

/** Speeds that are forecast [1/min]. */
export const LOWEST_RPM = 200;
export const HIGHEST_RPM = 30_000;
/** How many of them at once. */
const MOST = 400;

/** Speeds [rpm], rising, without repeats. A range includes its end only where a step lands on it. */
export function parseRpm(text: string): number[] {
  return text.includes(':') ? parseRange(text) : parseList(text);
}

/** Speeds of every `--rpm` that was given, as one list; undefined where none was. */
export function parseSpeeds(texts: readonly string[]): number[] | undefined {
  if (texts.length === 0) return undefined;
  const all = [...new Set(texts.flatMap(parseRpm))].sort((a, b) => a - b);
  if (!(all.length <= MOST)) throw refuse(texts.join(' '), `more than ${MOST} points`);
  return all;
}

function parseRange(text: string): number[] {
  const parts = text.split(':');
  if (parts.length !== 3) throw refuse(text, 'write from:to:step, such as 2500:7000:500');
  const [from, to, step] = parts.map((part) => parseNumber(text, part));
  if (!(to >= from)) throw refuse(text, 'the range must end above its start');
  if (!(step > 0)) throw refuse(text, 'the step must be above 0');
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (!(count <= MOST)) throw refuse(text, `more than ${MOST} points`);
  return checked(
    text,
    Array.from({ length: count }, (_, i) => from + i * step),
  );
}

function parseList(text: string): number[] {
  const values = text.split(',').map((part) => parseNumber(text, part));
  if (!(values.length <= MOST)) throw refuse(text, `more than ${MOST} points`);
  return checked(
    text,
    [...new Set(values)].sort((a, b) => a - b),
  );
}

function parseNumber(text: string, part: string): number {
  const word = part.trim();
  if (!/^\d+(\.\d+)?$/.test(word)) {
    throw refuse(
      text,
      `"${plainShort(word, 20)}" is not a plain number; write from:to:step or a list with commas`,
    );
  }
  return Number(word);
}

function checked(text: string, values: number[]): number[] {
  for (const rpm of values) {
    if (!(rpm >= LOWEST_RPM && rpm <= HIGHEST_RPM)) {
      throw refuse(text, `${rpm} rpm is outside ${LOWEST_RPM} to ${HIGHEST_RPM}`);
    }
  }
  return values;
}

function refuse(text: string, why: string): CommandFailure {
  return misuse(`--rpm ${plainShort(text)}: ${why}`);
}
