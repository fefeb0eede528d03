import { describe, expect, it } from 'vitest';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { inspectCombination } from '../../packages/core/src/forecast/inspection.ts';
import { fuelNamed } from '../../packages/core/src/gas/fuels.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import { engineFile } from '../physics/engines.ts';

/** Knock of one cylinder hardly asks how fine the pipes are. */
const AT = { rpm: [2500], mesh: { intakeCell: 0.06, exhaustCell: 0.15, fewest: 6 } };

/** The tow truck's eight with two points more compression than its fuel is good for. */
function squeezed(change: Partial<Combination>): Combination {
  const engine = engineFile('examples/tow-truck/engine.yaml');
  const { bore, stroke } = engine.block;
  const clearanceVolume = ((Math.PI / 4) * bore * bore * stroke) / (11.1 - 1);
  return {
    ...engine,
    chamber: { ...engine.chamber, clearanceVolume, compressionRatio: 11.1 },
    fuel: fuelNamed('pump-87'),
    ...change,
  };
}

function timed(timing: Combination['burn']['timing']): Pick<Combination, 'burn'> {
  return { burn: { ...squeezed({}).burn, timing } };
}

const EARLY = timed({ mode: 'spark', rpm: [2500], advance: [32] });

/** A fuel as sensitive as pump-87, eight numbers between its methods, by (R + M) / 2. */
function withOctane(octane: number): Pick<Combination, 'fuel'> {
  return { fuel: { ...fuelNamed('pump-87'), researchOctane: octane + 4, motorOctane: octane - 4 } };
}

const codes = (warnings: readonly { code: string }[]) => warnings.map(({ code }) => code);

describe('a spark too early for the fuel', () => {
  it('says that it detonates and which octane would do, and that octane does', () => {
    const curve = wholeForecast(squeezed(EARLY), AT);
    const [point] = curve.points;
    expect(point.detonates).toBe(true);
    expect(point.octaneRequired).toBeGreaterThan(87);
    const least = Math.ceil(point.octaneRequired);
    const warning = curve.warnings.find(({ code }) => code === 'detonation');
    expect(warning?.message).toContain('2500 rpm');
    expect(warning?.message).toContain(`at least ${least} octane`);

    const cured = wholeForecast(squeezed({ ...EARLY, ...withOctane(least) }), AT);
    expect(cured.points[0].detonates).toBe(false);
    expect(codes(cured.warnings)).not.toContain('detonation');
    const short = wholeForecast(squeezed({ ...EARLY, ...withOctane(least - 2) }), AT);
    expect(short.points[0].detonates).toBe(true);
  });
});

describe('knock-limited timing', () => {
  it('gives spark back until the fuel does, and says what that costs', () => {
    const limited = wholeForecast(squeezed(timed({ mode: 'knock-limited' })), AT);
    const best = wholeForecast(squeezed(timed({ mode: 'best-torque' })), AT);
    const [point] = limited.points;
    const [free] = best.points;
    expect(free.detonates).toBe(true);
    expect(codes(best.warnings)).toContain('detonation');
    expect(point.detonates).toBe(false);
    // 87 is the antiknock index of the fuel.
    expect(point.octaneRequired).toBeLessThanOrEqual(87.05);
    expect(point.octaneRequired).toBeGreaterThan(86);
    expect(point.octaneAtBestTiming).toBeGreaterThan(92);
    expect(point.sparkGivenBackDeg).toBeGreaterThan(5);
    expect(point.torqueNm).toBeLessThan(free.torqueNm);
    // Found on one cycle with the exhaust valve shut: the valve's opening and a hotter exhaust take some more.
    const lost = 100 * (1 - point.torqueNm / free.torqueNm);
    expect(point.torqueGivenBackPct / lost).toBeGreaterThan(0.6);
    expect(point.torqueGivenBackPct / lost).toBeLessThan(1.1);
    expect(codes(limited.warnings)).toContain('knock-limited');
  });

  it('is not said of a spark that someone states, late for reasons of his own', () => {
    for (const timing of [
      { mode: 'ca50', angle: 20 },
      { mode: 'spark', rpm: [2500], advance: [12] },
    ] as const) {
      const curve = wholeForecast(squeezed({ ...timed(timing), ...withOctane(120) }), AT);
      expect(curve.points[0].sparkGivenBackDeg).toBeGreaterThan(5);
      expect(codes(curve.warnings)).not.toContain('knock-limited');
    }
  });

  it('is best torque where the fuel has octane to spare', () => {
    const spare = squeezed({ ...timed({ mode: 'knock-limited' }), ...withOctane(120) });
    const curve = wholeForecast(spare, AT);
    expect(curve.points[0].sparkGivenBackDeg).toBe(0);
    expect(codes(curve.warnings)).not.toContain('knock-limited');
  });
});

describe('an inspection', () => {
  it('cautions where the fuel has less octane than the rule of thumb asks of a modern chamber', () => {
    // 11.1:1: 92 + 4 x 3.1 - 8 = 96.4 RON at least; pump-87 has 91, pump-93 has 98 (common practice, no source).
    expect(inspectCombination(squeezed({})).warnings).toContainEqual(
      expect.objectContaining({ code: 'octane-short', path: 'fuel' }),
    );
    const [warning] = inspectCombination(squeezed({})).warnings.filter((w) => w.code === 'octane-short');
    expect(warning.message).toContain('asks for 96.4');
    expect(codes(inspectCombination(squeezed({ fuel: fuelNamed('pump-93') })).warnings)).not.toContain(
      'octane-short',
    );
  });
});
