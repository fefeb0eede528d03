import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pistonArea, pistonPosition, sliderCrank } from '../../src/geometry/sliderCrank.ts';
import {
  CHAMBER_SHAPES,
  peakSquishVelocity,
  type SquishGap,
  squishEdge,
  squishVelocity,
} from '../../src/geometry/squish.ts';

/** Bore 100, stroke 80, rod 140 mm, 9:1: the chamber spread over the bore is 10 mm high. */
const crank = sliderCrank(0.1, 0.08, 0.14, (Math.PI / 4) * 0.01 * 0.01);
const ring: SquishGap = { shape: 'bowl-in-piston', squishArea: 0.64, squishHeight: 2e-3 };

describe('squishVelocity', () => {
  it('is that of the charge which must leave the gap for the density to stay the same everywhere', () => {
    // Mass in the gap by density and volume, at two angles; what is missing has crossed the edge of 2 pi 30 mm.
    const [before, step] = [20, 1e-3];
    const z = (angle: number) => pistonPosition(crank, (angle * Math.PI) / 180);
    const share = (angle: number) =>
      (0.64 * pistonArea(crank) * (z(angle) + 2e-3)) / (pistonArea(crank) * (z(angle) + 10e-3));
    const lost = share(before + step / 2) - share(before - step / 2);
    const seconds = step / (6 * 1000);
    const volume = pistonArea(crank) * (z(before) + 10e-3);
    const through = (lost / seconds) * volume;
    const area = Math.PI * 0.06 * (z(before) + 2e-3);
    const meanSpeed = (2 * 0.08 * 1000) / 60;
    expect(squishVelocity(crank, ring, before) / (through / area / meanSpeed)).toBeCloseTo(1, 6);
  });

  it('has the value worked by hand: 0.5 of the bore in a ring, 2 mm high, 10 deg before top centre', () => {
    // As / P = 0.5 x 100 / 4 / sqrt(0.5) = 17.678 mm; z = 0.7798 mm; 1/2.7798 - 1/10.7798 = 0.26697 per mm;
    // piston over mean speed = pi x 8.9026 / 80 = 0.34961.
    const half = { ...ring, squishArea: 0.5 };
    expect(squishVelocity(crank, half, 10)).toBeCloseTo(1.65, 2);
  });

  it('is nothing at top centre, without a narrow part, and where the gap is as high as the chamber', () => {
    expect(squishVelocity(crank, ring, 0)).toBe(0);
    expect(squishVelocity(crank, { ...ring, squishArea: 0 }, 10)).toBe(0);
    expect(squishVelocity(crank, { ...ring, squishHeight: 11e-3 }, 10)).toBe(0);
  });

  it('peaks 5 to 15 deg before top centre and no angle is above the peak', () => {
    const peak = peakSquishVelocity(crank, ring);
    const angles = Array.from({ length: 181 }, (_, before) => squishVelocity(crank, ring, before));
    const at = angles.indexOf(Math.max(...angles));
    expect(at).toBeGreaterThanOrEqual(5);
    expect(at).toBeLessThanOrEqual(15);
    expect(peak).toBeGreaterThanOrEqual(angles[at]);
    expect(peak / angles[at]).toBeLessThan(1.001);
  });

  it('rises with the area and falls with the height, in every shape', () => {
    const share = fc.double({ min: 0.01, max: 0.6, noNaN: true });
    const height = fc.double({ min: 0.3e-3, max: 5e-3, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...CHAMBER_SHAPES), share, height, (shape, squishArea, squishHeight) => {
        const gap = { shape, squishArea, squishHeight };
        const velocity = peakSquishVelocity(crank, gap);
        expect(peakSquishVelocity(crank, { ...gap, squishArea: 1.1 * squishArea })).toBeGreaterThan(velocity);
        expect(peakSquishVelocity(crank, { ...gap, squishHeight: 1.1 * squishHeight })).toBeLessThan(
          velocity,
        );
      }),
      { numRuns: 50 },
    );
  });

  it('refuses what is not a number', () => {
    expect(() => squishVelocity(crank, ring, Number.NaN)).toThrow('before');
    expect(() => squishVelocity(crank, { ...ring, squishArea: Number.NaN }, 5)).toThrow('squishArea');
    expect(() => squishVelocity(crank, { ...ring, squishHeight: 0 }, 5)).toThrow('squishHeight');
  });
});

describe('squishEdge', () => {
  it('is a chord on one side, two chords, or a circle', () => {
    // Half a disc ends at a diameter; a quarter at each side leaves two chords of 2 sin(1.15494) radii.
    expect(squishEdge('wedge', 0.5, 0.1)).toBeCloseTo(0.1, 12);
    expect(squishEdge('pent-roof', 0.5, 0.1)).toBeCloseTo(0.2 * Math.sin(2.309881 / 2), 7);
    expect(squishEdge('bathtub', 0.5, 0.1)).toBe(squishEdge('pent-roof', 0.5, 0.1));
    expect(squishEdge('bowl-in-piston', 0.64, 0.1)).toBeCloseTo(Math.PI * 0.06, 12);
    expect(squishEdge('hemispherical', 0.64, 0.1)).toBeCloseTo(Math.PI * 0.06, 12);
    expect(() => squishEdge('wedge', 0, 0.1)).toThrow('share');
  });
});
