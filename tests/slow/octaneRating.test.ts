import { describe, expect, it } from 'vitest';
import { DELAY_FACTOR } from '../../packages/core/src/processes/knock.ts';
import { GUIDE, type RatingMethod, rated } from '../physics/ratingEngine.ts';

const METHODS: readonly RatingMethod[] = ['research', 'motor'];

/** Octane falls with the factor on the delay to this power: the octane power of the law. */
const FACTOR_POWER = -1 / 3.402;

describe('the factor on the autoignition delay', () => {
  it('is the one that both rating methods ask for together, from 90 to 100', () => {
    const rows = METHODS.flatMap((method) =>
      GUIDE[method]
        .filter(([octane]) => octane >= 90 && octane <= 100)
        .map(([octane, counter]) => ({ method, octane, asked: rated(method, counter).octane })),
    );
    expect(rows).toHaveLength(8);
    for (const { method, octane, asked } of rows)
      expect(Math.abs(asked - octane), `${method} ${octane}: ${asked.toFixed(2)}`).toBeLessThan(2.5);
    // Least squares of asked x (factor / present factor)^power against the fuels.
    const scale =
      rows.reduce((sum, r) => sum + r.asked * r.octane, 0) / rows.reduce((sum, r) => sum + r.asked ** 2, 0);
    const best = DELAY_FACTOR * scale ** (1 / FACTOR_POWER);
    expect(best, rows.map((r) => `${r.method} ${r.octane}: ${r.asked.toFixed(2)}`).join(', ')).toBeCloseTo(
      DELAY_FACTOR,
      1.5,
    );
  });
});
