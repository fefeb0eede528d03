import { describe, expect, it } from 'vitest';
import { pastThePeak } from '../src/commands/pastThePeak.ts';

/** Power of an engine with its peak at a speed [1/min]. */
const peakAt = (peak: number) => (rpm: number) => -((rpm - peak) ** 2);

describe('pastThePeak(rpm, mostRpm, powerAt)', () => {
  const RPM = [4000, 4500, 5000];

  it('leaves speeds that end past the peak as they are', () => {
    expect(pastThePeak(RPM, 9000, peakAt(4500))).toEqual(RPM);
    expect(pastThePeak(RPM, 9000, peakAt(4700))).toEqual(RPM);
  });

  it('goes on in the same steps until power falls', () => {
    expect(pastThePeak(RPM, 9000, peakAt(6100))).toEqual([...RPM, 5500, 6000, 6500]);
  });

  it('ends at the speed beyond which nobody asks, and after six steps', () => {
    expect(pastThePeak(RPM, 5700, peakAt(6100))).toEqual([...RPM, 5500]);
    expect(pastThePeak(RPM, 20_000, (rpm) => rpm)).toHaveLength(RPM.length + 6);
  });

  it('adds nothing behind a speed that has no power', () => {
    expect(pastThePeak(RPM, 9000, () => null)).toEqual(RPM);
  });
});
