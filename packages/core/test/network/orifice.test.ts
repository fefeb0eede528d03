/** Orifice flow and vessels filled and emptied through it, against closed forms of ideal gases. */
import { describe, expect, it } from 'vitest';
import { orificeFlow } from '../../src/network/orifice.ts';
import { stillGas } from '../../src/network/side.ts';
import { idealGas } from './idealGas.ts';
import { fill, AIR_R as R } from './vessels.ts';

const gasOf = (gamma: number) => idealGas({ R, freshGamma: gamma, burnedGamma: gamma, heat: 0 });

describe('orificeFlow', () => {
  const air = gasOf(1.4);

  it('chokes at 239.172 kg/(s m2) from air of 101 325 Pa and 293.15 K', () => {
    const m = orificeFlow(stillGas(air, 101_325, 293.15, 0), stillGas(air, 3e4, 293.15, 0), 1);
    // Within one of the last digit.
    expect(Math.abs(m - 239.172)).toBeLessThan(0.001);
  });

  it('changes sign with its sides and passes nothing between equal pressures', () => {
    const a = stillGas(air, 2e5, 300, 0);
    const b = stillGas(air, 1.5e5, 300, 0);
    expect(orificeFlow(b, a, 1e-4)).toBe(-orificeFlow(a, b, 1e-4));
    expect(orificeFlow(a, a, 1e-4)).toBe(0);
  });

  it('is straight in the pressure difference below a part in ten thousand, and joins the root there', () => {
    const a = stillGas(air, 1e5, 300, 0);
    const at = (d: number) => orificeFlow(a, stillGas(air, 1e5 * (1 - d), 300, 0), 1e-4);
    expect(at(1e-5) / at(5e-5)).toBeCloseTo(0.2, 8);
    expect(at(0.99999e-4) / at(1.00001e-4)).toBeCloseTo(1, 4);
  });
});

describe('a vessel filled through an orifice from still air', () => {
  it('holds gamma T0 = 420 K when it was empty, while choked and after', () => {
    // A ten-thousandth of the pressure stands for nothing; it weighs 1e-4 / 0.3 of the result at most.
    for (const t of [0.1, 0.2, 1])
      expect(Math.abs(fill(101_325, 10, 300, t, 2000).T / 420 - 1)).toBeLessThan(1e-3);
  });

  it('gains pressure at gamma R T0 m / V = 285 041 Pa/s while choked', () => {
    const { p, mdot } = fill(101_325, 1000, 300, 0.1, 500);
    expect(mdot).toBeCloseTo(2.36425e-3, 8);
    expect((p - 1000) / 0.1).toBeCloseTo(285_041.5, -1);
  });

  it('comes to rest at the pressure outside and stays there', () => {
    expect(fill(1e5, 1e5, 350, 5, 200)).toEqual({
      p: expect.closeTo(1e5, 6),
      T: expect.closeTo(350, 9),
      mdot: expect.closeTo(0, 12),
    });
  });
});
