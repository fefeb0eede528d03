import { describe, expect, it } from 'vitest';
import { fuelRating } from '../../packages/core/src/forecast/fuelRating.ts';
import { temperatureAtPressure } from '../../packages/core/src/gas/compress.ts';
import { fuelNamed } from '../../packages/core/src/gas/fuels.ts';
import { sweptVolume } from '../../packages/core/src/geometry/sliderCrank.ts';
import { RATING_TEMPERATURES, SHARE_PRESSURE } from '../../packages/core/src/processes/knock.ts';
import { asMeasured, GUIDE, onFuel, type Rated, type RatingMethod, rated } from './ratingEngine.ts';

const METHODS: readonly RatingMethod[] = ['research', 'motor'];

const known = new Map<string, Rated>();

/** The engine where a fuel just knocks, run once for all tests. */
function atOctane(method: RatingMethod, octane: number): Rated {
  const row = GUIDE[method].find(([number]) => number === octane);
  if (row === undefined) throw new RangeError(`no row for ${octane}`);
  const key = `${method} ${octane}`;
  const run = known.get(key) ?? rated(method, row[1]);
  known.set(key, run);
  return run;
}

describe('the standard octane-rating engine', () => {
  // Kolodziej and Wallner, Combustion Engines 171 (2017) 164: 0.7467 kg/h of fuel at lambda 0.8855, figs. 2 and 4. Two per
  // cent: the digits read off the charts, and two days' figures differ by 1 %.
  it('breathes and works as it was measured', () => {
    const { simulation, march, cycle } = asMeasured();
    const { totals } = cycle;
    expect(cycle.converged).toBe(true);
    expect((totals.freshIn * simulation.tables.dryAirFraction) / 0.555e-3).toBeCloseTo(1, 1.7);
    const swept = sweptVolume(march.network.cylinders[0].crank);
    expect(totals.closedWork / swept / 7.89e5).toBeGreaterThan(0.98);
    expect(totals.closedWork / swept / 7.89e5).toBeLessThan(1.02);
  });

  it.each(METHODS)('asks by the %s method for the octane number of the fuel that just knocks', (method) => {
    for (const octane of [85, 95])
      expect(Math.abs(atOctane(method, octane).octane - octane), `${octane}`).toBeLessThan(3);
  });

  it.each(METHODS)(
    'has by the %s method the end gas that the share of the motor method is counted from',
    (method) => {
      const { simulation, march } = atOctane(method, 95);
      const [{ closingTemperature, closingPressure, residual }] = march.diaries;
      const T = temperatureAtPressure(
        simulation.tables,
        closingTemperature,
        closingPressure,
        residual,
        SHARE_PRESSURE,
      );
      expect(Math.abs(T - RATING_TEMPERATURES[method])).toBeLessThan(3);
    },
  );

  // At one height both just knock, so that a gasoline bears the number by which the engine asks for more on it than on a reference fuel.
  it.each(METHODS)('asks by the %s method of a gasoline for what it is worth above its number', (method) => {
    const reference = atOctane(method, 95);
    const gasoline = fuelNamed('pump-91');
    const more = onFuel(reference, method, gasoline).octane - reference.octane;
    const numbers = { research: gasoline.researchOctane, motor: gasoline.motorOctane };
    expect(more).toBeGreaterThan(0.9);
    expect(Math.abs(more - (fuelRating(gasoline)[method] - numbers[method]))).toBeLessThan(0.25);
  });
});
