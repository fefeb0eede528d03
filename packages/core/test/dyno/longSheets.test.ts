/** Dyno sheets made to take long: each is read or refused at once. */
import { beforeAll, describe, expect, it } from 'vitest';
import { readDynoSheet } from '../../src/dyno/dynoSheet.ts';
import { leastProcessorTime, processorTime } from '../support/processorTime.ts';

const TOP = '# standard: J607\n';
const lines = (count: number, line: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => line(i)).join('\n');
const row = (i: number): string => `${1000 + (i % 7000)},${(300 + (i % 50)).toFixed(1)}`;

const SHEETS: readonly (readonly [what: string, text: string])[] = [
  [
    'one pull by number, as many rows as are read',
    `${TOP}pull,rpm,torque (lb-ft)\n${lines(60_000, (i) => `1,${row(i)}`)}`,
  ],
  ['a pull a row', `${TOP}pull,rpm,torque (lb-ft)\n${lines(60_000, (i) => `${i},${row(i)}`)}`],
  ['a blank line after every row', `${TOP}rpm,torque (lb-ft)\n${lines(60_000, (i) => `${row(i)}\n`)}`],
  [
    'a remark before every row',
    `${TOP}rpm,torque (lb-ft)\n${lines(40_000, (i) => `# note ${i}\n${row(i)}`)}`,
  ],
  ['the word rpm over and over on one line', lines(1, () => 'rpm '.repeat(200_000))],
  ['eighty lines of words that nearly make a header', lines(80, () => 'rpm oil egt exhaust '.repeat(390))],
  [
    'a header cell of thousands of words',
    `${TOP}rpm,${'oil fuel '.repeat(800)},torque (lb-ft)\n${lines(20, row)}`,
  ],
  [
    'remarks of blanks',
    `${`#${' '.repeat(7_000)}x\n`.repeat(79)}${TOP}rpm,torque (lb-ft)\n${lines(20, row)}`,
  ],
  ['thousands of columns', `${TOP}${'rpm,'.repeat(1_500)}torque (lb-ft)\n${lines(20, row)}`],
  ['quotes without end', `${TOP}rpm,torque (lb-ft)\n${lines(20_000, () => '"1000,"300"')}`],
];

/** What an answer may take of the processor, over what a sheet of 2000 rows takes: a row each would be 30 times it, all against all 900 times. */
const MOST = 200;

describe('a dyno sheet', () => {
  let usual = Number.NaN;
  beforeAll(() => {
    const logger = `${TOP}rpm,torque (lb-ft)\n${lines(2_000, row)}`;
    usual = leastProcessorTime(() => readDynoSheet(logger, { name: 'x.csv' }));
  });

  it.each(SHEETS)('of %s is answered with no more work for each row than a short one', (_what, text) => {
    const begun = process.cpuUsage();
    const read = readDynoSheet(text, { name: 'x.csv' });
    expect(processorTime(begun) / usual).toBeLessThan(MOST);
    if (!read.ok) expect(read.problems.length).toBeLessThanOrEqual(10);
    else expect(read.value.notes.length).toBeLessThan(300);
  });
});
