import { expect, it } from 'vitest';
import { mean } from '../../src/numerics/mean.ts';

it('the mean of some values is their sum over their count, and of none no number', () => {
  expect(mean([1, 2, 6])).toBe(3);
  expect(mean([])).toBeNaN();
});
