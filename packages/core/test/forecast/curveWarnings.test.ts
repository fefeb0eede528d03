import { describe, expect, it } from 'vitest';
import { curveWarnings } from '../../src/forecast/warnings.ts';
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
      "friction and pumping take all the engine makes at 9000, 12000 rpm: it can't run there by itself",
    ]);
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
