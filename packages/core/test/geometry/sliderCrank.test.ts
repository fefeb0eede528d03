import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cylinderVolume,
  linerArea,
  meanPistonSpeed,
  moveVolume,
  pistonArea,
  pistonPosition,
  sliderCrank,
  sweptVolume,
} from '../../src/geometry/sliderCrank.ts';

const IN = 0.0254;
const small = () => sliderCrank(4 * IN, 3.48 * IN, 5.7 * IN, 89.4e-6);

describe('sliderCrank', () => {
  it('sweeps 43.731 in3 with 4.000 by 3.480 in', () => {
    expect(sweptVolume(small()) / IN ** 3).toBeCloseTo(43.731, 3);
    expect(cylinderVolume(small(), Math.PI) - cylinderVolume(small(), 0)).toBeCloseTo(
      sweptVolume(small()),
      15,
    );
  });

  it('stands at the position of the triangle at a right angle', () => {
    // r + l - sqrt(l^2 - r^2), by hand: 1.74 + 5.7 - 5.427928 = 2.012072 in
    expect(pistonPosition(small(), Math.PI / 2) / IN).toBeCloseTo(2.012072, 6);
    expect(linerArea(small(), cylinderVolume(small(), Math.PI / 2)) / IN ** 2).toBeCloseTo(
      Math.PI * 4 * 2.012072,
      4,
    );
    expect(pistonArea(small()) / IN ** 2).toBeCloseTo(12.56637, 5);
  });

  it('gives the mean piston speeds the trade quotes: 3480 and 4060 ft/min', () => {
    const speed = (rpm: number) => (meanPistonSpeed(3.48 * IN, (rpm * Math.PI) / 30) / 0.3048) * 60;
    expect(speed(6000)).toBeCloseTo(3480, 6);
    expect(speed(7000)).toBeCloseTo(4060, 6);
    expect(meanPistonSpeed(4 * IN, (6500 * Math.PI) / 30)).toBeCloseTo(22.0, 1);
  });

  it('has the rate that differences of the volume show, and mirrors about top centre', () => {
    const metres = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        metres(0.05, 0.13),
        metres(0.05, 0.13),
        metres(1.4, 2.2),
        metres(-7, 7),
        (bore, stroke, ratio, angle) => {
          const crank = sliderCrank(bore, stroke, ratio * stroke, 5e-5);
          const h = 1e-5;
          const difference = (cylinderVolume(crank, angle + h) - cylinderVolume(crank, angle - h)) / (2 * h);
          const moved = { V: 0, dV: 0 };
          moveVolume(crank, angle, moved);
          expect(Math.abs(moved.dV - difference)).toBeLessThan(1e-8 * sweptVolume(crank) + 1e-13);
          expect(Math.abs(moved.V / cylinderVolume(crank, angle) - 1)).toBeLessThan(1e-13);
          expect(cylinderVolume(crank, -angle)).toBeCloseTo(cylinderVolume(crank, angle), 15);
          expect(cylinderVolume(crank, angle)).toBeGreaterThanOrEqual(crank.clearanceVolume);
        },
      ),
    );
  });

  it('names what is out of range', () => {
    expect(() => sliderCrank(0, 1, 1, 1)).toThrow('bore must be positive m, got 0');
    expect(() => sliderCrank(0.1, 0.1, 0.04, 1e-4)).toThrow('rodLength must be longer than half the stroke');
    expect(() => sliderCrank(0.1, 0.1, 0.2, Number.NaN)).toThrow(
      'clearanceVolume must be positive m3, got NaN',
    );
  });
});
