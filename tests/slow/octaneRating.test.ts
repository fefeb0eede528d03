import { describe, expect, it } from 'vitest';
import { GUIDE, type RatingMethod, rated } from '../physics/ratingEngine.ts';

const METHODS: readonly RatingMethod[] = ['research', 'motor'];
/** The ends and the middle of the range. */
const NUMBERS = [80, 90, 100];

/** Octane numbers that the engine asks for less with the energy where the integral ends half as large again; seen from 2.4 to 2.8 MJ/m3. */
const BY_ENERGY = 5.8;

describe('the energy at which end gas no longer counts', () => {
  it('is the one that both rating methods ask for together, from 80 to 100, with the delay as printed', () => {
    const rows = METHODS.flatMap((method) =>
      GUIDE[method]
        .filter(([octane]) => NUMBERS.includes(octane))
        .map(([octane, counter]) => ({ method, octane, over: rated(method, counter).octane - octane })),
    );
    expect(rows).toHaveLength(6);
    const all = rows.map((r) => `${r.method} ${r.octane}: ${r.over.toFixed(2)}`).join(', ');
    for (const { over } of rows) expect(Math.abs(over), all).toBeLessThan(3);
    // Another figure of two digits would be no nearer: a tenth of 3.0 MJ/m3 is worth half a number.
    const mean = rows.reduce((sum, { over }) => sum + over, 0) / rows.length;
    expect(Math.abs(mean), all).toBeLessThan(0.1 * BY_ENERGY);
  });
});
