import { describe, expect, it } from 'vitest';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { pointsOf } from './engines.ts';

/** A long cam at high piston speed over an exhaust port no wider than the valve's throat: sound fills it as the valve opens. */
const singleBehind = (diameter: string) => {
  const read = readCombination(`
engine: { bore: 97 mm, stroke: 91 mm, cylinders: 1 }
chamber: { compression: 10 }
heads:
  valvesPerCylinder: 2
  intake: { valve: 47 mm }
  exhaust: { valve: 38 mm, portArea: 8.7 cm2 }
cam:
  separation: 107 deg
  intake: { at050: 240 deg, valveLift: 12.5 mm }
  exhaust: { at050: 244 deg, valveLift: 12.5 mm }
exhaust:
  primary: { diameter: ${diameter}, wall: 1.2 mm, length: 820 mm }
`);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.value;
};
const torqueAt = (diameter: string, options = {}): number =>
  pointsOf(singleBehind(diameter), [6700], options)[0].torqueNm;

describe('an exhaust port through which sound is the limit', () => {
  const wide = torqueAt('49 mm');

  it('passes no less into a much wider pipe: two sizes of tube cost a few per cent, not a fifth', () => {
    expect(wide).toBeGreaterThan(0.94 * torqueAt('42 mm'));
  });

  it('does the same on cells half as long, to 0.7 %', () => {
    const fine = torqueAt('49 mm', { mesh: { intakeCell: 0.0125, exhaustCell: 0.025, fewest: 24 } });
    expect(Math.abs(fine / wide - 1)).toBeLessThan(0.007);
  });
});
