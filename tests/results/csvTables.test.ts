import { spawnSync } from 'node:child_process';
import { readDynoSheet, summarisePulls } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { backtestCsv, calibrationCsv } from '../../packages/cli/src/render/calibrationCsv.ts';
import { chosenCsv } from '../../packages/cli/src/render/chosenCsv.ts';
import { curveCsv } from '../../packages/cli/src/render/curveCsv.ts';
import { pullsCsv } from '../../packages/cli/src/render/pullsCsv.ts';
import { restrictionsCsv } from '../../packages/cli/src/render/restrictionsCsv.ts';
import { comparisonCsv, rankingCsv, sweepCsv } from '../../packages/cli/src/render/studyCsv.ts';
import { sampleChosen, sampleRanking } from '../../packages/cli/test/report/sampleRankings.ts';
import {
  sampleBacktest,
  sampleCalibration,
  sampleComparison,
  sampleRestrictions,
  sampleSweep,
} from '../../packages/cli/test/report/sampleStudies.ts';
import { sampleCurve } from '../../packages/cli/test/sampleCurve.ts';
import { csvCells } from '../../packages/core/src/reading/sheet/csvCells.ts';

const NAMES = ['as it is', 'headers, 1-7/8 in', 'cam'];
const LENGTHS = [{ path: 'exhaust.primary.length', values: ['28 in', '32 in'], current: '32 in' }];

function pulls(): string {
  const read = readDynoSheet('# standard: J607\nrpm,torque (lb-ft)\n4000,300\n5000,310\n', { name: 'a.csv' });
  if (!read.ok) throw new Error(read.problems[0].message);
  return pullsCsv([read.value], [summarisePulls(read.value)]);
}

const TABLES: readonly (readonly [command: string, text: () => string])[] = [
  ['forecast', () => curveCsv(sampleCurve([3000, 4000]))],
  ['compare', () => comparisonCsv(sampleComparison(NAMES))],
  ['sweep', () => sweepCsv(sampleSweep(LENGTHS))],
  ['rank', () => rankingCsv(sampleRanking(NAMES))],
  ['restrictions', () => restrictionsCsv(sampleRestrictions('as it is', ['cam']))],
  ['calibrate', () => calibrationCsv(sampleCalibration())],
  ['backtest', () => backtestCsv(sampleBacktest())],
  ['choose', () => chosenCsv(sampleChosen())],
  ['pulls', pulls],
];

/** Heads with their unit: what stands below is a number or nothing. */
const WITH_UNIT = /(?:Nm|Kw|LbFt|Hp|Rpm|Pct|Ms|Hour|Cost|\[[^\]]+\])$|^rpm$/u;

/** Reads a table as other programs do; pandas where it is installed, else Python's own reader. Prints how many rows, and the heads that hold text. */
const PYTHON = `
import csv, io, json, sys
text = sys.stdin.buffer.read().decode('utf-8')
try:
    import pandas
    table = pandas.read_csv(io.StringIO(text))
    words = [head for head in table.columns if table[head].dtype == object]
    print(json.dumps([len(table), words]))
except ImportError:
    rows = list(csv.DictReader(io.StringIO(text, newline='')))
    def number(cell):
        try:
            float(cell)
            return True
        except ValueError:
            return cell == ''
    words = [head for head in rows[0] if not all(number(row[head]) for row in rows)]
    print(json.dumps([len(rows), words]))
`;

describe.each(TABLES)('the table of %s', (_command, text) => {
  const table = (): { heads: readonly string[]; rows: readonly (readonly string[])[] } => {
    const [heads, ...rows] = text()
      .trimEnd()
      .split('\r\n')
      .map((line) => csvCells(line, ',') ?? []);
    return { heads, rows };
  };

  it('names its combination and has a place for warnings on every line, each head once', () => {
    const { heads, rows } = table();
    expect(heads).toContain('combination');
    expect(heads).toContain('warnings');
    expect(new Set(heads).size).toBe(heads.length);
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) expect(row).toHaveLength(heads.length);
  });

  it('has units in its heads alone, and numbers below them', () => {
    const { heads, rows } = table();
    const columns = heads.flatMap((head, i) => (WITH_UNIT.test(head) ? [{ head, i }] : []));
    expect(columns.length).toBeGreaterThan(0);
    for (const { head, i } of columns)
      for (const row of rows)
        expect(row[i], head).toSatisfy((cell: string) => cell === '' || Number.isFinite(Number(cell)));
  });

  it('is read by Python, where that is installed, with the same numbers of rows and of columns of words', () => {
    const { rows } = table();
    const { status, stdout, error } = spawnSync('python3', ['-c', PYTHON], {
      input: text(),
      encoding: 'utf8',
    });
    const isThere = error === undefined && status === 0;
    const [count, words] = isThere ? JSON.parse(stdout) : [rows.length, []];
    expect(count).toBe(rows.length);
    for (const head of words) expect(head).not.toMatch(WITH_UNIT);
  });
});
