import { describe, expect, it } from 'vitest';
import {
  collectorInside,
  collectorLength,
  primaryInside,
  primaryLength,
} from '../../src/reading/defaults/header.ts';

const FOUR = { bore: 0.1, cylinders: 4 };
const SIZES = { cylinderVolume: 0.7e-3, stroke: 0.09, ratedSpeed: 6000, portArea: 8e-4 };

describe('an exhaust that the file says little of', () => {
  it('of headers is sized by the gas at the torque peak: 74.7 m/s in half a turn at three quarters of rated speed', () => {
    // 0.7 l in half a turn at 6000 / 1.33 rpm through 14.10 cm2.
    expect(primaryInside('headers', SIZES).value).toBeCloseTo(0.042364, 5);
    expect(primaryLength('headers', FOUR, () => SIZES.ratedSpeed).value).toBeCloseTo(34 * 0.0254, 6);
    expect(collectorLength('headers', 4, () => SIZES.ratedSpeed).value).toBeCloseTo(0.4572, 6);
  });

  it('of a cast manifold by port and bore: 1.2 of the port area, 2.2 bores, and a down-pipe of 24 in', () => {
    // 9.6 cm2, known to 8 %.
    expect(primaryInside('cast', SIZES).value).toBeCloseTo(0.034962, 6);
    expect(primaryInside('cast', SIZES).spread).toBeCloseTo(0.08 * 0.034962, 6);
    expect(primaryLength('cast', FOUR, () => SIZES.ratedSpeed).value).toBeCloseTo(0.22, 9);
    expect(collectorLength('cast', 4, () => SIZES.ratedSpeed).value).toBeCloseTo(0.6096, 6);
    expect(collectorLength('cast', 4, () => SIZES.ratedSpeed).spread).toBeCloseTo(0.3 * 0.6096, 6);
  });

  it('has a collector of 1.8 primaries outside for four, by area for other numbers, and no narrower than one of them', () => {
    // Tubes of 18 gauge, 1.245 mm.
    expect(collectorInside(0.04, 4).value).toBeCloseTo(1.8 * 0.04249 - 0.00249, 4);
    expect(collectorInside(0.04, 2).value).toBeCloseTo((1.8 * 0.04249) / Math.SQRT2 - 0.00249, 4);
    expect(collectorInside(0.04, 1).value).toBe(0.04);
  });
});
