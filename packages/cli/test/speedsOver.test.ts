/** Speeds of a forecast that has to cover a band. */
import { describe, expect, it } from 'vitest';
import { speedsOver } from '../src/commands/speedsOver.ts';

const USUAL = { fromRpm: 2000, toRpm: 6500, stepRpm: 500, mostRpm: 6600, reason: '' };

describe('speedsOver(usual, band)', () => {
  it('are the usual ones without a band, and with one inside them', () => {
    const usual = speedsOver(USUAL, null);
    expect([usual[0], usual[1], usual[usual.length - 1]]).toEqual([2000, 2500, 6500]);
    expect(speedsOver(USUAL, { fromRpm: 4000, toRpm: 6000 })).toEqual(usual);
  });

  it('reach a band by whole steps, and end at the redline with the band, not a step past it', () => {
    expect(speedsOver(USUAL, { fromRpm: 1700, toRpm: 6600 }).slice(0, 2)).toEqual([1500, 2000]);
    expect(speedsOver(USUAL, { fromRpm: 4600, toRpm: 6600 }).slice(-2)).toEqual([6500, 6600]);
    expect(speedsOver({ ...USUAL, mostRpm: 9000 }, { fromRpm: 4600, toRpm: 6600 }).slice(-2)).toEqual([
      6500, 7000,
    ]);
  });

  it('go past the redline as far as a band asks for', () => {
    expect(speedsOver(USUAL, { fromRpm: 4600, toRpm: 7200 }).slice(-2)).toEqual([7000, 7200]);
  });
});
