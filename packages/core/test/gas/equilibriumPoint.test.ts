import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { frozenCv, frozenU } from '../../src/gas/frozenBlend.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import type { GasTables } from '../../src/gas/gasTables.ts';
import { pointOf } from '../support/pointOf.ts';

let tables: GasTables;
beforeAll(() => {
  tables = buildGasTables({ fuel: fuelNamed('pump-93'), lambda: 0.88, pressure: 1e5, vapourPressure: 1500 });
});

describe('burned gas at equilibrium', () => {
  it('is the frozen gas of the blends below the freezing temperature', () => {
    const cold = fc.double({ min: 150, max: 1500, noNaN: true });
    fc.assert(
      fc.property(cold, (T) => {
        const { u, R, uT, uLnP, RT, RLnP } = pointOf(tables, T, 5e5);
        expect(u).toBeCloseTo(frozenU(tables, T, 1), 6);
        expect(uT).toBe(frozenCv(tables, T, 1));
        expect([R, uLnP, RT, RLnP]).toEqual([tables.burnedR, 0, 0, 0]);
      }),
      { numRuns: 200 },
    );
  });

  it('holds the first and last pressure outside the table, where pressure has no slope', () => {
    const thin = pointOf(tables, 2500, 1e3);
    expect(thin.u).toBe(pointOf(tables, 2500, 0.3e5 * (1 - 1e-9)).u);
    expect(Math.abs(thin.uLnP)).toBe(0);
    expect(pointOf(tables, 2500, 1e9).R).toBeCloseTo(pointOf(tables, 2500, 300e5).R, 9);
  });

  it('has slopes that are differences', () => {
    const T = 2511;
    const p = 41e5;
    const dT = 1;
    const dLnP = 1e-3;
    const here = pointOf(tables, T, p);
    const hotter = pointOf(tables, T + dT, p);
    const denser = pointOf(tables, T, p * Math.exp(dLnP));
    expect(here.uT).toBeCloseTo((hotter.u - here.u) / dT, 5);
    expect(here.RT).toBeCloseTo((hotter.R - here.R) / dT, 8);
    expect(here.uLnP).toBeCloseTo((denser.u - here.u) / dLnP, 3);
    expect(here.RLnP).toBeCloseTo((denser.R - here.R) / dLnP, 6);
  });

  it('goes on in temperature as it ends, so that a search finds its way back', () => {
    const { temperatureCount, tMin, dT } = tables.equilibrium;
    const end = tMin + (temperatureCount - 1) * dT;
    const { u, uT } = pointOf(tables, end + 300, 20e5);
    const last = pointOf(tables, end - 0.1 * dT, 20e5);
    expect(uT).toBe(last.uT);
    expect(u).toBeCloseTo(last.u + (300 + 0.1 * dT) * uT, 3);
  });
});
