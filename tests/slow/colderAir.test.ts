/** Colder air is denser air: at a fixed mixture and a fixed angle of burn it never costs torque, however warm the manifold is. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { comparedPointsOf } from '../physics/engines.ts';

/** Torque may rise with temperature by so much before it counts [-]: a settled cycle's last digits. */
const NOISE = 2e-3;

const engine = fc.record({
  bore: fc.integer({ min: 70, max: 110 }),
  stroke: fc.integer({ min: 65, max: 100 }),
  cylinders: fc.constantFrom(4, 6, 8),
  valves: fc.constantFrom(2, 4),
  heating: fc.integer({ min: 0, max: 60 }),
  wall: fc.integer({ min: 285, max: 340 }),
  rpm: fc.constantFrom(3000, 4000, 5000),
});

it('colder air costs no torque in engines of any size, manifold and wall', { timeout: 900_000 }, () => {
  fc.assert(
    fc.property(engine, ({ bore, stroke, cylinders, valves, heating, wall, rpm }) => {
      const torque = [-10, 15, 40].map((celsius) => {
        const read = readCombination(
          [
            `engine: { bore: ${bore} mm, stroke: ${stroke} mm, cylinders: ${cylinders} }`,
            'chamber: { compression: 9.5 }',
            `heads: { valvesPerCylinder: ${valves} }`,
            `induction: { heating: ${heating} K, runner: { wallTemperature: ${wall} K } }`,
            'mixture: { lambda: 0.9 }',
            'burn: { timing: ca50, ca50: 9 deg }',
            `weather: { temperature: ${celsius} degC, barometer: 1013 mbar, vapourPressure: 0 mbar }`,
            'correction: none',
          ].join('\n'),
        );
        if (!read.ok)
          throw new Error(read.problems.map(({ path, message }) => `${path} ${message}`).join('\n'));
        return comparedPointsOf(read.value, [rpm])[0].torqueNm;
      });
      torque.slice(1).forEach((warmer, i) => {
        expect(warmer / torque[i], `${torque.map((t) => t.toFixed(1)).join(', ')} N m`).toBeLessThan(
          1 + NOISE,
        );
      });
    }),
    { numRuns: 6 },
  );
});
