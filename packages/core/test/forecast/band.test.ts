import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { bandMean } from '../../src/forecast/band.ts';

const LINE = [
  { rpm: 2000, torqueNm: 300 },
  { rpm: 3000, torqueNm: 400 },
  { rpm: 4000, torqueNm: 300 },
];

describe('the mean over a band', () => {
  it('of a straight-sided curve is its area over its width', () => {
    expect(bandMean(LINE, { fromRpm: 2000, toRpm: 4000 }).torqueNm).toBeCloseTo(350, 9);
    expect(bandMean(LINE, { fromRpm: 2500, toRpm: 3500 }).torqueNm).toBeCloseTo(375, 9);
  });

  it('is cut to the speeds the curve has', () => {
    expect(bandMean(LINE, { fromRpm: 500, toRpm: 9000 }).torqueNm).toBeCloseTo(350, 9);
  });

  it('of power is torque times speed: 100 N m at 30 000 / pi rpm is 100 kW', () => {
    const rpm = 30_000 / Math.PI;
    expect(bandMean([{ rpm, torqueNm: 100 }], { fromRpm: 0, toRpm: 20_000 }).powerKw).toBeCloseTo(100, 9);
  });

  it('weighted by time leans to the speeds with little torque', () => {
    const band = { fromRpm: 2000, toRpm: 4000 };
    // Trapezoids of 1/T: the mean torque is 1 over the mean of 1/300, 1/400, 1/300 with weights 1, 2, 1.
    expect(bandMean(LINE, band, 'time').torqueNm).toBeCloseTo(4 / (2 / 300 + 2 / 400), 9);
  });

  it('refuses a band beside the curve', () => {
    expect(() => bandMean(LINE, { fromRpm: 5000, toRpm: 6000 })).toThrow(DomainError);
  });

  it('by time stays between the least and the largest torque where there is none, or less, at some speed', () => {
    for (const torque of [
      [300, 100, -80],
      [-20, -60, -90],
      [200, 0, -1e-12],
      [50, 1e-9, 50],
    ]) {
      const points = torque.map((torqueNm, i) => ({ rpm: 3000 + 1000 * i, torqueNm }));
      const mean = bandMean(points, { fromRpm: 3000, toRpm: 5000 }, 'time').torqueNm;
      expect(mean).toBeGreaterThanOrEqual(Math.min(...torque));
      expect(mean).toBeLessThanOrEqual(Math.max(...torque));
    }
  });
});

describe('a band weighted by time', () => {
  it('counts a speed without torque as one with a hundredth of the largest, not without end', () => {
    const points = [
      { rpm: 1000, torqueNm: 100 },
      { rpm: 2000, torqueNm: 0 },
    ];
    // Weights of 1 / 100 and 1 / 1, by trapezoids: (100 x 0.01 + 0 x 1) / (0.01 + 1).
    expect(bandMean(points, { fromRpm: 1000, toRpm: 2000 }, 'time').torqueNm).toBeCloseTo(1 / 1.01, 9);
  });
});
