/** What a forecast says of its fuel: enough, short by some spark, or detonating. */
import { describe, expect, it } from 'vitest';
import { fuelLine } from '../src/render/fuelLine.ts';
import { lostPoint, sampleCurve, samplePoint } from './sampleCurve.ts';

const PUMP = { name: 'pump-93', octane: 93, knockSetsSpark: true };
const OFFSET = { path: 'burn.octaneOffset', value: 0, unit: '', spread: 3, reason: 'as it stands' };
const ENOUGH = {
  octaneRequired: 84.2,
  octaneAtBestTiming: 84.2,
  sparkGivenBackDeg: 0,
  torqueGivenBackPct: 0,
};

describe('the fuel of a forecast', () => {
  it('is enough with so much to spare, at the speed that asks for most', () => {
    const points = [
      samplePoint(3000, { ...ENOUGH, octaneRequired: 88.4, octaneAtBestTiming: 88.4 }),
      samplePoint(4000, ENOUGH),
    ];
    expect(fuelLine(sampleCurve([3000], { points, peak: null, assumed: [OFFSET] }), PUMP)).toBe(
      'Fuel: pump-93 has 93.0 octane, (R + M) / 2; the engine asks for 88.4 at most, at 3000 rpm: 4.6 to spare, give or take 3.',
    );
  });

  it('is short where spark is given back, and what that costs is said', () => {
    const short = {
      octaneAtBestTiming: 96.1,
      octaneRequired: 93,
      sparkGivenBackDeg: 4.2,
      torqueGivenBackPct: 1.3,
    };
    const points = [samplePoint(3000, short), samplePoint(4000, ENOUGH)];
    expect(fuelLine(sampleCurve([3000], { points, peak: null, assumed: [] }), PUMP)).toBe(
      'Fuel: pump-93 has 93.0 octane, (R + M) / 2; best timing asks for 96.1 at 3000 rpm: up to 4.2 deg of spark and 1.3 % of torque are given back.',
    );
  });

  it('is enough where the file itself states a late spark, and what that costs is said', () => {
    const late = {
      octaneAtBestTiming: 88,
      octaneRequired: 80,
      sparkGivenBackDeg: 4.9,
      torqueGivenBackPct: 1.1,
    };
    const points = [samplePoint(1500, late), samplePoint(1800, { ...ENOUGH, octaneRequired: 79 })];
    const stated = { ...PUMP, knockSetsSpark: false };
    expect(fuelLine(sampleCurve([1500], { points, peak: null, assumed: [] }), stated)).toBe(
      'Fuel: pump-93 has 93.0 octane, (R + M) / 2; the engine asks for 80.0 at most, at 1500 rpm: 13.0 to spare. The spark stated is up to 4.9 deg later than best, which costs 1.1 % of torque at most.',
    );
  });

  it('detonates where a stated spark asks for more than it has', () => {
    const points = [
      samplePoint(3000, { octaneRequired: 97.4, detonates: true }),
      samplePoint(3500, { octaneRequired: 95.2, detonates: true }),
      samplePoint(4000, ENOUGH),
    ];
    expect(fuelLine(sampleCurve([3000], { points, peak: null, assumed: [OFFSET] }), PUMP)).toBe(
      'Fuel: pump-93 has 93.0 octane, (R + M) / 2; it detonates at 3000, 3500 rpm and would take 97.4 at 3000 rpm, give or take 3.',
    );
  });

  it('is not spoken of without a speed that has figures', () =>
    expect(fuelLine(sampleCurve([3000], { points: [lostPoint(9000)], peak: null }), PUMP)).toBe(''));
});
