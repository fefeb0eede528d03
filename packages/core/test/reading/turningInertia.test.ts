import { describe, expect, it } from 'vitest';
import { pistonTravelRate, sliderCrank } from '../../src/geometry/sliderCrank.ts';
import { INERTIA_SPREAD, reciprocatingShare, turningInertia } from '../../src/reading/defaults/inertia.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { exampleText } from './files.ts';

const INCH = 0.0254;
const EIGHT = { bore: 4 * INCH, stroke: 3.48 * INCH, rodLength: 5.7 * INCH, cylinders: 8 };

function engine(extra: string) {
  const read = readCombination(`${exampleText('minimum')}\n${extra}`);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.value;
}

describe('what turns with the crank', () => {
  it('has half of what goes up and down, and a little for the slant of the rod, as the mean over a turn of the exact motion gives', () => {
    const crank = sliderCrank(0.1, 0.09, 0.15, 1e-4);
    const steps = 720;
    const mean =
      Array.from({ length: steps }, (_, i) => pistonTravelRate(crank, (2 * Math.PI * i) / steps) ** 2).reduce(
        (sum, square) => sum + square,
        0,
      ) / steps;
    // Half a stroke of 45 mm over a rod of 150 mm: (1 + 0.09 / 4) / 2.
    expect(reciprocatingShare(0.3)).toBeCloseTo(0.51125, 6);
    expect(mean / 0.045 ** 2).toBeCloseTo(reciprocatingShare(0.3), 2);
  });

  it('is 0.28 kg m2 for an eight of 4.00 by 3.48 in, worked by hand', () => {
    // Up and down 860 B^3 at 0.5116, round 380 B^3, both at 44.196 mm: 8 x 820.0 x 1.0488e-3 x 1.9533e-3 = 0.01344 kg m2; crank and damper
    // 8 x 1200 x 1.0488e-3 x 7.8131e-3 = 0.07866; behind it 0.08 x sqrt(5.7330) = 0.19155.
    expect(turningInertia(EIGHT).value).toBeCloseTo(0.01344 + 0.07866 + 0.19155, 5);
    expect(turningInertia(EIGHT).spread).toBeCloseTo(0.35 * 0.28365, 5);
  });

  it('reaches what was measured of a four of 1.8 litres in a car, 0.178 kg m2 with its clutch, within two spreads', () => {
    // E. Rabinovich, Yu. Zytsev and V. Kalekin, Avtomobilnyj Transport 42, 2018, pages 37 to 42; bore and stroke of such an engine from memory.
    const four = { bore: 0.081, stroke: 0.0873, rodLength: 0.152, cylinders: 4 };
    const { value, spread } = turningInertia(four);
    expect(Math.abs(value - 0.1782)).toBeLessThan(2 * (spread ?? 0));
  });

  it('is assumed, and listed, only where the file asks for it by a rate', () => {
    const path = 'engine.inertia';
    const listed = (extra: string) => engine(extra).assumed.find((entry) => entry.path === path);
    expect(listed('')).toBeUndefined();
    expect(engine('').block.inertia).toBeUndefined();
    const entry = listed('pullRate: 300 rpm/s');
    const { block, pullRate } = engine('pullRate: 300 rpm/s');
    const estimate = turningInertia(block);
    expect(pullRate).toBe(300);
    expect(block.inertia).toBeCloseTo(estimate.value, 4);
    expect(entry).toMatchObject({ unit: 'lb-ft2', reason: estimate.reason });
    expect(Number(entry?.value) * 0.04214011).toBeCloseTo(estimate.value, 4);
    expect(Number(entry?.spread) / Number(entry?.value)).toBeCloseTo(INERTIA_SPREAD, 1);
  });
});
