import { expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { limitBreaches } from '../../src/forecast/limits.ts';
import { hasMoreOctane, textBesideOctane, withMoreOctane } from '../../src/forecast/otherOctane.ts';
import { marchedPoints } from '../../src/forecast/wholeCurve.ts';
import { bigBlock } from '../support/bigBlock.ts';

/** The big block on a fuel of its own octane numbers, its spark found. */
function engineOn(researchOctane: number, motorOctane: number, name = 'fuel of the test'): Combination {
  const engine = bigBlock();
  return {
    ...engine,
    fuel: { ...engine.fuel, name, researchOctane, motorOctane },
    burn: { ...engine.burn, timing: { mode: 'knock-limited' } },
  };
}

const coarse = { rpm: [4500], mesh: { intakeCell: 0, exhaustCell: 0 }, onlyCompared: true } as const;
const enough = engineOn(118, 108);
const more = engineOn(124, 112, 'more of it');
const poor = engineOn(91, 83);

it('gives the figures that a march gives an engine on a better fuel, where the other was not held back', () => {
  const before = forecast(enough, coarse);
  const derived = withMoreOctane(before, more);
  if (derived === null) throw new Error('no curve');
  const marched = marchedPoints(forecast(more, coarse));
  marchedPoints(derived).forEach((point, i) => {
    for (const [figure, value] of Object.entries(marched[i]))
      if (typeof value === 'number' && !figure.startsWith('octane'))
        expect(point, figure).toHaveProperty(figure, expect.closeTo(value, 9));
  });
  expect(limitBreaches(more, derived)).toEqual([]);
  expect(limitBreaches(more, { points: marched })).toEqual([]);
  expect(hasMoreOctane(enough, more)).toBe(true);
  expect(textBesideOctane(more)).toBe(textBesideOctane(enough));
});

it('tells nothing of an engine whose fellow gives spark back', () => {
  const before = forecast(poor, coarse);
  expect(marchedPoints(before).some((point) => point.sparkGivenBackDeg > 0)).toBe(true);
  expect(withMoreOctane(before, enough)).toBeNull();
});

it('is for fuels that have more octane in every charge, with no margin to keep and nothing heard', () => {
  expect(hasMoreOctane(more, enough)).toBe(false);
  // Better by the one method and worse by the other: which counts is for the charge to say.
  expect(hasMoreOctane(enough, engineOn(120, 107))).toBe(false);
  expect(hasMoreOctane(enough, { ...more, limits: { ...more.limits, octaneMargin: 2 } })).toBe(false);
  const heard = { rpm: 4000, advance: 30, octane: null, knock: 'none' as const };
  expect(hasMoreOctane(enough, { ...more, burn: { ...more.burn, heard: [heard] } })).toBe(false);
  expect(hasMoreOctane(enough, { ...more, burn: { ...more.burn, octaneOffset: 9 } })).toBe(false);
  expect(textBesideOctane({ ...more, fuel: { ...more.fuel, latentHeat: 4e5 } })).not.toBe(
    textBesideOctane(enough),
  );
});
