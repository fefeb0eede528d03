import { describe, expect, it } from 'vitest';
import { CommandFailure } from '../src/commandFailure.ts';
import { parsePeak } from '../src/input/parsePeak.ts';

function refusal(kind: 'torque' | 'power', text: string): string {
  try {
    return JSON.stringify(parsePeak(kind, text));
  } catch (error) {
    if (!(error instanceof CommandFailure)) throw error;
    return `${error.exitCode}: ${error.message.split('\n')[0]}`;
  }
}

describe('a peak figure', () => {
  it('is a number with its unit, and a speed where that is known', () => {
    expect(parsePeak('torque', '100 lb-ft @ 3800')).toEqual({ value: expect.closeTo(135.582, 3), rpm: 3800 });
    expect(parsePeak('power', '250kW')).toEqual({ value: 250, rpm: null });
  });

  it.each([
    ['torque', '120 lb-ft @ 99999', '2: --peak-torque 120 lb-ft @ 99999: 99999 rpm is outside 500 to 20000'],
    ['torque', '120 lb-ft @ 50', '2: --peak-torque 120 lb-ft @ 50: 50 rpm is outside 500 to 20000'],
    ['power', '0 hp @ 5000', '2: --peak-power 0 hp @ 5000: no engine has that'],
    ['power', '999999 kW', '2: --peak-power 999999 kW: no engine has that'],
    [
      'power',
      '330',
      '2: --peak-power 330: write it like "336 hp @ 5300"; without the speed where it is not known',
    ],
  ] as const)('--peak-%s %s is refused before anything is computed', (kind, text, line) => {
    expect(refusal(kind, text)).toBe(line);
  });
});
