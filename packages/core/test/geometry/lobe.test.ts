/** Lobes from the few lines of a cam card. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { buildLobe, type LobeShape } from '../../src/geometry/lobe.ts';
import { lobeDuration } from './lobeMeasures.ts';
import { card, cosine, IN, inflections } from './lobes.ts';

describe('buildLobe(card)', () => {
  it.each([
    [
      'a hydraulic flat tappet',
      card(
        [
          [268, 0.006],
          [224, 0.05],
        ],
        0.318,
      ),
      'flat',
    ],
    [
      'a hydraulic roller with its 0.200',
      card(
        [
          [282, 0.006],
          [230, 0.05],
          [158, 0.2],
        ],
        0.36,
      ),
      'roller',
    ],
    [
      'a solid roller',
      card(
        [
          [300, 0.02],
          [270, 0.05],
          [202, 0.2],
        ],
        0.45,
      ),
      'roller',
    ],
    [
      'a solid flat tappet',
      card(
        [
          [284, 0.02],
          [250, 0.05],
        ],
        0.36,
      ),
      'flat',
    ],
    ['an overhead cam in millimetres', card([[228, 1 / 25.4]], 8.2 / 25.4), 'flat'],
    [
      'a mild lobe',
      card(
        [
          [256, 0.006],
          [200, 0.05],
        ],
        0.28,
      ),
      'flat',
    ],
    [
      'a card that states its seat',
      card(
        [
          [320, 0],
          [224, 0.05],
        ],
        0.318,
      ),
      'flat',
    ],
  ] as const)('passes every line of %s and is one smooth hump', (_, spec, follower) => {
    const lobe = buildLobe(spec, follower);
    for (const { duration, lift } of spec.points) {
      if (lift > 0) expect(Math.abs(lobe.liftAt(duration / 2) / lift - 1)).toBeLessThan(1e-9);
      expect(lobe.liftAt(-duration / 2)).toBe(lobe.liftAt(duration / 2));
      expect(lobeDuration(lobe, lift)).toBeCloseTo(duration, 6);
    }
    expect(lobe.liftAt(0) / spec.maxLift).toBeCloseTo(1, 9);
    expect(lobe.liftAt(lobe.closingHalf)).toBe(0);
    expect(inflections(lobe)).toBe(1);
    // No slope at nose and seat: lift changes with the square and the cube of distance.
    expect(1 - lobe.liftAt(0.1) / spec.maxLift).toBeLessThan(1e-5);
    expect(lobe.liftAt(lobe.closingHalf - 0.1) / spec.maxLift).toBeLessThan(1e-7);
  });

  it('has continuous acceleration', () => {
    const lobe = buildLobe(
      card(
        [
          [282, 0.006],
          [230, 0.05],
          [158, 0.2],
        ],
        0.36,
      ),
      'roller',
    );
    const second = (at: number, h: number) =>
      (lobe.liftAt(at + h) - 2 * lobe.liftAt(at) + lobe.liftAt(at - h)) / (h * h);
    const largest = Array.from({ length: 320 }, (_, i) => Math.abs(second(i / 2, 0.05))).reduce((a, b) =>
      Math.max(a, b),
    );
    for (let at = 0; at < lobe.closingHalf + 2; at += 0.1) {
      // A step in acceleration would show as a jump that doesn't shrink with the distance of the two readings.
      expect(Math.abs(second(at + 0.1, 0.05) - second(at, 0.05))).toBeLessThan(0.03 * largest);
    }
  });

  it('passes all lines of any plausible card without a bump', { timeout: 60_000 }, () => {
    const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        between(180, 300),
        between(0.24, 0.52),
        fc.constantFrom('none', 'hydraulic', 'solid'),
        between(0, 1),
        fc.boolean(),
        between(0.8, 1.12),
        fc.constantFrom('flat' as const, 'roller' as const),
        (standard, maxLift, advertised, spread, withShape, fullness, follower) => {
          const points: [number, number][] = [];
          if (advertised === 'hydraulic') points.push([standard + 46 + 20 * spread, 0.006]);
          if (advertised === 'solid') points.push([standard + 28 + 10 * spread, 0.02]);
          points.push([standard, 0.05]);
          if (withShape && maxLift > 0.27) {
            const below = (standard - cosine(standard, maxLift).duration(0.2)) * fullness;
            points.push([standard - below, 0.2]);
          }
          const spec = card(points, maxLift);
          const lobe = buildLobe(spec, follower);
          for (const { duration, lift } of spec.points) {
            expect(Math.abs(lobe.liftAt(duration / 2) - lift)).toBeLessThan(1e-6 * spec.maxLift);
          }
          expect(inflections(lobe)).toBe(1);
          let before = 0;
          for (let at = -lobe.openingHalf; at <= 0; at += 0.5) {
            const lift = lobe.liftAt(at);
            expect(lift).toBeGreaterThanOrEqual(before - 1e-12 * spec.maxLift);
            before = lift;
          }
          expect(before).toBeLessThanOrEqual(spec.maxLift * (1 + 1e-9));
        },
      ),
      { numRuns: 300 },
    );
  });

  it.each([
    [240, 0.39],
    [236, 0.37],
  ])(
    'comes within 0.006 in and 0.5 %% of area of a raised cosine of %f deg from its card',
    (duration, maxLift) => {
      const exact = cosine(duration, maxLift);
      const lines = [0.006, 0.05, 0.2].map((lift) => [exact.duration(lift), lift] as const);
      const lobe = buildLobe(card(lines, maxLift));
      let area = 0;
      let wanted = 0;
      for (let at = 0; at <= 180; at += 0.25) {
        expect(Math.abs(lobe.liftAt(at) / IN - exact.liftAt(at))).toBeLessThan(0.006);
        area += lobe.liftAt(at) / IN;
        wanted += exact.liftAt(at);
      }
      expect(Math.abs(area / wanted - 1)).toBeLessThan(0.005);
    },
  );

  it('comes within 0.001 in of the raised cosine with six lines', () => {
    const exact = cosine(240, 0.39);
    const lines = [0.006, 0.02, 0.05, 0.1, 0.2, 0.3].map((lift) => [exact.duration(lift), lift] as const);
    const lobe = buildLobe(card(lines, 0.39));
    for (let at = 0; at <= 180; at += 0.25) {
      expect(Math.abs(lobe.liftAt(at) / IN - exact.liftAt(at))).toBeLessThan(0.001);
    }
  });

  it('either passes a wild card as one hump or refuses it', () => {
    const share = fc.double({ min: 0.002, max: 0.98, noNaN: true });
    const lines = fc.array(fc.tuple(share, fc.double({ min: 40, max: 360, noNaN: true })), {
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(lines, fc.double({ min: 0.1, max: 0.7, noNaN: true }), (pairs, maxLift) => {
        const lifts = pairs.map(([lift]) => lift * maxLift).sort((a, b) => a - b);
        const durations = pairs.map(([, duration]) => duration).sort((a, b) => b - a);
        const spec = card(
          lifts.map((lift, i) => [durations[i], lift] as const),
          maxLift,
        );
        let lobe: LobeShape;
        try {
          lobe = buildLobe(spec);
        } catch (error) {
          expect(error).toBeInstanceOf(DomainError);
          return;
        }
        let before = 0;
        for (let at = -lobe.openingHalf; at <= 0; at += 1) {
          expect(lobe.liftAt(at)).toBeGreaterThanOrEqual(before - 1e-9 * spec.maxLift);
          before = lobe.liftAt(at);
        }
        expect(lobe.liftAt(0) / spec.maxLift).toBeCloseTo(1, 7);
        for (const { duration, lift } of spec.points) {
          expect(Math.abs(lobe.liftAt(duration / 2) - lift)).toBeLessThan(1e-7 * spec.maxLift);
        }
      }),
    );
  });

  it('names a line out of order, and a set that no single hump passes', () => {
    expect(() =>
      buildLobe(
        card(
          [
            [224, 0.05],
            [268, 0.006],
          ],
          0.318,
        ),
      ),
    ).toThrow('points[1].duration must be between');
    expect(() =>
      buildLobe(
        card(
          [
            [268, 0.05],
            [224, 0.05],
          ],
          0.318,
        ),
      ),
    ).toThrow('points[1].lift must be between');
    expect(() => buildLobe(card([[268, 0.4]], 0.318))).toThrow('points[0].lift must be between');
    expect(() => buildLobe(card([], 0.318))).toThrow('points must be at least one line of the card, got 0');
    // Steep to 0.10, nearly level to 0.11, steep again.
    expect(() =>
      buildLobe(
        card(
          [
            [260, 0.05],
            [240, 0.1],
            [180, 0.11],
            [150, 0.2],
          ],
          0.3,
        ),
      ),
    ).toThrow('points must be durations that one smooth hump can pass');
  });
});
