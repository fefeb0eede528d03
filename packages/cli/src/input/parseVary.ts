/** `path=from:to:step` with its unit, or `path=one,two,three`, to the values of a variable. */
import type { Variable } from '@valvetide/core';
import { type CommandFailure, misuse } from '../commandFailure.ts';
import { plainShort } from '../render/plain.ts';

const MOST = 100;

const EXAMPLE = 'write path=from:to:step, such as "exhaust.primary.length=28:36:2 in"';

/** Whether the path is a field and the values suit it shows when they are applied. */
export function parseVary(text: string): Variable {
  const at = text.indexOf('=');
  const path = text.slice(0, Math.max(0, at)).trim();
  const given = text.slice(at + 1).trim();
  if (path === '' || given === '') throw refuse(text, EXAMPLE);
  return { path, values: given.includes(':') ? range(text, given) : list(text, given) };
}

interface Part {
  readonly number: number;
  readonly unit: string;
}

/** A range includes its end only where a step lands on it. */
function range(text: string, given: string): readonly (string | number)[] {
  const parts = given.split(':').map((part) => numberAndUnit(part));
  if (parts.length !== 3 || parts.some((part) => part === null)) throw refuse(text, EXAMPLE);
  const [from, to, step] = parts as readonly Part[];
  const units = [...new Set([from, to, step].map(({ unit }) => unit).filter((unit) => unit !== ''))];
  if (units.length > 1) throw refuse(text, `one unit, not ${units.join(' and ')}`);
  if (!(to.number > from.number)) throw refuse(text, 'the range must end above its start');
  if (!(step.number > 0)) throw refuse(text, 'the step must be above 0');
  const count = Math.floor((to.number - from.number) / step.number + 1e-9) + 1;
  if (!(count <= MOST)) throw refuse(text, `more than ${MOST} values`);
  return Array.from({ length: count }, (_, i) => {
    const value = Number((from.number + i * step.number).toPrecision(12));
    return units.length === 0 ? value : `${value} ${units[0]}`;
  });
}

/** A unit behind the last value counts for all plain numbers before it. */
function list(text: string, given: string): readonly (string | number)[] {
  const words = given.split(',').map((word) => word.trim());
  if (words.includes('')) throw refuse(text, 'a value is missing between two commas');
  if (words.length > MOST) throw refuse(text, `more than ${MOST} values`);
  const unit = numberAndUnit(words[words.length - 1])?.unit ?? '';
  const values = words.map((word) => {
    const part = numberAndUnit(word);
    if (part === null) return word;
    if (part.unit !== '') return `${word.slice(0, word.length - part.unit.length).trim()} ${part.unit}`;
    return unit === '' ? part.number : `${word} ${unit}`;
  });
  return [...new Set(values)];
}

function numberAndUnit(text: string): Part | null {
  const parts = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*([A-Za-z%"°][A-Za-z0-9%"°/^]*)?\s*$/.exec(text);
  return parts === null ? null : { number: Number(parts[1]), unit: parts[2] ?? '' };
}

function refuse(text: string, why: string): CommandFailure {
  return misuse(`--vary ${plainShort(text)}: ${why}`);
}
