import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { compressedTemperature, temperatureAtPressure } from '../../src/gas/compress.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import type { GasTables } from '../../src/gas/gasTables.ts';

let tables: GasTables;
beforeAll(() => {
  tables = buildGasTables({ fuel: fuelNamed('pump-93'), lambda: 0.88, pressure: 1e5, vapourPressure: 0 });
});

describe('temperatureAtPressure(tables, T, p, b, end)', () => {
  it('agrees with the compression by volume that reaches the same pressure', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 280, max: 480, noNaN: true }),
        fc.double({ min: 0, max: 0.3, noNaN: true }),
        fc.double({ min: 1.5, max: 15, noNaN: true }),
        (T, b, ratio) => {
          const squeezed = compressedTemperature(tables, T, b, ratio);
          const end = (1e5 * ratio * squeezed) / T;
          expect(temperatureAtPressure(tables, T, 1e5, b, end)).toBeCloseTo(squeezed, 3);
        },
      ),
    );
  });

  // Mixture of air and vapour with a ratio of heats of 1.36 to 1.31 on the way: 330 K x 15^0.25 = 649 K.
  it('brings 330 K at 1 bar to about 650 K at 15 bar', () => {
    const T = temperatureAtPressure(tables, 330, 1e5, 0.04, 15e5);
    expect(T).toBeGreaterThan(635);
    expect(T).toBeLessThan(665);
  });

  it('refuses what is no state of a gas', () => {
    expect(() => temperatureAtPressure(tables, Number.NaN, 1e5, 0, 15e5)).toThrow('T must be positive K');
    expect(() => temperatureAtPressure(tables, 330, 0, 0, 15e5)).toThrow('p must be positive Pa');
    expect(() => temperatureAtPressure(tables, 330, 1e5, 0, -1)).toThrow('end must be positive Pa');
  });
});
