/** What the trade knows of air and fuel by their effect on torque. */
import { describe, expect, it } from 'vitest';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { fuelNamed } from '../../packages/core/src/gas/fuels.ts';
import { evaporation, vapour } from '../../packages/core/src/reading/defaults/charge.ts';
import { engineFile, pointsOf } from './engines.ts';

const SMALL_BLOCK = 'tests/data/engines/street-350.yaml';
const FOUR_VALVE = 'examples/club-racer/engine.yaml';

/** Gains are those of the usual mesh to 0.2 %. */
const COARSE = { intakeCell: 0.06, exhaustCell: 0.15, fewest: 6 };

/** At best torque, so that knock has no part, and as observed. */
function engine(path: string, change: Partial<Combination> = {}): Combination {
  const base = engineFile(path);
  return {
    ...base,
    lambda: 0.87,
    correction: 'none',
    burn: { ...base.burn, timing: { mode: 'best-torque' } },
    ...change,
  };
}

const withInduction = (base: Combination, change: Partial<Combination['induction']>): Combination => ({
  ...base,
  induction: { ...base.induction, ...change },
});

describe('colder air at a fixed mixture', () => {
  it.each([
    ['a cool runner', 295, 11],
    ['a cold runner', 270, 0],
    ['much heating', 340, 60],
    ['a hot runner', 420, 20],
    ['cooling', 330, -30],
  ])('never costs torque, with %s of %d K and a heating of %d K', (_, wallTemperature, heating) => {
    const base = engine(SMALL_BLOCK);
    const runner = { ...base.induction.runner, wallTemperature };
    const torque = [253, 273, 298, 313].map((temperature) => {
      const day = withInduction(base, { runner, heating });
      return pointsOf({ ...day, weather: { ...base.weather, temperature } }, [4000], {
        mesh: COARSE,
        onlyCompared: true,
      })[0].torqueNm;
    });
    for (let i = 1; i < torque.length; i++) expect(torque[i]).toBeLessThan(torque[i - 1]);
  });
});

describe('fuel that takes room, and fuel that cools', () => {
  const known = new Map<string, MarchedPoint>();
  /** The engine on gasoline, forecast once for all that is compared with it. */
  const onGasoline = (path: string, base: Combination, rpm: number): MarchedPoint => {
    const key = `${path} ${rpm}`;
    const point = known.get(key) ?? pointsOf(base, [rpm], { mesh: COARSE })[0];
    known.set(key, point);
    return point;
  };
  const gainOf = (path: string, rpm: number, to: (base: Combination) => Combination): number => {
    const base = engine(path, { fuel: fuelNamed('pump-93') });
    const before = onGasoline(path, base, rpm);
    const [after] = pointsOf(to(base), [rpm], { mesh: COARSE });
    for (const point of [before, after]) {
      expect(Math.abs(point.energyClosure)).toBeLessThan(1e-4);
      expect(Math.abs(point.massClosure)).toBeLessThan(1e-4);
    }
    return 100 * (after.torqueNm / before.torqueNm - 1);
  };
  /** What the air and the walls evaporate of it as a file without a word of it would have it. */
  const fuelled = (name: string) => (base: Combination) => {
    const fuel = fuelNamed(name);
    const { injection } = base.induction;
    const byAir = evaporation(injection, fuel).value;
    const share = vapour(injection, injection === 'carburetor' ? 'exhaust' : 'none', byAir, fuel).value;
    return withInduction({ ...base, fuel }, { evaporation: byAir, vapour: share });
  };

  // Common practice: a gas displaces air, and nothing of it cools the charge.
  it('propane in place of gasoline costs 4 to 10 %, natural gas 10 to 17 %', () => {
    const propane = gainOf(SMALL_BLOCK, 4000, fuelled('propane'));
    expect(propane).toBeLessThan(-4);
    expect(propane).toBeGreaterThan(-10);
    const natural = gainOf(SMALL_BLOCK, 4000, fuelled('natural-gas'));
    expect(natural).toBeLessThan(-10);
    expect(natural).toBeGreaterThan(-17);
  });

  // Common practice, no source.
  it('methanol gains 8 to 15 % at the same lambda', () => {
    const injected = gainOf(FOUR_VALVE, 6000, fuelled('methanol'));
    expect(injected).toBeGreaterThan(8);
    expect(injected).toBeLessThan(15);
    const carbureted = gainOf(SMALL_BLOCK, 4000, fuelled('methanol'));
    expect(carbureted).toBeGreaterThan(8);
    expect(carbureted).toBeLessThan(15);
  });

  // Common practice, no source: 2 to 5 %.
  it('E85 gains 2 to 5 % at the same lambda', () => {
    const gain = gainOf(SMALL_BLOCK, 4000, fuelled('e85'));
    expect(gain).toBeGreaterThan(2);
    expect(gain).toBeLessThan(5);
  });

  // Common practice, no source.
  it('injection into the cylinder gains 3 to 5 % of torque over injection at the port, at best timing', () => {
    const gain = gainOf(FOUR_VALVE, 5500, (base) =>
      withInduction(base, { injection: 'direct', evaporation: 0, vapour: 0 }),
    );
    expect(gain).toBeGreaterThan(3);
    expect(gain).toBeLessThan(5);
  });
});
