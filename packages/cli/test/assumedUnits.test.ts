/** Assumed values in SI. */
import { describe, expect, it } from 'vitest';
import { type Dimension, parseQuantity } from '../../core/src/base/units.ts';
import { CORE } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { assumedIn } from '../src/render/assumedUnits.ts';
import { world } from './fakeIo.ts';

const TEXT = `
name: any
engine: { cylinders: 4, bore: 86 mm, stroke: 86 mm }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
`;

const DIMENSIONS: readonly (readonly [unit: string, Dimension])[] = [
  ['in', 'length'],
  ['in2', 'area'],
  ['inHg', 'pressure'],
  ['inH2O', 'pressure'],
  ['psi', 'pressure'],
  ['cfm', 'flow'],
  ['degF', 'temperature'],
];

describe('an assumed value in SI', () => {
  it.each(DIMENSIONS)('is the same quantity as in %s, and so is its spread', (unit, dimension) => {
    const kept = (value: number, of: string): number => {
      const read = parseQuantity(`${value} ${of}`, dimension);
      if (!read.ok) throw new Error(read.problems[0].message);
      return read.value.kept;
    };
    const [shown] = assumedIn([{ path: 'p', value: 7.5, unit, spread: 0.3, reason: '' }], 'si');
    expect(shown.unit).not.toBe(unit);
    const value = Number(shown.value);
    expect(kept(value, shown.unit) / kept(7.5, unit)).toBeCloseTo(1, 5);
    const spread = kept(value + Number(shown.spread), shown.unit) - kept(value, shown.unit);
    expect(spread / (kept(7.8, unit) - kept(7.5, unit))).toBeCloseTo(1, 5);
  });

  it('leaves no unit of the trade in what inspect lists', async () => {
    const listed = async (units: string): Promise<string> => {
      const w = world({ files: { 'engine.yaml': TEXT }, columns: 200 });
      expect(await main(['inspect', 'engine.yaml', '--units', units], w.io, CORE)).toBe(EXIT.ok);
      const text = w.out().slice(w.out().indexOf('Assumed, because'));
      // Reasons are sentences, whose figures are those of their sources.
      return text
        .split('\n')
        .filter((line) => /^ {2}\w/.test(line))
        .join('\n');
    };
    const trade = /\d (in|in2|inHg|inH2O|cfm|degF|psi)\b/;
    expect(await listed('trade')).toMatch(trade);
    expect(await listed('si')).not.toMatch(trade);
    expect(await listed('si')).toContain('15.56 degC');
  });
});
