import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  colburnHeat,
  fanningRough,
  fanningSmooth,
  reynoldsHeat,
  wallDrag,
} from '../../src/processes/ductTransport.ts';

describe('fanningSmooth(reynolds)', () => {
  it('is 16 / Re laminar and 0.0791 Re^-0.25 turbulent', () => {
    expect(fanningSmooth(800)).toBeCloseTo(0.02, 14);
    expect(fanningSmooth(1e5)).toBeCloseTo(0.0791 / 10 ** 1.25, 14);
    expect(fanningSmooth(1e4)).toBeCloseTo(0.00791, 14);
  });
  it('is zero at rest', () => expect(fanningSmooth(0)).toBe(0));
  it('never jumps up by more than a hair, nor falls to zero', () => {
    let before = fanningSmooth(500);
    for (let re = 505; re < 1e4; re += 5) {
      const f = fanningSmooth(re);
      expect(f).toBeLessThanOrEqual(before);
      expect(f).toBeGreaterThan(0.97 * before);
      before = f;
    }
  });
});

describe('fanningRough(reynolds, relativeRoughness)', () => {
  it('agrees with Colebrook and White to 2 %', () => {
    for (const [re, rough] of [
      [1e4, 1e-4],
      [1e5, 1e-3],
      [1e6, 1e-2],
      [3e5, 3e-3],
    ] as const) {
      const f = 4 * fanningRough(re, rough);
      const colebrook = (-2 * Math.log10(rough / 3.7 + 2.51 / (re * Math.sqrt(f)))) ** -2;
      expect(Math.abs(f / colebrook - 1)).toBeLessThan(0.02);
    }
  });
  it('is 0.004456 smooth at Re = 1e5 and 0.009495 fully rough at one hundredth', () => {
    // 1.8 log10(1e5 / 6.9) = 7.49007; 1.8 x 1.11 x log10(370) = 5.131267.
    expect(fanningRough(1e5, 0)).toBeCloseTo(0.25 / 7.49007 ** 2, 8);
    expect(fanningRough(1e12, 0.01)).toBeCloseTo(0.25 / 5.131267 ** 2, 8);
  });
  it('meets the smooth pipe within 4 % at Re = 1e5', () => {
    expect(Math.abs(fanningRough(1e5, 0) / fanningSmooth(1e5) - 1)).toBeLessThan(0.04);
  });
  it('is 0.0065 to 0.0068 for a cast port, three thousandths rough, at Re = 3e5', () => {
    expect(fanningRough(3e5, 3e-3)).toBeGreaterThan(0.0065);
    expect(fanningRough(3e5, 3e-3)).toBeLessThan(0.0068);
  });
});

describe('wallDrag and the analogies', () => {
  it('drags against the flow in both directions', () => {
    expect(wallDrag(0.006, 1.2, 50, 0.1)).toBeCloseTo(-0.9, 12);
    expect(wallDrag(0.006, 1.2, -50, 0.1)).toBeCloseTo(0.9, 12);
  });
  it('carries 181 W/(m2 K) at f 0.006, 1.2 kg/m3, 50 m/s, and 1.27 times that by Colburn', () => {
    expect(reynoldsHeat(0.006, 1.2, 50, 1005)).toBeCloseTo(180.9, 10);
    expect(colburnHeat(0.006, 1.2, 50, 1005, 0.7) / 180.9).toBeCloseTo(1.2684, 4);
  });
  it('is the same in both directions and equal at Prandtl one', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 400, noNaN: true }), (u) => {
        expect(reynoldsHeat(0.006, 1, -u, 1005)).toBe(reynoldsHeat(0.006, 1, u, 1005));
        expect(colburnHeat(0.006, 1, u, 1005, 1)).toBeCloseTo(reynoldsHeat(0.006, 1, u, 1005), 10);
      }),
    );
  });
});
