/** The engines of the examples. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readCombination } from './core.mjs';

const examples = fileURLToPath(new URL('../../examples/', import.meta.url));

/** By their folders' names. */
export function engines() {
  return readdirSync(examples)
    .map((name) => ({ name, path: join(examples, name, 'engine.yaml') }))
    .filter(({ path }) => existsSync(path))
    .map(({ name, path }) => ({ name, combination: engine(path) }));
}

function engine(path) {
  const read = readCombination(readFileSync(path, 'utf8'), {
    file: path,
    sheet: (name) => readFileSync(join(dirname(path), name), 'utf8'),
  });
  if (!read.ok) throw new Error(`${path} is not read`);
  return read.value;
}

/** Thirteen speeds up to a mean piston speed of 20 m/s, from three tenths of it. */
export function thirteenSpeeds({ block }) {
  const top = (20 * 30) / block.stroke;
  return Array.from({ length: 13 }, (_, i) => Math.round(top * (0.3 + (0.7 * i) / 12)));
}
