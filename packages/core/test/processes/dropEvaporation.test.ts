import { describe, expect, it } from 'vitest';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { type LiquidFuel, liquidFuel } from '../../src/gas/liquidFuel.ts';
import { DROP, DROP_SIZE, evaporateDrop } from '../../src/processes/dropEvaporation.ts';

const OCTANE = liquidFuel(fuelNamed('iso-octane')) as LiquidFuel;
const METHANOL = liquidFuel(fuelNamed('methanol')) as LiquidFuel;

/** Share that evaporates in a second [1/s]: diameter [m], slip [m/s], temperature [K], pressure [Pa], fraction of vapour. */
function dropEvaporation(fuel: LiquidFuel, ...given: [number, number, number, number, number]): number {
  const drop = new Float64Array(DROP_SIZE);
  drop.set(given);
  evaporateDrop(fuel, drop);
  return drop[DROP.rate];
}

describe('a drop of fuel', () => {
  // By hand, the drop at its boiling point nearly: B = 1100 x (1000 - 357) / 307.6e3 = 2.30, film of 678 K: k = 0.0499,
  // 12 x 0.0499 x ln 3.30 / (1100 x 750 x (50e-6)^2) = 347 1/s.
  it('in gas of 1000 K that stands still loses a 347th of itself in a second over 1000, by the law of the steady drop', () => {
    const rate = dropEvaporation(OCTANE, 50e-6, 0, 1000, 101_325, 0);
    expect(Math.abs(rate / 347 - 1)).toBeLessThan(0.03);
  });

  /**
   * The same law solved another way, by halving: 1100 J/(kg K) of film, 288 J/(kg K) of gas, 0.026 W/(m K) at 300 K with the power 0.8,
   * 750 kg/m3, vapour by Clausius and Clapeyron from the boiling point on.
   */
  function halved(
    { R, latentHeat, boilingPoint }: LiquidFuel,
    d: number,
    T: number,
    p: number,
    Y: number,
  ): number {
    const transfer = (Ts: number): number => (1100 * (T - Ts)) / latentHeat;
    const tooWarm = (Ts: number): boolean => {
      const moles = (101_325 / p) * Math.exp((latentHeat / R) * (1 / boilingPoint - 1 / Ts));
      const surface = moles / (moles + (1 - moles) * (R / 288));
      return moles >= 1 || (surface - Y) / (1 - surface) > transfer(Ts);
    };
    let [cold, warm] = [220, Math.min(T, 2 * boilingPoint)];
    for (let i = 0; i < 60; i++) {
      const middle = (cold + warm) / 2;
      if (tooWarm(middle)) warm = middle;
      else cold = middle;
    }
    const k = 0.026 * ((T + cold) / 2 / 300) ** 0.8;
    return (12 * k * Math.log1p(transfer(cold))) / (1100 * 750 * d * d);
  }

  it.each([
    ['iso-octane', OCTANE, 330, 1e5, 0.02],
    ['iso-octane', OCTANE, 600, 1e5, 0.05],
    ['methanol', METHANOL, 320, 1e5, 0.01],
    ['methanol', METHANOL, 500, 1e5, 0.1],
  ] as const)('of %s is as cold as heat and vapour balance: by halving too, %#', (_name, fuel, T, p, Y) => {
    const rate = dropEvaporation(fuel, 30e-6, 0, T, p, Y);
    expect(rate / halved(fuel, 30e-6, T, p, Y)).toBeCloseTo(1, 3);
  });

  it('lives with the square of its diameter, and shorter in gas that passes it', () => {
    const still = dropEvaporation(OCTANE, 20e-6, 0, 600, 5e5, 0);
    expect(still / dropEvaporation(OCTANE, 40e-6, 0, 600, 5e5, 0)).toBeCloseTo(4, 9);
    expect(dropEvaporation(OCTANE, 20e-6, 10, 600, 5e5, 0)).toBeGreaterThan(1.5 * still);
  });

  it('evaporates in gas as cold as an intake too, the slower the fuller the gas is, and not at all in full gas', () => {
    const rates = [0, 0.05, 0.1].map((y) => dropEvaporation(METHANOL, 50e-6, 5, 300, 1e5, y));
    expect(rates[0]).toBeGreaterThan(rates[1]);
    expect(rates[1]).toBeGreaterThan(rates[2]);
    // Methanol at 300 K: 18 kPa over the liquid, a mass fraction of 0.2.
    expect(dropEvaporation(METHANOL, 50e-6, 5, 300, 1e5, 0.25) / rates[0]).toBeLessThan(2e-3);
  });

  it('evaporates smoothly: the drop is as cold as it is, not as a search happened to end', () => {
    for (const p of [5e4, 1e5, 5e5]) {
      const rates = Array.from({ length: 400 }, (_, i) =>
        dropEvaporation(OCTANE, 30e-6, 5, 330 + 0.2 * i, p, 0.01),
      );
      for (let i = 1; i < rates.length - 1; i++)
        expect(Math.abs(rates[i + 1] - 2 * rates[i] + rates[i - 1])).toBeLessThan(1e-4 * rates[i]);
    }
  });
});
