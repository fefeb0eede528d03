/** A flow sheet with a column a cylinder: their mean, or each. */
import { describe, expect, it } from 'vitest';
import { cylinderValve, portValve } from '../../src/assembly/portValve.ts';
import { marchingOf } from '../../src/assembly/symmetry.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';

const text = (heads: string, cylinders = 2): string =>
  `engine: { bore: 92 mm, stroke: 76 mm, cylinders: ${cylinders} }\nchamber: { compression: 9.6 }\nheads: { valvesPerCylinder: 2, flow: f.csv${heads} }\n`;

const TWO = [
  'lift in,intake 1 cfm,intake 2 cfm,exhaust cfm',
  '0.1,50,54,40',
  '0.3,132,140,100',
  '0.45,160,168,118',
].join('\n');
const MEAN = 'lift in,intake cfm,exhaust cfm\n0.1,52,40\n0.3,136,100\n0.45,164,118';

const read = (heads: string, sheet: string, cylinders = 2) =>
  readCombination(text(heads, cylinders), { file: 'e.yaml', sheet: () => sheet });

function engineOf(heads: string, sheet: string): Combination {
  const result = read(heads, sheet);
  if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
  return result.value;
}

const lines = (heads: string, sheet: string, cylinders = 2): readonly string[] => {
  const result = read(heads, sheet, cylinders);
  return result.ok ? [] : result.problems.map(problemLine);
};

describe('a sheet with a column a cylinder', () => {
  it('is taken as its mean, as one column of it would be', () => {
    const [several, one] = [engineOf('', TWO), engineOf('', MEAN)];
    expect(several.intake.flow.area).toEqual(one.intake.flow.area.map((area) => expect.closeTo(area, 12)));
    expect(several.intake.flow.shares).toBeUndefined();
    expect(several.exhaust).toEqual(one.exhaust);
  });

  it('gives each cylinder its own where that is asked for, by any way of writing the number', () => {
    for (const names of [TWO, TWO.replace('intake 1', 'int #1').replace('intake 2', 'cyl 2 int')]) {
      const engine = engineOf(', flowOf: each', names);
      const low = (50 / 52 + 132 / 136 + 160 / 164) / 3;
      expect(engine.intake.flow.shares).toEqual([expect.closeTo(low, 12), expect.closeTo(2 - low, 12)]);
      expect(engine.exhaust.flow.shares).toBeUndefined();
      const mean = portValve(engine, 'intake');
      const first = cylinderValve(mean, engine.intake, 1);
      const widest = mean.area.indexOf(Math.max(...mean.area));
      expect(first.area[widest] / mean.area[widest]).toBeCloseTo(low, 12);
      expect(first.against[widest] / mean.against[widest]).toBeCloseTo(low, 12);
      expect(cylinderValve(portValve(engine, 'exhaust'), engine.exhaust, 1).area).toEqual(
        portValve(engine, 'exhaust').area,
      );
    }
  });

  it('marches every cylinder of six that differ', () => {
    const header = ['lift in', ...[1, 2, 3, 4, 5, 6].map((n) => `intake ${n} cfm`)].join(',');
    const sheet = `${header}\n0.1,50,51,52,50,51,52\n0.4,150,153,151,150,149,150`;
    const six = (heads: string) => {
      const result = read(heads, sheet, 6);
      if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
      return marchingOf(result.value, 'representative').cylinders.length;
    };
    expect(six(', flowOf: each')).toBe(6);
    expect(six('')).toBeLessThan(6);
  });

  it('is refused where columns have no numbers, other lifts, or no cylinder of the engine', () => {
    expect(lines('', TWO.replace('intake 1', 'intake').replace('intake 2', 'int'))).toEqual([
      "f.csv:1 heads.flow has two intake columns: 'intake cfm' and 'int cfm' (keep one of them, or name the cylinder of each: 'intake 1 cfm', 'intake 2 cfm')",
    ]);
    expect(lines('', TWO.replace('132,140', '132,'))).toEqual([
      "f.csv:1 heads.flow has other lifts in column 'intake 2 cfm' than in 'intake 1 cfm' (measure each cylinder at the same lifts, or leave the column out)",
    ]);
    expect(lines(', flowOf: each', TWO, 3)).toEqual([
      "e.yaml:3:45 heads.flowOf is 'each', but the sheet has intake columns for cylinders 1, 2 of 3: write mean, or flow the others too",
    ]);
    expect(lines(', flowOf: eech', TWO)).toEqual([
      "e.yaml:3:45 heads.flowOf must be one of mean, each; got 'eech' (did you mean each?)",
    ]);
    const { warnings } = engineOf(', flowOf: each', MEAN);
    expect(warnings.filter(({ code }) => code === 'field-unused').map(({ path }) => path)).toEqual([
      'heads.flowOf',
    ]);
  });
});
