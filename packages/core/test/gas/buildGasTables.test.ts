import { describe, expect, it } from 'vitest';
import { T_REFERENCE } from '../../src/base/constants.ts';
import { buildGasTables, FREEZE_PRESSURE, FREEZE_TEMPERATURE } from '../../src/gas/buildGasTables.ts';
import { burnedGas } from '../../src/gas/burnedGas.ts';
import { tabulateEquilibrium } from '../../src/gas/equilibriumTable.ts';
import { freshGas } from '../../src/gas/freshGas.ts';
import { frozenR, frozenS, frozenU } from '../../src/gas/frozenBlend.ts';
import { FUELS, fuelNamed } from '../../src/gas/fuels.ts';
import type { GasTables } from '../../src/gas/gasTables.ts';
import { mixtureS, mixtureU } from '../../src/gas/mixture.ts';
import { pointOf } from '../support/pointOf.ts';

const AIR = { pressure: 1e5, vapourPressure: 1500 };
const CASES = ['pump-93', 'methanol'].flatMap((name) =>
  [0.75, 0.88, 1, 1.2].map((lambda) => ({ name, lambda })),
);

const tablesOf = (name: string, lambda: number): GasTables =>
  buildGasTables({ fuel: fuelNamed(name), lambda, ...AIR });

