import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import type { GasTables } from '../../src/gas/gasTables.ts';
import {
  BLEND,
  BLEND_SIZE,
  blendOfEnergy,
  blendOfEntropy,
  blendOfTemperature,
  equilibriumPoint,
  equilibriumR,
  equilibriumState,
  equilibriumTemperature,
  equilibriumU,
  frozenCv,
  frozenH,
  frozenR,
  frozenS,
  frozenTemperature,
  frozenU,
  POINT,
  POINT_SIZE,
} from '../../src/gas/lookup.ts';

let tables: GasTables;
beforeAll(() => {
  tables = buildGasTables({ fuel: fuelNamed('pump-93'), lambda: 0.88, pressure: 1e5, vapourPressure: 1500 });
});

/** The {@link POINT} of a temperature [K] and a pressure [Pa]. */
function pointAt(T: number, p: number): Float64Array {
  const out = new Float64Array(POINT_SIZE);
  out[POINT.T] = T;
  out[POINT.lnP] = Math.log(p);
  equilibriumPoint(tables, out);
  return out;
}

const anyT = fc.double({ min: 150, max: 4000, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });
const anyP = fc.double({ min: Math.log(0.1e5), max: Math.log(500e5), noNaN: true }).map(Math.exp);

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

describe('burned gas at equilibrium', () => {
  it('inverts exactly at constant pressure, across the freezing temperature and beyond the table', () => {
    fc.assert(
      fc.property(anyT, anyP, fc.double(), (T, p, guess) => {
        expect(
          Math.abs(equilibriumTemperature(tables, equilibriumU(tables, T, p), p, guess) - T),
        ).toBeLessThan(1e-6);
      }),
      { numRuns: 2000 },
    );
  });

  it('holds the first and last pressure outside the table', () => {
    expect(equilibriumU(tables, 2500, 1e3)).toBe(equilibriumU(tables, 2500, 0.3e5 * (1 - 1e-9)));
    expect(equilibriumR(tables, 2500, 1e9)).toBeCloseTo(equilibriumR(tables, 2500, 300e5), 9);
  });

  it('gives the same at once as one by one, and slopes that are differences', () => {
    fc.assert(
      fc.property(anyT, anyP, (T, p) => {
        const out = pointAt(T, p);
        expect(out[POINT.u]).toBeCloseTo(equilibriumU(tables, T, p), 6);
        expect(out[POINT.R]).toBeCloseTo(equilibriumR(tables, T, p), 10);
      }),
      { numRuns: 500 },
    );
    const T = 2511;
    const p = 41e5;
    const out = pointAt(T, p);
    const dT = 1;
    const dLnP = 1e-3;
    const high = p * Math.exp(dLnP);
    expect(out[POINT.uT]).toBeCloseTo((equilibriumU(tables, T + dT, p) - equilibriumU(tables, T, p)) / dT, 5);
    expect(out[POINT.uLnP]).toBeCloseTo(
      (equilibriumU(tables, T, high) - equilibriumU(tables, T, p)) / dLnP,
      3,
    );
    expect(out[POINT.RT]).toBeCloseTo((equilibriumR(tables, T + dT, p) - equilibriumR(tables, T, p)) / dT, 8);
    expect(out[POINT.RLnP]).toBeCloseTo(
      (equilibriumR(tables, T, high) - equilibriumR(tables, T, p)) / dLnP,
      6,
    );
  });

  it('has no pressure slope outside the table nor below the freezing temperature', () => {
    expect(Math.abs(pointAt(2500, 1e3)[POINT.uLnP])).toBe(0);
    const out = pointAt(900, 5e5);
    expect([out[POINT.uLnP], out[POINT.RT], out[POINT.RLnP]]).toEqual([0, 0, 0]);
    expect(out[POINT.uT]).toBe(frozenCv(tables, 900, 1));
  });

  it('finds temperature and pressure of an energy and a volume in a few passes', () => {
    const out = new Float64Array(3);
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 3400, noNaN: true }),
        fc.double({ min: Math.log(0.4e5), max: Math.log(200e5), noNaN: true }).map(Math.exp),
        (T, p) => {
          const u = equilibriumU(tables, T, p);
          const v = (equilibriumR(tables, T, p) * T) / p;
          const passes = equilibriumState(tables, u, v, T - 30, 1.1 * p, out);
          expect(passes).toBeGreaterThan(0);
          expect(passes).toBeLessThanOrEqual(16);
          expect(Math.abs(out[0] / T - 1)).toBeLessThan(1e-8);
          expect(Math.abs(out[1] / p - 1)).toBeLessThan(1e-8);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('says so with a negative count where nothing converges', () =>
    expect(equilibriumState(tables, Number.NaN, 0.1, 2000, 50e5, new Float64Array(3))).toBeLessThan(0));
});
