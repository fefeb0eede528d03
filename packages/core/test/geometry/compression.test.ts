import { describe, expect, it } from 'vitest';
import {
  clearanceFromRatio,
  clearanceVolume,
  compressionRatio,
  discVolume,
  trappedCompressionRatio,
} from '../../src/geometry/compression.ts';
import { cylinderVolume, sliderCrank, sweptVolume } from '../../src/geometry/sliderCrank.ts';

const IN = 0.0254;
const CC = 1e-6;

const plain = () => ({
  chamber: 70 * CC,
  dome: -5 * CC,
  bore: 4 * IN,
  deckHeight: 0.05 * IN,
  gasketBore: 4 * IN,
  gasketThickness: 0.02 * IN,
  crevice: 0,
});

describe('compression from measured volumes', () => {
  it('gives the 9.01:1 of a worked example', () => {
    expect(compressionRatio(43.731 * IN ** 3, clearanceVolume(plain()))).toBeCloseTo(9.01, 2);
  });

  it('takes a dome away and adds a crevice', () => {
    const base = clearanceVolume(plain());
    expect(clearanceVolume({ ...plain(), dome: 5 * CC }) - base).toBeCloseTo(-10 * CC, 15);
    expect(clearanceVolume({ ...plain(), crevice: 1 * CC }) - base).toBeCloseTo(1 * CC, 15);
    expect(clearanceVolume({ ...plain(), deckHeight: -0.005 * IN })).toBeLessThan(base);
  });

  it('agrees with a measured 7.8:1: 716.9 cc over 105.4 cc, about 6.4 cc of gasket', () => {
    // Magazine article of October 1990: chamber 78 cc, deck with the piston's dish 21 cc, 4.000 by 3.480 in.
    const swept = (Math.PI / 4) * 4 ** 2 * 3.48 * IN ** 3;
    expect(swept / CC).toBeCloseTo(716.9, 0);
    const clearance = clearanceFromRatio(swept, 7.8);
    expect(clearance / CC).toBeCloseTo(105.4, 1);
    expect(clearance / CC - 78 - 21).toBeCloseTo(6.4, 1);
  });

  it('serves both a 119 and a 110 cc chamber with one gasket and deck', () => {
    // Common practice, no source: 540 in3 eight, 22 cc domes; 119 cc gives 11.28:1 and 110 cc gives 12.2:1.
    const swept = (540 / 8) * IN ** 3;
    const deckAndGasket = clearanceFromRatio(swept, 11.28) - (119 - 22) * CC;
    expect(deckAndGasket / CC).toBeCloseTo(10.6, 1);
    expect(compressionRatio(swept, (110 - 22) * CC + deckAndGasket)).toBeCloseTo(12.2, 1);
    // and back: the volume the second ratio wants lies inside what its printed digit allows.
    const least = clearanceFromRatio(swept, 12.25) - (110 - 22) * CC;
    const most = clearanceFromRatio(swept, 12.15) - (110 - 22) * CC;
    expect(deckAndGasket).toBeGreaterThan(least);
    expect(deckAndGasket).toBeLessThan(most);
  });

  it.each([
    [9.5, -0.1],
    [10.5, -0.12],
    [11.5, -0.15],
    [13, -0.2],
  ])('at %f:1 and 716 cc loses %f of ratio per added cc', (ratio, change) => {
    const clearance = clearanceFromRatio(716 * CC, ratio);
    expect(compressionRatio(716 * CC, clearance + CC) - ratio).toBeCloseTo(change, 2);
  });

  it('finds 2.16 cc in 0.010 in of gasket on a 4.1 in bore', () => {
    expect(discVolume(4.1 * IN, 0.01 * IN) / CC).toBeCloseTo(2.16, 2);
  });

  it.each([
    [50, 9.23],
    [60, 8.68],
    [65, 8.36],
    [70, 8.03],
    [75, 7.67],
    [80, 7.29],
  ])('traps at an intake closing of %f deg after bottom centre %f:1 of 10.5:1', (closing, trapped) => {
    // Worked from the mechanism, 3.48 in stroke and 5.70 in rod.
    const swept = sweptVolume(sliderCrank(4 * IN, 3.48 * IN, 5.7 * IN, 1e-4));
    const crank = sliderCrank(4 * IN, 3.48 * IN, 5.7 * IN, clearanceFromRatio(swept, 10.5));
    const volume = cylinderVolume(crank, ((180 + closing) * Math.PI) / 180);
    expect(trappedCompressionRatio(volume, crank.clearanceVolume)).toBeCloseTo(trapped, 1);
    expect(Math.abs(trappedCompressionRatio(volume, crank.clearanceVolume) - trapped)).toBeLessThan(0.0051);
  });

  it('names what is out of range', () => {
    expect(() => clearanceFromRatio(7e-4, 1)).toThrow('ratio must be above 1, got 1');
    expect(() => clearanceVolume({ ...plain(), dome: 1 })).toThrow(
      'dome must be smaller than the volume around it',
    );
    expect(() => clearanceVolume({ ...plain(), chamber: Number.NaN })).toThrow(
      'chamber must be positive m3, got NaN',
    );
  });
});
