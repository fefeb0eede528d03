import { expect, it } from 'vitest';
import { gainsByAim } from '../../src/choosing/worth.ts';
import type { WholeCurve } from '../../src/forecast/wholeCurve.ts';

/** A curve of nothing but torque. */
function curve(torqueAt: (rpm: number) => number): WholeCurve {
  const points = Array.from({ length: 401 }, (_, i) => 3000 + 10 * i).map((rpm) => ({
    rpm,
    torqueNm: torqueAt(rpm),
  }));
  return { points } as unknown as WholeCurve;
}

it('an aim of time is held to the time that a constant inertia takes through the band', () => {
  const before = (rpm: number): number => 200 - 1e-5 * (rpm - 4500) ** 2;
  const after = (rpm: number): number => 190 - 4e-6 * (rpm - 5500) ** 2;
  const time = (torque: (rpm: number) => number): number => {
    let sum = 0;
    for (let n = 3000; n < 7000; n++) sum += 1 / torque(n + 0.5);
    return sum;
  };
  const aim = {
    band: { fromRpm: 3000, toRpm: 7000 },
    of: 'time',
    weighting: 'speed',
    weight: 1,
  } as const;
  const [gain] = gainsByAim(curve(before), curve(after), [aim]);
  expect(gain).toBeCloseTo(100 * (time(before) / time(after) - 1), 3);
  expect(gain).toBeGreaterThan(0);
  // Whose torque is less in the mean may be sooner through.
  const [mean] = gainsByAim(curve(before), curve(after), [{ ...aim, of: 'torque' }]);
  expect(mean).toBeCloseTo(100 * ((190 - 4e-6 * 1.5833e6) / (200 - 1e-5 * 1.5833e6) - 1), 3);
  expect(mean).toBeLessThan(0);
});
