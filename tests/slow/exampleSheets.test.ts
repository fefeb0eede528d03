import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { pressureSheets } from '../examples/pressureSheets.ts';
import { pullSheets } from '../examples/pullSheets.ts';

const root = join(import.meta.dirname, '../..');
const committed = (file: string): string => readFileSync(join(root, file), 'utf8');

describe('the sheets among the examples are those that node tools/exampleSheets.mjs makes', () => {
  it('of sensors', () => {
    const made = Object.entries(pressureSheets());
    expect(made).toHaveLength(1);
    for (const [file, text] of made) expect(committed(file), file).toBe(text);
  });

  it('of the dyno, each speed in one of the six pulls, and everything that takes no forecast', () => {
    const made = Object.entries(pullSheets((pull, speed) => speed % 6 === pull));
    expect(made).toHaveLength(2);
    let forecasts = 0;
    for (const [file, lines] of made) {
      const there = committed(file).trimEnd().split('\n');
      forecasts += lines.filter((line) => line?.match(/^\d/)).length;
      expect(
        there.map((line, i) => (lines[i] === null && /^\d/.test(line) ? null : line)),
        file,
      ).toEqual(lines);
    }
    expect(forecasts).toBe(13);
  });
});
