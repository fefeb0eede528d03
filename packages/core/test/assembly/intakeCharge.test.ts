import { describe, expect, it } from 'vitest';
import { chargeRise, intakeCharge } from '../../src/assembly/intakeCharge.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { J607_REFERENCE } from '../../src/combination/referenceAir.ts';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { frozenCv, frozenH } from '../../src/gas/frozenBlend.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { bigBlock } from '../support/bigBlock.ts';

const MILD = J607_REFERENCE.temperature;

function chargeOf(
  change: Partial<Combination['induction']>,
  fuel: string,
  outside: number,
): { readonly warming: number; readonly vapour: number; readonly charge: ReturnType<typeof intakeCharge> } {
  const base = bigBlock({ fuel: fuelNamed(fuel), lambda: 0.87 });
  const engine = {
    ...base,
    weather: { ...base.weather, temperature: outside },
    induction: { ...base.induction, heating: 0, evaporation: 0, vapour: 0.5, ...change },
  };
  const { vapourPressure, pressure } = engine.weather;
  const tables = buildGasTables({ fuel: engine.fuel, lambda: 0.87, vapourPressure, pressure });
  const charge = intakeCharge(engine, tables);
  const cp = frozenCv(charge.tables, outside, 0) + charge.tables.freshR;
  const perAir = (f: number): number => f / (1 - f);
  return {
    warming: (charge.metering.enthalpy - frozenH(charge.tables, outside, 0)) / cp,
    vapour: perAir(charge.tables.fuelFraction) / perAir(tables.fuelFraction),
    charge,
  };
}

/** Temperature of the charge that arrives in the plenum over that of outside air [K]. */
const warming = (change: Partial<Combination['induction']>, fuel = 'pump-91', outside = MILD): number =>
  chargeOf(change, fuel, outside).warming;

describe('the charge that leaves carburetor or throttle', () => {
  it('is as warm as the air where nothing heats or evaporates', () => {
    expect(warming({})).toBeCloseTo(0, 9);
  });

  it('is warmed by what the plenum gives, and by half of it half-way up to a warm engine of 360 K', () => {
    expect(warming({ heating: 11 })).toBeCloseTo(11, 9);
    expect(warming({ heating: 11 }, 'pump-91', (MILD + 360) / 2)).toBeCloseTo(5.5, 9);
    expect(warming({ heating: 11 }, 'pump-91', 365)).toBeCloseTo(0, 9);
  });

  it('is warmer the warmer the air, however much a manifold heats', () => {
    for (const heating of [-40, 0, 11, 40, 80])
      for (let T = 243; T < 318; T += 5)
        expect(T + 5 + chargeRise(heating, T + 5)).toBeGreaterThan(T + chargeRise(heating, T));
  });

  // 305 to 350 kJ/kg at 1 kg of gasoline to 12.6 of air, 1.01 to 1.05 kJ/(kg K): 21 to 26 K in all.
  it('is cooled by what the air evaporates: some 23 K where it is warm enough to do all of a gasoline', () => {
    const all = warming({ evaporation: 1, vapour: 1 }, 'pump-91', 330);
    expect(all).toBeLessThan(-20);
    expect(all).toBeGreaterThan(-27);
    expect(warming({ evaporation: 0.3, vapour: 1 }, 'pump-91', 330) / all).toBeCloseTo(0.3, 9);
  });

  it('is not cooled by what walls evaporate, and holds no less vapour for it', () => {
    const { warming: rise, vapour } = chargeOf({ evaporation: 0.2, vapour: 0.7 }, 'pump-91', MILD);
    expect(Math.abs(rise / warming({ evaporation: 0.2, vapour: 0.2 }) - 1)).toBeLessThan(0.1);
    expect(vapour).toBeCloseTo(0.7, 9);
  });

  it('holds of methanol what saturation leaves: a quarter, 35 K colder, and less on a cold day', () => {
    const mild = chargeOf({ evaporation: 0.8, vapour: 0.8, heating: 11 }, 'methanol', MILD);
    expect(mild.vapour).toBeGreaterThan(0.15);
    expect(mild.vapour).toBeLessThan(0.35);
    expect(mild.warming).toBeLessThan(-10);
    const cold = chargeOf({ evaporation: 0.8, vapour: 0.8, heating: 11 }, 'methanol', MILD - 25);
    expect(cold.vapour).toBeLessThan(0.6 * mild.vapour);
  });

  it('takes the rest of the fuel along as liquid, to the mixture that was asked for', () => {
    const { charge } = chargeOf({ vapour: 0.25 }, 'pump-91', MILD);
    const { fuelFraction } = charge.tables;
    const tables = buildGasTables({
      fuel: fuelNamed('pump-91'),
      lambda: 0.87,
      vapourPressure: 0,
      pressure: 101_325,
    });
    const gain = charge.fuelling?.gain ?? 1;
    // A kilogram that passes the valve holds its own vapour and what comes with it, in `gain` kilograms.
    expect((fuelFraction + gain - 1) / gain).toBeCloseTo(tables.fuelFraction, 12);
  });

  // By hand, 114.3 by 107.95 mm, 58.42 mm of valve: 26.80 cm2 of 0.550 MW/m2 are 1474 W. A cylinder of 1.1077 l draws 1.3545 g of air at 60 F
  // and with it 0.2405 g of methanol, of which the nine tenths that are liquid take 252.9 J: 4 pi 1474 / 252.9 = 73.3 rad/s. Gasoline's film
  // is 0.05 / 0.1297 of the fuel, 0.373 of the liquid more than walls evaporate.
  it('boils on the valve what of a film as large as gasoline has the walls left, as fast as the valve can', () => {
    const wet = { evaporation: 0.05, vapour: 0.1 };
    const { charge, vapour } = chargeOf(wet, 'methanol', MILD);
    const boiling = charge.fuelling?.boiling;
    expect(vapour).toBeCloseTo(0.1, 9);
    expect(boiling?.wetting).toBeCloseTo(0.3729, 3);
    expect(Math.abs((boiling?.speed ?? 0) / 73.27 - 1)).toBeLessThan(1e-3);
    expect(chargeOf(wet, 'pump-91', MILD).charge.fuelling?.boiling).toBeUndefined();
    expect(
      chargeOf({ ...wet, injection: 'direct' }, 'methanol', MILD).charge.fuelling?.boiling,
    ).toBeUndefined();
  });

  it('has neither liquid nor spray where the fuel is a gas, or all of it is vapour', () => {
    const gas = chargeOf({ evaporation: 0.3, vapour: 0.5 }, 'propane', MILD);
    expect([gas.charge.fuelling, gas.charge.spray, gas.vapour]).toEqual([undefined, undefined, 1]);
    expect(gas.warming).toBeCloseTo(0, 9);
    expect(chargeOf({ vapour: 1 }, 'pump-91', MILD).charge.spray).toBeUndefined();
  });
});
