/** What one ratio of power to torque times speed on every row suggests: each slip by its own figure, and where nothing is said. */
import { describe, expect, it } from 'vitest';
import { slipOf } from '../../src/dyno/powerCheck.ts';

/** Faults of one ratio, or of several that repeat. */
const faults = (count: number, ...ratios: readonly number[]) =>
  Array.from({ length: count }, (_, i) => ({ line: i + 2, ratio: ratios[i % ratios.length] }));

/** A foot-pound-force, a horsepower and a metric horsepower in newton metres and kilowatts. */
const POUND_FOOT = 1.3558179483;
const HORSEPOWER = 0.74569987158;
const METRIC_HORSEPOWER = 0.73549875;
/** J607 reads 4.0 % above J1349 with engines of usual friction, whose own share of 15 % is not corrected. */
const J607_OVER_J1349 = 1.0401;

describe('one ratio on every row', () => {
  it.each([
    [POUND_FOOT, 'torque looks like lb-ft under a header of Nm'],
    [1 / POUND_FOOT, 'torque looks like Nm under a header of lb-ft'],
    [1 / HORSEPOWER, 'power looks like hp under a header of kW'],
    [HORSEPOWER, 'power looks like kW under a header of hp'],
    [HORSEPOWER / METRIC_HORSEPOWER, 'power looks like metric horsepower (PS) under a header of hp'],
    [METRIC_HORSEPOWER / HORSEPOWER, 'power looks like hp under a header of PS'],
    [J607_OVER_J1349, 'power looks like J607 beside torque of J1349'],
    [0.9546, 'power looks like J1349 beside torque of J607'],
  ])('of %f says: %s', (ratio, message) => {
    expect(slipOf(faults(5, ratio), 5)).toBe(message);
    // Four in a thousand either way is rounding, one is not.
    expect(slipOf(faults(5, 1.004 * ratio), 5)).toBe(message);
    expect(slipOf(faults(5, 1.01 * ratio), 5)).not.toBe(message);
    expect(slipOf(faults(5, 0.99 * ratio), 5)).not.toBe(message);
  });

  it('is looked for in three rows at least, and in nine of ten', () => {
    expect(slipOf(faults(2, POUND_FOOT), 2)).toBeNull();
    expect(slipOf(faults(3, POUND_FOOT), 3)).not.toBeNull();
    expect(slipOf(faults(9, POUND_FOOT), 10)).not.toBeNull();
    expect(slipOf(faults(8, POUND_FOOT), 10)).toBeNull();
  });

  it('is one where all rows lie within a hundredth of the middle one', () => {
    expect(slipOf(faults(5, POUND_FOOT, 1.004 * POUND_FOOT), 5)).not.toBeNull();
    expect(slipOf(faults(5, POUND_FOOT, 1.02 * POUND_FOOT), 5)).toBeNull();
    expect(slipOf(faults(5, 1.2), 5)).toBeNull();
  });
});
