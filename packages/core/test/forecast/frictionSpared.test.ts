import { describe, expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { PEAK_PRESSURE_SHARE } from '../../src/processes/peakPressureFriction.ts';
import { readExample } from '../reading/files.ts';

/** Mean friction and peak pressure with half the charge burned so late [bar]. */
function at(ca50: number): { readonly friction: number; readonly peak: number } {
  const engine = readExample('scrambler');
  const burn: Combination['burn'] = { ...engine.burn, timing: { mode: 'ca50', angle: ca50 } };
  const [point] = forecast(
    { ...engine, burn },
    {
      rpm: [4000],
      mesh: { intakeCell: 0, exhaustCell: 0 },
      onlyCompared: true,
    },
  ).points;
  if (point.status === 'lost') throw new Error('lost');
  return { friction: point.fmepBar, peak: point.peakPressureBar };
}

describe('an engine whose burn is late', () => {
  it('rubs less by a share of the peak pressure that rings and bearings are spared, once', () => {
    const [early, late] = [at(9), at(25)];
    expect(early.peak - late.peak).toBeGreaterThan(10);
    // The bench on which timings are tried keeps the exhaust valve shut: its peaks are those of the cycle to a few percent.
    const spared = (early.friction - late.friction) / (early.peak - late.peak);
    expect(spared / PEAK_PRESSURE_SHARE).toBeGreaterThan(0.93);
    expect(spared / PEAK_PRESSURE_SHARE).toBeLessThan(1.07);
  });
});
