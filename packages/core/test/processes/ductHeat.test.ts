import { expect, it } from 'vitest';
import { ductStanton } from '../../src/processes/ductHeat.ts';

it('the Stanton number of pulsating flow is Nu / (Re Pr) of Nu = 0.07 Re^(3/4)', () => {
  // Re 1e4: Nu = 70; 70 / (1e4 x 0.7) = 0.01.
  expect(ductStanton(1e4)).toBeCloseTo(0.01, 12);
  expect(ductStanton(1.6e5) / ductStanton(1e4)).toBeCloseTo(0.5, 12);
});
