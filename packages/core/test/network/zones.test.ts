/** Two zones of one cylinder: what was mixed from known pressure and temperatures is found again. */
import { describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { frozenR, frozenS, frozenU } from '../../src/gas/frozenBlend.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { SIDE, SIDE_SIZE } from '../../src/network/side.ts';
import { decodeTwoZones, oneZoneEnergy, oneZoneR, type ZonedGas } from '../../src/network/zones.ts';

describe('two zones', () => {
  it.each([
    [40e5, 780, 2500, 0.3],
    [65e5, 900, 2650, 0.7],
    [8e5, 620, 1900, 0.95],
  ])(
    'at %d Pa, of %d and %d K with a share of %d burned, are found from energy and entropy',
    (p, Tu, Tb, x) => {
      const tables = buildGasTables({
        fuel: fuelNamed('pump-93'),
        lambda: 0.88,
        pressure: 1e5,
        vapourPressure: 1500,
      });
      const [m, residual] = [6e-4, 0.07];
      const [Ru, Rb] = [frozenR(tables, residual), oneZoneR(tables, Tb, p, 1)];
      const V = (m * ((1 - x) * Ru * Tu + x * Rb * Tb)) / p;
      const U = m * ((1 - x) * frozenU(tables, Tu, residual) + x * oneZoneEnergy(tables, Tb, p, 1));
      const s = frozenS(tables, Tu, Math.log(p / 1e5), residual);
      const side = new Float64Array(SIDE_SIZE);
      const now = { V, m, x, U, s, Tu: 700, Tb: 0, T: 0 };
      const gas: ZonedGas = { tables, side, residual, start: { p: 0.7 * p, Tb: Tb - 300 }, now };
      decodeTwoZones(gas);
      expect(side[SIDE.p] / p).toBeCloseTo(1, 6);
      expect(now.Tu / Tu).toBeCloseTo(1, 6);
      expect(now.Tb / Tb).toBeCloseTo(1, 6);
      // The mean is that of one gas that fills the cylinder: p V = m R T.
      expect(side[SIDE.R]).toBeCloseTo((1 - x) * Ru + x * Rb, 3);
      expect((m * side[SIDE.R] * side[SIDE.T]) / (p * V)).toBeCloseTo(1, 6);
      expect(now.T).toBe(side[SIDE.T]);
    },
  );
});
