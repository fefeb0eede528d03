import { describe, expect, it } from 'vitest';
import { PEAK_PRESSURE_SHARE, peakPressureFriction } from '../../src/processes/peakPressureFriction.ts';

describe('peakPressureFriction(peakPressure)', () => {
  it('is the third term of Chen and Flynn: 0.3 bar at 60 bar', () => {
    expect(peakPressureFriction(60e5)).toBeCloseTo(0.3e5, 6);
  });

  it('lies in the range of fits to spark-ignition engines', () => {
    expect(PEAK_PRESSURE_SHARE).toBeGreaterThanOrEqual(0.004);
    expect(PEAK_PRESSURE_SHARE).toBeLessThanOrEqual(0.006);
  });
});
