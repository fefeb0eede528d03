import { expect, it } from 'vitest';
import { standardDeviation } from '../../src/numerics/standardDeviation.ts';

it('the standard deviation of 1, 2 and 6 is the root of 7, since their mean is one of three things known', () => {
  expect(standardDeviation([1, 2, 6])).toBeCloseTo(Math.sqrt(7), 14);
  expect(standardDeviation(Float64Array.of(1, 2, 6))).toBe(standardDeviation([1, 2, 6]));
  expect(standardDeviation([4])).toBeNaN();
});
