import { describe, expect, it } from 'vitest';
import type { DynoSheet } from '../../src/dyno/dynoSheet.ts';
import { pullMean } from '../../src/dyno/pullMean.ts';
import { heldTorque, steadySheet } from '../../src/dyno/steadySheet.ts';
import { turningInertia } from '../../src/reading/defaults/inertia.ts';
import { minimumCombination, sheetOf } from '../support/knobResponse.ts';

const POINTS = [
  [3000, 400],
  [4000, 420],
  [5000, 390],
] as const;

/** Pulls of one shape at given rates. */
function pulledAt(...rates: readonly (number | undefined)[]): DynoSheet {
  const sheet = sheetOf(rates.map(() => POINTS));
  return {
    ...sheet,
    pulls: sheet.pulls.map((pull, i) => {
      const rate = rates[i];
      return rate === undefined ? pull : { ...pull, rate };
    }),
  };
}

/** The minimum example with 0.3 kg m2 that turn. */
function turning(pullRate?: number) {
  const base = minimumCombination();
  const block = { ...base.block, inertia: 0.3 };
  return { ...base, block, ...(pullRate === undefined ? {} : { pullRate }) };
}

const torques = (sheet: DynoSheet): number[] => sheet.pulls[0].points.map((p) => p.torqueNm);

describe('torque that a pull holds back', () => {
  it('is inertia times angular acceleration: 0.3 kg m2 at 300 rpm/s, 31.416 rad/s2, hold back 9.425 N m', () => {
    expect(heldTorque(0.3, 300)).toBeCloseTo(9.4248, 4);
    const { sheet, heldBack } = steadySheet(pulledAt(300), turning());
    expect(torques(sheet).map((torque, i) => torque - POINTS[i][1])).toEqual([
      expect.closeTo(9.4248, 4),
      expect.closeTo(9.4248, 4),
      expect.closeTo(9.4248, 4),
    ]);
    // 429.4248 N m at 4000 rpm, 418.879 rad/s.
    expect(sheet.pulls[0].points[1].powerKw).toBeCloseTo(179.877, 3);
    expect(heldBack).toEqual({
      rates: [300],
      inertia: 0.3,
      inertiaSpread: null,
      reason: null,
      torqueNm: expect.closeTo(9.4248, 4),
    });
  });

  it('comes back where speed falls', () => {
    const { sheet, heldBack } = steadySheet(pulledAt(-300), turning());
    expect(torques(sheet)[1]).toBeCloseTo(420 - 9.4248, 4);
    expect(heldBack?.torqueNm).toBeCloseTo(-9.4248, 4);
  });

  it.each([
    ['speeds were held, or the dyno corrected', pulledAt(0), turning(300)],
    ['no rate is known', pulledAt(undefined), turning()],
    ['figures are at the wheels', { ...pulledAt(300), atWheels: true as const }, turning(300)],
  ])('is nothing where %s', (_, given, engine) => {
    const { sheet, heldBack } = steadySheet(given, engine);
    expect(sheet).toBe(given);
    expect(heldBack).toBeNull();
  });

  it('goes by the rate of the file where the sheet says none, never in its place', () => {
    expect(steadySheet(pulledAt(undefined), turning(600)).heldBack?.torqueNm).toBeCloseTo(18.8496, 4);
    expect(steadySheet(pulledAt(300), turning(600)).heldBack?.torqueNm).toBeCloseTo(9.4248, 4);
  });

  it('is added once: a steady sheet is left as it is', () => {
    const once = steadySheet(pulledAt(300), turning(300)).sheet;
    expect(steadySheet(once, turning(300))).toEqual({ sheet: once, heldBack: null });
  });

  it('brings pulls of different rates together: what parted them is no scatter', () => {
    const apart = pulledAt(300, 600);
    const [slow, fast] = apart.pulls;
    const held = heldTorque(0.3, 300);
    const printed = {
      ...apart,
      pulls: [slow, { ...fast, points: fast.points.map((p) => ({ ...p, torqueNm: p.torqueNm - held })) }],
    };
    expect(pullMean(printed.pulls).repeatability?.deviation).toBeGreaterThan(0.01);
    const { sheet, heldBack } = steadySheet(printed, turning());
    expect(pullMean(sheet.pulls).repeatability?.deviation).toBeLessThan(1e-12);
    expect(heldBack?.rates).toEqual([300, 600]);
    expect(heldBack?.torqueNm).toBeCloseTo(1.5 * held, 9);
  });

  it('is of observed torque: a corrected figure is raised by as much as the correction makes of it', () => {
    // 101.3207 kPa / 95 kPa x sqrt(300 K / 288.706 K) = 1.06653 x 1.01937 = 1.08719, of the air of the day to that of J607.
    const sheet = pulledAt(300);
    const weather = { pressure: 95_000, temperature: 300, vapourPressure: 0 };
    const hot = { ...sheet, pulls: sheet.pulls.map((pull) => ({ ...pull, weather })) };
    expect(steadySheet(hot, turning()).heldBack?.torqueNm).toBeCloseTo(9.4248 * 1.08719, 3);
    const observed = { ...hot, standard: 'none' as const };
    expect(steadySheet(observed, turning()).heldBack?.torqueNm).toBeCloseTo(9.4248, 4);
  });

  it('rests on an estimate where nothing states what turns, and says so with its spread and reason', () => {
    const base = minimumCombination();
    const estimate = turningInertia(base.block);
    expect(steadySheet(pulledAt(300), base).heldBack).toEqual({
      rates: [300],
      inertia: estimate.value,
      inertiaSpread: estimate.spread,
      reason: estimate.reason,
      torqueNm: heldTorque(estimate.value, 300),
    });
  });
});
