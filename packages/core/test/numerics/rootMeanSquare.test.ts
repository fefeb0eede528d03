import { expect, it } from 'vitest';
import { rootMeanSquare } from '../../src/numerics/rootMeanSquare.ts';

it('the root mean square of 1, 7 and -5 is 5, and of nothing 0', () => {
  expect(rootMeanSquare([1, 7, -5])).toBe(5);
  expect(rootMeanSquare([])).toBe(0);
});
