/** Engines for checks on the whole forecast: files of this repository, read, and short ways to a changed one. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Combination, Port } from '../../packages/core/src/combination/combination.ts';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import type { CurveMarchOptions } from '../../packages/core/src/forecast/curveMarch.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** A combination file of this repository with the sheets beside it, and lines that it doesn't have. */
export function engineFile(path: string, more = ''): Combination {
  const file = join(root, path);
  const read = readCombination(`${readFileSync(file, 'utf8')}${more}`, {
    file: path,
    sheet: (name) => readFileSync(join(dirname(file), name), 'utf8'),
  });
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return read.value;
}

/** The points of a forecast. */
export function pointsOf(
  combination: Combination,
  rpm: readonly number[],
  options: Omit<CurveMarchOptions, 'rpm'> = {},
): readonly MarchedPoint[] {
  return wholeForecast(combination, { rpm, ...options }).points;
}

/** The points of a forecast that is only compared with others of this kind: half the time, and the same differences to some 0.1 %. */
export function comparedPointsOf(combination: Combination, rpm: readonly number[]): readonly MarchedPoint[] {
  return pointsOf(combination, rpm, { onlyCompared: true });
}

/** The big block at another compression ratio, same bore and stroke. */
export function withCompression(ratio: number): Combination {
  const base = bigBlock();
  const { bore, stroke } = base.block;
  const clearanceVolume = ((Math.PI / 4) * bore * bore * stroke) / (ratio - 1);
  return { ...base, chamber: { ...base.chamber, clearanceVolume, compressionRatio: ratio } };
}

/** A port whose cam card reads `degrees` more at every checking height. */
export function withLongerCam(port: Port, degrees: number): Port {
  if (port.lobe.kind !== 'card') throw new TypeError('only a card has durations');
  const points = port.lobe.points.map((p) => ({ ...p, duration: p.duration + degrees }));
  return { ...port, lobe: { ...port.lobe, points } };
}

/** Every number of a plain value, with the path to it. */
export function numbersIn(value: unknown, path = ''): readonly (readonly [string, number])[] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${path}.${key}`));
}
