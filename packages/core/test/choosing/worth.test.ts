import { expect, it } from 'vitest';
import { buildVerdictOf, gainsByAim } from '../../src/choosing/worth.ts';
import type { WholeCurve } from '../../src/forecast/wholeCurve.ts';
import { octaneIndex } from '../../src/processes/knock.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fileWith } from '../reading/files.ts';

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

it('a build that asks for more octane than the file allows loses three percent a number, as much as 200 rpm past the redline', () => {
  const read = readCombination(fileWith({ limits: '{ octaneMargin: 0, redline: 6000 rpm }' }));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const combination = read.value;
  const pump = octaneIndex(combination.fuel.researchOctane, combination.fuel.motorOctane);
  const flat = (octane: number, last: number): WholeCurve =>
    ({
      points: [3000, 4000, last].map((rpm) => ({
        rpm,
        status: 'settled',
        torqueNm: 300,
        powerKw: (300 * rpm * Math.PI) / 30_000,
        octaneRequired: octane,
        octaneAtBestTiming: octane,
        meanPistonSpeedMs: 10,
      })),
    }) as unknown as WholeCurve;
  const aim = {
    band: { fromRpm: 3000, toRpm: 4000 },
    of: 'torque',
    weighting: 'speed',
    weight: 1,
  } as const;
  const worth = (octane: number, last: number): unknown =>
    buildVerdictOf({ combination, curve: flat(pump, 6000) }, { combination, curve: flat(octane, last) }, [
      aim,
    ]);
  expect(worth(pump, 6000)).toEqual({ worth: 0, keepsLimits: true });
  expect(worth(pump + 2, 6000)).toEqual({ worth: -6, keepsLimits: false });
  expect(worth(pump, 6400)).toEqual({ worth: -6, keepsLimits: false });
});
