import { describe, expect, it } from 'vitest';
import {
  FORECAST_NOISE_PCT,
  interactionPct,
  interactionThresholdPct,
  pairVerdictOf,
} from '../../src/ranking/interaction.ts';

describe('an interaction', () => {
  it('is what both gain beyond the sum of each', () => {
    expect(interactionPct({ a: 2, b: 1, both: 3.5 })).toBe(0.5);
    expect(interactionPct({ a: 2, b: -1, both: 0.5 })).toBe(-0.5);
  });

  it('counts from three times the scatter of four forecasts', () => {
    expect(interactionThresholdPct([null, null], 0)).toBeCloseTo(6 * FORECAST_NOISE_PCT, 12);
    expect(interactionThresholdPct([0.1, 3], 0)).toBeCloseTo(6 * FORECAST_NOISE_PCT, 12);
  });

  it('must stand out of what is not known of the better known gain', () => {
    expect(interactionThresholdPct([1.2, 3], 0.1)).toBeCloseTo(0.3, 12);
    expect(interactionThresholdPct([null, 2], 0.1)).toBeCloseTo(0.5, 12);
  });

  it('must be as large as what the dyno can tell from nothing', () => {
    expect(interactionThresholdPct([0.1, 3], 0.82)).toBe(0.82);
    expect(pairVerdictOf(-0.14, interactionThresholdPct([0.1, 3], 0.82))).toBe('independent');
  });

  it('helps above the threshold, hinders below its negative, and is none between', () => {
    expect([0.31, -0.31, 0.3, -0.3, 0].map((value) => pairVerdictOf(value, 0.3))).toEqual([
      'helps',
      'hinders',
      'independent',
      'independent',
      'independent',
    ]);
  });
});
