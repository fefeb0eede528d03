import { describe, expect, it } from 'vitest';
import { fitOf, type Signal } from '../../src/studies/pressureFit.ts';

const DEGREES = Math.PI / 180;

function signal(of: (angle: number) => number, step: number, from = -360, to = 360): Signal {
  const angleDeg = Array.from({ length: Math.floor((to - from) / step) }, (_, i) => from + i * step);
  return { angleDeg, value: angleDeg.map(of) };
}

/** Two waves of a cycle and one of a turn, on a level. */
const waves = (angle: number): number =>
  100 +
  8 * Math.sin(0.5 * angle * DEGREES) +
  5 * Math.cos(angle * DEGREES) +
  3 * Math.sin(3 * angle * DEGREES);

describe('a forecast beside what was measured', () => {
  it('is as late as it was made, and otherwise the same', () => {
    const late = signal((angle) => waves(angle - 7.3), 1.7);
    const { lag, likeness, meanMeasured, meanForecast } = fitOf(signal(waves, 2), late);
    expect(lag).toBeCloseTo(7.3, 1);
    expect(likeness).toBeGreaterThan(0.9995);
    expect(meanMeasured).toBeCloseTo(100, 6);
    expect(meanForecast).toBeCloseTo(100, 1);
    expect(
      fitOf(
        signal(waves, 2),
        signal((angle) => waves(angle + 11), 1),
      ).lag,
    ).toBeCloseTo(-11, 1);
  });

  it('has the root mean square of a level between them', () => {
    const { rootMeanSquare, lag, forecast } = fitOf(
      signal(waves, 2),
      signal((angle) => waves(angle) + 4, 0.5),
    );
    expect(rootMeanSquare).toBeCloseTo(4, 2);
    expect(lag).toBeCloseTo(0, 2);
    expect(forecast[90]).toBeCloseTo(waves(-180) + 4, 3);
  });

  it('is timed by half a cycle too, and by waves of another height', () => {
    const part = signal((angle) => 40 + 2 * waves(angle), 3, -200, 190);
    expect(
      fitOf(
        part,
        signal((angle) => waves(angle - 4), 1),
      ).lag,
    ).toBeCloseTo(4, 1);
  });

  it('has no timing where nothing is alike, or the shift is beyond all sense', () => {
    const level = signal(() => 100, 2);
    expect(fitOf(signal(waves, 2), level).likeness).toBe(0);
    const slow = (angle: number): number => Math.sin(0.5 * angle * DEGREES);
    expect(
      fitOf(
        signal(slow, 2),
        signal((angle) => slow(angle - 150), 2),
      ).lag,
    ).toBeNull();
  });
});
