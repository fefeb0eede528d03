import { describe, expect, it } from 'vitest';
import { curveWarnings } from '../../src/forecast/warnings.ts';
import { brakeFactor } from '../../src/forecast/weatherCorrection.ts';
import { runnerOf } from '../studies/fakeCurves.ts';
import { bigBlock } from '../support/bigBlock.ts';

describe('a curve with less than no torque', () => {
  it('says at which speeds, by a code', async () => {
    const combination = bigBlock();
    const [curve] = await runnerOf((_engine, rpm) => (rpm < 9000 ? 100 : 9000 - rpm))([
      { combination, rpm: [3000, 9000, 12_000], fidelity: 'representative' },
    ]);
    const found = curveWarnings(combination, curve?.points ?? [], []).filter(
      ({ code }) => code === 'no-torque',
    );
    expect(found.map(({ message }) => message)).toEqual([
      "friction and pumping take all the engine makes at 9000, 12000 rpm: it can't run there on its own",
    ]);
  });

  it.each([
    [
      'an ordinary hot day, 90 F, 29.92 inHg, 40 %',
      { pressure: 101_320, temperature: 305.4, vapourPressure: 1930 },
    ],
    [
      'a summer day at 500 ft, 95 F, 29.3 inHg, 50 %',
      { pressure: 99_220, temperature: 308.15, vapourPressure: 2815 },
    ],
    ['the reference air of J1349', { pressure: 99_000, temperature: 298.15, vapourPressure: 0 }],
  ])('does not doubt the J607 correction of %s', async (_day, weather) => {
    const combination = bigBlock({ weather });
    const factor = brakeFactor('J607', weather.pressure - weather.vapourPressure, weather.temperature);
    expect(factor).toBeGreaterThan(1.03);
    const [curve] = await runnerOf(() => 100)([{ combination, rpm: [3000], fidelity: 'representative' }]);
    const codes = curveWarnings(combination, curve?.points ?? [], []).map(({ code }) => code);
    expect(combination.correction).toBe('J607');
    expect(codes).not.toContain('weather-correction');
  });

  it('says by codes that pistons are fast, the correction large, and that every cylinder was marched', async () => {
    const weather = { pressure: 85_000, temperature: 300, vapourPressure: 1500 };
    const combination = bigBlock({ weather });
    const [curve] = await runnerOf(() => 100)([
      { combination, rpm: [3000, 8000], fidelity: 'representative' },
    ]);
    const points = (curve?.points ?? []).map((point) => ({ ...point, meanPistonSpeedMs: point.rpm / 300 }));
    const codes = curveWarnings(combination, points, [3000]).map(({ code }) => code);
    expect(codes).toEqual(
      expect.arrayContaining(['piston-speed', 'weather-correction', 'every-cylinder-marched']),
    );
  });
});

describe('a carburetor that an engine hardly draws through', () => {
  const warned = async (vacuum: number, engine = bigBlock(), rpm: readonly number[] = [3000, 6000]) => {
    const [curve] = await runnerOf(() => 400)([{ combination: engine, rpm, fidelity: 'representative' }]);
    const points = (curve?.points ?? []).map((point) => ({
      ...point,
      manifoldVacuumInHg: vacuum * (point.rpm / 6000) ** 2,
      meanPistonSpeedMs: point.rpm / 300,
    }));
    return curveWarnings(engine, points, []).filter(({ code }) => code === 'weak-signal');
  };

  it('is told, since the model holds the mixture however little it draws', async () => {
    const [found] = await warned(0.2);
    expect(found?.path).toBe('induction.carburetor');
    expect(found?.message).toContain(
      'only 0.20 inHg are drawn through the carburetor at 6000 rpm, where power is most',
    );
    expect(found?.message).toContain('a smaller carburetor may do better than they say');
  });

  it('is looked at where power is most, not where most is drawn', async () => {
    const falling = runnerOf((_engine, rpm) => (rpm < 7000 ? 400 : 200));
    const engine = bigBlock();
    const codesAt = async (vacuums: Readonly<Record<number, number>>) => {
      const [curve] = await falling([
        { combination: engine, rpm: [4500, 6000, 7500], fidelity: 'representative' },
      ]);
      const points = (curve?.points ?? []).map((point) => ({
        ...point,
        manifoldVacuumInHg: vacuums[point.rpm],
        meanPistonSpeedMs: point.rpm / 300,
      }));
      return curveWarnings(engine, points, []).map(({ code }) => code);
    };
    expect(await codesAt({ 4500: 0.2, 6000: 0.29, 7500: 0.4 })).toContain('weak-signal');
    expect(await codesAt({ 4500: 0.2, 6000: 0.31, 7500: 0.4 })).not.toContain('weak-signal');
  });

  it('is not told of a usual one, of low speeds alone, of a throttle, nor of one in each runner', async () => {
    const engine = bigBlock();
    const { induction } = engine;
    expect(await warned(0.5)).toEqual([]);
    expect(await warned(0.5, engine, [2000, 2500])).toEqual([]);
    expect(await warned(0.2, { ...engine, induction: { ...induction, kind: 'throttle' } })).toEqual([]);
    expect(await warned(0.2, { ...engine, induction: { ...induction, injection: 'port' } })).toEqual([]);
    const stacks = { at: 0.1, bore: 0.045 };
    expect(await warned(0.2, { ...engine, induction: { ...induction, stacks } })).toEqual([]);
  });
});
