import { expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { marchedText, withOtherFriction } from '../../src/forecast/otherFriction.ts';
import { marchedPoints } from '../../src/forecast/wholeCurve.ts';
import { bigBlock } from '../support/bigBlock.ts';

// Too early a spark and the standard whose formula knows friction: all that hangs on friction is in play.
const engine = bigBlock();
const before: Combination = {
  ...engine,
  correction: 'J1349',
  weather: { ...engine.weather, temperature: 310 },
  burn: { ...engine.burn, timing: { mode: 'ca50', angle: 20 } },
};
const after: Combination = {
  ...before,
  name: 'rubs more',
  friction: { ...before.friction, multiplier: 1.3, mainDiameter: 1.1 * before.friction.mainDiameter },
};
const coarse = {
  rpm: [4500],
  mesh: { intakeCell: 0, exhaustCell: 0 },
  onlyCompared: true,
} as const;

it('gives the figures of an engine that rubs otherwise from those of one that was marched', () => {
  const nominal = forecast(before, coarse);
  const [marched] = marchedPoints(forecast(after, coarse));
  const derived = withOtherFriction(nominal, before, after);
  const [point] = marchedPoints(derived);
  expect(Object.keys(point)).toEqual(Object.keys(marched));
  for (const [figure, value] of Object.entries(marched))
    if (typeof value === 'number') expect(point, figure).toHaveProperty(figure, expect.closeTo(value, 9));
  // Neither is what it was.
  for (const figure of ['torqueNm', 'fmepBar', 'bsfcGPerKwh', 'torqueGivenBackPct'] as const)
    expect(Math.abs(point[figure] / marchedPoints(nominal)[0][figure] - 1)).toBeGreaterThan(0.01);
  expect(derived.peak?.torque.torqueNm).toBe(point.torqueNm);
  expect(derived.combination).toBe('rubs more');
});

it('is told by all that a march sees and by nothing else', () => {
  expect(marchedText(after)).toBe(marchedText(before));
  expect(marchedText({ ...before, limits: { ...before.limits, redline: 9000 } })).toBe(marchedText(before));
  const { friction, walls, block } = before;
  for (const other of [
    { friction: { ...friction, valvetrain: 'direct-acting' as const } },
    { walls: { ...walls, multiplier: 1.1 } },
    { block: { ...block, rodLength: 1.01 * block.rodLength } },
    { weather: { ...before.weather, pressure: 99_000 } },
    { correction: 'J607' as const },
  ])
    expect(marchedText({ ...before, ...other })).not.toBe(marchedText(before));
});
