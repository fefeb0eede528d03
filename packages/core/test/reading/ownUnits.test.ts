/** Checks answer in the units that the file asks for. */
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fileWith } from './files.ts';

/** Problems and warnings of a file in either system of units. */
function told(sections: Readonly<Record<string, string>>, units: 'trade' | 'si', csv?: string): string {
  const read = readCombination(fileWith({ correction: 'J607', units, ...sections }), { sheet: () => csv });
  return read.ok
    ? read.value.warnings.map(({ message }) => message).join(' | ')
    : read.problems.map(problemLine).join(' | ');
}

const bench = (stated: string): Readonly<Record<string, string>> => ({
  heads: `{ valvesPerCylinder: 2, bench: { depression: ${stated} }, flow: flow.csv, intake: { valve: 2.02 in } }`,
});
const FLOW = '# flowed at 25 inH2O\nlift in,intake cfm\n0.1,66\n0.3,160\n0.5,210\n';
const carburetor = (barrels: number, ratedAt: string): Readonly<Record<string, string>> => ({
  induction: `{ carburetor: { rating: 500 cfm, barrels: ${barrels}, ratedAt: ${ratedAt} } }`,
});

describe.each([
  [
    'the depression of a sheet',
    bench('28 inH2O'),
    FLOW,
    'which says 25 inH2O; the file gives 28 inH2O (state heads.bench.depression, 25 inH2O?)',
    'which says 6.23 kPa; the file gives 6.97 kPa (state heads.bench.depression, 6.23 kPa?)',
  ],
  [
    'a depression that flows too much',
    bench('10 inH2O'),
    FLOW.replace('25', '10').replace('210', '290'),
    'the file gives 10 inH2O: is this sheet of 28 inH2O?',
    'the file gives 2.49 kPa: is this sheet of 6.97 kPa?',
  ],
  [
    'the vapour that air holds',
    { weather: '{ temperature: 68 degF, vapourPressure: 1.2 inHg }' },
    undefined,
    'can hold, 0.69 inHg',
    // 0.693 inHg of 3.38639 kPa.
    'can hold, 2.35 kPa',
  ],
  [
    'the rating of two barrels',
    carburetor(2, '1.5 inHg'),
    undefined,
    '2 barrels rated at 1.5 inHg is unusual: four barrels are rated at 1.5 inHg, one and two at 3 inHg',
    '2 barrels rated at 5.08 kPa is unusual: four barrels are rated at 5.08 kPa, one and two at 10.2 kPa',
  ],
])('%s', (_what, sections, csv, trade, si) => {
  it('is told in inches where the file asks for none or for those', () => {
    expect(told(sections, 'trade', csv)).toContain(trade);
  });

  it('is told in SI where the file asks for it', () => {
    expect(told(sections, 'si', csv)).toContain(si);
    expect(told(sections, 'si', csv)).not.toMatch(/inH2O|inHg/u);
  });
});