describe('buildGasTables(input)', () => {
  it('holds the fuel and the dry air of a kilogram of fresh gas', () => {
    const tables = buildGasTables({
      fuel: fuelNamed('iso-octane'),
      lambda: 1,
      pressure: 1e5,
      vapourPressure: 0,
    });
    expect(tables.dryAirFraction / tables.fuelFraction).toBeCloseTo(15.13, 2);
    expect(tables.dryAirFraction + tables.fuelFraction).toBeCloseTo(1, 12);
    const humid = buildGasTables({
      fuel: fuelNamed('iso-octane'),
      lambda: 0.9,
      pressure: 1e5,
      vapourPressure: 2000,
    });
    expect(humid.dryAirFraction / humid.fuelFraction / (0.9 * 15.13)).toBeCloseTo(1, 3);
    // 0.622 pv / (p - pv) of water to dry air.
    expect((1 - humid.fuelFraction) / humid.dryAirFraction - 1).toBeCloseTo((0.62198 * 2) / 98, 5);
  });

  it.each(FUELS)(
    '$name, lean: fresh less burned enthalpy at 298.15 K is the heating value of the vapour',
    (fuel) => {
      const tables = buildGasTables({ fuel, lambda: 1.3, ...AIR, freezeTemperature: 1000 });
      const fresh = frozenU(tables, T_REFERENCE, 0) + tables.freshR * T_REFERENCE;
      const burned = frozenU(tables, T_REFERENCE, 1) + tables.burnedR * T_REFERENCE;
      const stated = tables.fuelFraction * (fuel.lowerHeatingValue + fuel.latentHeat);
      expect(Math.abs((fresh - burned) / stated - 1)).toBeLessThan(1e-4);
      expect(tables.lowerHeatingValue).toBe(fuel.lowerHeatingValue);
      expect(tables.latentHeat).toBe(fuel.latentHeat);
    },
  );

  it('releases when rich what oxygen allows, when lean all the heat of the fuel', () => {
    const heat = (lambda: number): number => {
      const tables = tablesOf('pump-93', lambda);
      return (frozenU(tables, T_REFERENCE, 0) - frozenU(tables, T_REFERENCE, 1)) / tables.dryAirFraction;
    };
    // By hand, per oxygen atom of the air: gasoline burned completely releases about 204 kJ; each atom missing at CO2
    // costs 283 kJ, at H2O 242 kJ. From the same air lambda 0.85 gives 1/0.85 - (1/0.85 - 1) * 283/204 to ... * 242/204.
    expect(heat(0.85) / heat(1)).toBeGreaterThan(0.93);
    expect(heat(0.85) / heat(1)).toBeLessThan(0.97);
    expect(heat(1.25) / heat(1)).toBeCloseTo(0.8, 2);
  });

  it.each(CASES)(
    '$name, lambda $lambda: one-dimensional tables err by less than 2 J/kg and 0.1 J/(kg K)',
    ({ name, lambda }) => {
      const tables = tablesOf(name, lambda);
      const fresh = freshGas(fuelNamed(name), lambda, AIR.pressure, AIR.vapourPressure).gas;
      const burned = burnedGas(fresh.atoms, FREEZE_TEMPERATURE, FREEZE_PRESSURE);
      for (let i = 0; i < tables.count - 1; i++) {
        const T = tables.tMin + (i + 0.5) * tables.dT;
        expect(Math.abs(frozenU(tables, T, 0) - mixtureU(fresh, T))).toBeLessThan(2);
        expect(Math.abs(frozenU(tables, T, 1) - mixtureU(burned, T))).toBeLessThan(2);
        expect(Math.abs(frozenS(tables, T, 0, 0) - mixtureS(fresh, T))).toBeLessThan(0.1);
        expect(Math.abs(frozenS(tables, T, 0, 1) - mixtureS(burned, T))).toBeLessThan(0.1);
      }
    },
  );

  it.each(CASES)(
    '$name, lambda $lambda: the equilibrium grid errs by less than 1.4 kJ/kg and 0.007 % of R',
    ({ name, lambda }) => {
      const tables = tablesOf(name, lambda);
      const { atoms } = freshGas(fuelNamed(name), lambda, AIR.pressure, AIR.vapourPressure).gas;
      const { tMin, dT, temperatureCount, lnPMin, dLnP, pressureCount } = tables.equilibrium;
      for (let it = 5; it < temperatureCount - 1; it += 2)
        for (let ip = it % 3; ip < pressureCount - 1; ip += 3) {
          const T = tMin + (it + 0.5) * dT;
          const p = Math.exp(lnPMin + (ip + 0.5) * dLnP);
          const gas = burnedGas(atoms, T, p);
          const { u, R } = pointOf(tables, T, p);
          expect(Math.abs(u - mixtureU(gas, T))).toBeLessThan(1400);
          expect(Math.abs(R / gas.R - 1)).toBeLessThan(7e-5);
        }
    },
  );

  it.each(CASES)(
    '$name, lambda $lambda: the join with the frozen gas departs from equilibrium by less than 4 kJ/kg',
    ({ name, lambda }) => {
      const tables = tablesOf(name, lambda);
      const { atoms } = freshGas(fuelNamed(name), lambda, AIR.pressure, AIR.vapourPressure).gas;
      for (let T = tables.freezeTemperature; T <= tables.freezeTemperature + 100; T += 20)
        for (const p of [0.3e5, 1e5, 5.1e5, 20e5, 80e5, 299e5]) {
          const gas = burnedGas(atoms, T, p);
          const bound = p > 5e5 ? 1000 : 4000;
          const { u, R } = pointOf(tables, T, p);
          expect(Math.abs(u - mixtureU(gas, T))).toBeLessThan(bound);
          expect(Math.abs(R / gas.R - 1)).toBeLessThan(2.5e-4);
        }
    },
  );

  it('is continuous where the frozen gas becomes equilibrium gas, at every pressure', () => {
    const tables = tablesOf('pump-93', 1);
    const T = tables.freezeTemperature;
    for (const p of [0.3e5, 1e5, 50e5, 300e5]) {
      const above = pointOf(tables, T + 1e-6, p);
      expect(Math.abs(above.u - pointOf(tables, T, p).u)).toBeLessThan(0.01);
      expect(above.R).toBeCloseTo(frozenR(tables, 1), 5);
    }
  });

  it('rises in temperature everywhere, so that every energy has one temperature', () => {
    for (const { name, lambda } of CASES) {
      const tables = tablesOf(name, lambda);
      const { u, temperatureCount, pressureCount } = tables.equilibrium;
      for (let i = 1; i < tables.count; i++) {
        expect(tables.freshU[i]).toBeGreaterThan(tables.freshU[i - 1]);
        expect(tables.burnedU[i]).toBeGreaterThan(tables.burnedU[i - 1]);
      }
      for (let k = pressureCount; k < temperatureCount * pressureCount; k++)
        expect(u[k]).toBeGreaterThan(u[k - pressureCount]);
    }
  });

  it('rounds the freezing temperature to a node of the tables', () =>
    expect(
      buildGasTables({ fuel: fuelNamed('e85'), lambda: 1, ...AIR, freezeTemperature: 1701.3 })
        .freezeTemperature,
    ).toBe(1700));

  it.each(CASES)(
    '$name, lambda $lambda: the grid costs at most five iterations a point',
    ({ name, lambda }) => {
      const { atoms } = freshGas(fuelNamed(name), lambda, AIR.pressure, AIR.vapourPressure).gas;
      const { table, iterations, failures } = tabulateEquilibrium(atoms, burnedGas(atoms, 1600, 20e5), 1600);
      expect(failures).toBe(0);
      expect(iterations / table.u.length).toBeLessThan(5);
      expect(table.u.length).toBeLessThan(8000);
    },
  );

  it('names the input out of range', () => {
    const input = { fuel: fuelNamed('e85'), lambda: 1, ...AIR };
    expect(() => buildGasTables({ ...input, lambda: Number.NaN })).toThrow(
      'lambda must be in [0.5, 20], got NaN',
    );
    expect(() => buildGasTables({ ...input, freezeTemperature: 300 })).toThrow(
      'freezeTemperature must be in [1000, 2500] K',
    );
    expect(() => buildGasTables({ ...input, vapourPressure: 2e5 })).toThrow('vapourPressure must be');
  });
});
