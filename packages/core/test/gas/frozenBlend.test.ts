import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import {
  BLEND,
  BLEND_SIZE,
  blendOfEnergy,
  blendOfEntropy,
  blendOfTemperature,
  frozenCv,
  frozenH,
  frozenR,
  frozenS,
  frozenTemperature,
  frozenU,
} from '../../src/gas/frozenBlend.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import type { GasTables } from '../../src/gas/gasTables.ts';

let tables: GasTables;
beforeAll(() => {
  tables = buildGasTables({ fuel: fuelNamed('pump-93'), lambda: 0.88, pressure: 1e5, vapourPressure: 1500 });
});

const anyT = fc.double({ min: 150, max: 4000, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('frozen blends', () => {
  it('invert exactly, from any guess, in and beyond the tables', () => {
    fc.assert(
      fc.property(anyT, share, fc.double(), (T, b, guess) => {
        expect(Math.abs(frozenTemperature(tables, frozenU(tables, T, b), b, guess) - T)).toBeLessThan(1e-8);
      }),
      { numRuns: 1000 },
    );
  });

  it('have the slope of their cell as heat capacity, and h = u + R T', () => {
    fc.assert(
      fc.property(anyT, share, (T, b) => {
        const cell = tables.tMin + tables.dT * Math.floor((T - tables.tMin) / tables.dT);
        const rise = frozenU(tables, cell + 4, b) - frozenU(tables, cell + 1, b);
        expect(rise / 3 / frozenCv(tables, cell + 2, b)).toBeCloseTo(1, 8);
        expect(frozenH(tables, T, b)).toBe(frozenU(tables, T, b) + frozenR(tables, b) * T);
      }),
      { numRuns: 300 },
    );
  });

  it('are read at once as they are one by one, from temperature and from energy', () => {
    fc.assert(
      fc.property(anyT, share, anyT, (T, b, guess) => {
        const blend = new Float64Array(BLEND_SIZE);
        blend[BLEND.T] = T;
        blend[BLEND.b] = b;
        blendOfTemperature(tables, blend);
        const u = frozenU(tables, T, b);
        const cv = frozenCv(tables, T, b);
        expect(Math.abs(blend[BLEND.u] - u)).toBeLessThan(1e-9 * cv * 4000);
        expect(blend[BLEND.cv] / cv).toBeCloseTo(1, 9);
        blend[BLEND.T] = guess;
        blend[BLEND.u] = u;
        blendOfEnergy(tables, blend);
        expect(Math.abs(blend[BLEND.T] - T)).toBeLessThan(1e-8);
        blend[BLEND.T] = guess;
        blend[BLEND.s] = frozenS(tables, T, 0, b);
        blendOfEntropy(tables, blend);
        expect(Math.abs(blend[BLEND.T] - T)).toBeLessThan(1e-7);
        expect(Math.abs(blend[BLEND.u] - u)).toBeLessThan(1e-3);
      }),
      { numRuns: 500 },
    );
  });

  it('are the mass-weighted sum of fresh and burned', () => {
    const u = 0.7 * frozenU(tables, 812, 0) + 0.3 * frozenU(tables, 812, 1);
    expect(frozenU(tables, 812, 0.3)).toBeCloseTo(u, 6);
    expect(frozenR(tables, 0.3)).toBeCloseTo(0.7 * tables.freshR + 0.3 * tables.burnedR, 12);
  });

  it('give fresh gasoline mixture cv near 0.81 kJ/(kg K) at 350 K and gamma near 1.35', () => {
    // Ratio of specific heats of unburned gasoline mixtures near 350 K: about 1.35 (Heywood 1988, figure 4-13, from memory).
    const cv = frozenCv(tables, 350, 0);
    expect(cv).toBeGreaterThan(780);
    expect(cv).toBeLessThan(830);
    expect(1 + frozenR(tables, 0) / cv).toBeCloseTo(1.345, 1);
  });

  it('have ds = cv dT / T + R dv / v', () => {
    const [T, v, b] = [900, 0.1, 0.2];
    const R = frozenR(tables, b);
    const s = (t: number, volume: number): number => frozenS(tables, t, Math.log((R * t) / volume / 1e5), b);
    expect((s(T + 5, v) - s(T - 5, v)) / 10).toBeCloseTo(frozenCv(tables, T, b) / T, 2);
    expect(s(T, 2 * v) - s(T, v)).toBeCloseTo(R * Math.LN2, 8);
  });
});
