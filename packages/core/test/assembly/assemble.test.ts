import { describe, expect, it } from 'vitest';
import { assembleNetwork } from '../../src/assembly/assemble.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { planBurn } from '../../src/cycle/burnPlan.ts';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { frozenCv, frozenH } from '../../src/gas/lookup.ts';
import { STANDARD_WEATHER } from '../../src/reading/defaults/running.ts';
import { bigBlock } from '../support/bigBlock.ts';

/** Temperature of the charge that arrives in the plenum over that of outside air [K]. */
function warming(
  change: Partial<Combination['induction']>,
  fuel = 'pump-91',
  outside = STANDARD_WEATHER.temperature,
): number {
  const named = fuelNamed(fuel);
  if (named === undefined) throw new Error(`no fuel ${fuel}`);
  const mild = bigBlock({ fuel: named, lambda: 0.87 });
  const base = { ...mild, weather: { ...mild.weather, temperature: outside } };
  const engine = { ...base, induction: { ...base.induction, heating: 0, evaporation: 0, ...change } };
  const { weather } = engine;
  const tables = buildGasTables({ fuel: named, lambda: 0.87, ...weather });
  const burn = planBurn({ development: 20, main: 30 }, { ca50: 8 }, 0.97);
  const { spec } = assembleNetwork(engine, tables, 'representative', burn);
  const T = weather.temperature;
  const cp = frozenCv(tables, T, 0) + tables.freshR;
  const [{ metering }] = spec.orifices;
  if (metering === undefined) throw new Error('nothing is metered');
  return (metering.enthalpy - frozenH(tables, T, 0)) / cp;
}

describe('the charge that leaves carburetor or throttle', () => {
  it('is as warm as the air where nothing heats or evaporates', () => {
    expect(warming({})).toBeCloseTo(0, 9);
  });

  it('is warmed by what the plenum gives', () => {
    expect(warming({ heating: 11 })).toBeCloseTo(11, 9);
  });

  // Walls of 340 K are 51.3 K warmer than a day of 60 F and 25.65 K warmer than the air half-way up to them.
  it('is warmed half as much by walls that are half as much warmer than the air', () => {
    const runner = { ...bigBlock().induction.runner, wallTemperature: 340 };
    const half = (STANDARD_WEATHER.temperature + 340) / 2;
    expect(warming({ heating: 11, runner }, 'pump-91', half)).toBeCloseTo(5.5, 9);
    expect(warming({ heating: 11, runner }, 'pump-91', 345)).toBeCloseTo(0, 9);
  });

  // 305 to 350 kJ/kg at 1 kg of gasoline to 12.6 of air, 1.01 to 1.05 kJ/(kg K): 21 to 26 K in all.
  it('is cooled by what evaporates: some 23 K where all of a gasoline does', () => {
    const all = warming({ evaporation: 1 });
    expect(all).toBeLessThan(-20);
    expect(all).toBeGreaterThan(-27);
    expect(warming({ evaporation: 0.3 }) / all).toBeCloseTo(0.3, 9);
  });

  it('is cooled five times as much and more by methanol', () => {
    expect(warming({ evaporation: 0.3 }, 'methanol') / warming({ evaporation: 0.3 })).toBeGreaterThan(5);
  });
});
