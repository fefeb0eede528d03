import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exportedFunctions } from './publicExamples.ts';

const reports = join(import.meta.dirname, '../../packages/core/etc');

describe("the library's public face", () => {
  it.each(readdirSync(reports))(
    'has a line for everything in %s, and names nothing that is not in it',
    (name) => {
      const report = readFileSync(join(reports, name), 'utf8');
      expect(report).toContain('export ');
      expect(report.match(/.*\((?:undocumented|ae-undocumented|ae-forgotten-export)\).*/g) ?? []).toEqual([]);
    },
  );

  it('shows an example of every function', () => {
    const functions = exportedFunctions();
    expect(functions.length).toBeGreaterThan(40);
    expect(functions.filter(({ examples }) => examples.length === 0).map(({ name }) => name)).toEqual([]);
  });
});
