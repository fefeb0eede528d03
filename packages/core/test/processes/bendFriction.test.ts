/** Bends of a tube as friction along it. */
import { expect, it } from 'vitest';
import { bendFanning } from '../../src/processes/bendFriction.ts';

it('takes half a dynamic pressure for half a turn, 4 f L / D of the tube it is spread along', () => {
  const [inside, length] = [0.04, 0.8];
  const f = bendFanning(180, (Math.PI / 4) * inside ** 2, length);
  expect(f).toBeCloseTo(0.00625, 12);
  expect((4 * f * length) / inside).toBeCloseTo(0.5, 12);
});

it('takes nothing where nothing bends', () => {
  expect(bendFanning(0, 1e-3, 0.8)).toBe(0);
});
