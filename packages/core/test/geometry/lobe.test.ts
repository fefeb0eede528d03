import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { buildLobe, type LobeShape, lobeAngleAt, lobeDuration, sampleLobe } from '../../src/geometry/lobe.ts';
import { lookUp } from '../../src/numerics/interpolate.ts';

const IN = 0.0254;

/** A card in degrees and inches. */
const card = (points: readonly (readonly [duration: number, lift: number])[], maxLift: number) => ({
  kind: 'card' as const,
  points: points.map(([duration, lift]) => ({ duration, lift: lift * IN })),
  maxLift: maxLift * IN,
});

/** The raised cosine ((1 + cos(pi x))/2)^k, 0.050 in at half the duration, half-length (duration + 46)/2. */
const cosine = (duration: number, maxLift: number) => {
  const half = (duration + 46) / 2;
  const power = Math.log(0.05 / maxLift) / Math.log((1 + Math.cos((Math.PI * duration) / 2 / half)) / 2);
  return {
    half,
    liftAt: (angle: number) =>
      Math.abs(angle) >= half ? 0 : maxLift * ((1 + Math.cos((Math.PI * angle) / half)) / 2) ** power,
    duration: (lift: number) => ((2 * half) / Math.PI) * Math.acos(2 * (lift / maxLift) ** (1 / power) - 1),
  };
};

/** Changes of sign of the acceleration from seat to nose, those of rounding overlooked. */
const inflections = (lobe: LobeShape): number => {
  const h = 0.25;
  const steps = Math.floor(lobe.closingHalf / h);
  const seconds = Array.from({ length: steps - 1 }, (_, i) => {
    const at = lobe.closingHalf - (i + 1) * h;
    return lobe.liftAt(at + h) - 2 * lobe.liftAt(at) + lobe.liftAt(at - h);
  });
  const largest = seconds.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const signs = seconds.filter((value) => Math.abs(value) > 1e-6 * largest).map(Math.sign);
  return signs.filter((sign, i) => i > 0 && sign !== signs[i - 1]).length;
};

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

describe('estimates for what a card leaves out', () => {
  // Common practice, no source: duration at 0.050 less duration at 0.200 in is 78 to 92 deg on flat tappets, 66 to 78 on rollers.
  it.each([
    [268, 0.006, 224, 0.318, 'flat', 78, 92],
    [284, 0.02, 250, 0.36, 'flat', 78, 92],
    [282, 0.006, 230, 0.36, 'roller', 66, 78],
    [300, 0.02, 270, 0.45, 'roller', 66, 78],
  ] as const)(
    'a lobe of %f deg advertised at %f in, %f at 0.050, %f in lift, %s, loses %f to %f deg up to 0.200',
    (advertised, height, standard, lift, follower, least, most) => {
      const lobe = buildLobe(
        card(
          [
            [advertised, height],
            [standard, 0.05],
          ],
          lift,
        ),
        follower,
      );
      const difference = standard - lobeDuration(lobe, 0.2 * IN);
      expect(difference).toBeGreaterThanOrEqual(least);
      expect(difference).toBeLessThanOrEqual(most);
      expect(lobe.estimated.map((point) => point.lift / IN)).toEqual([expect.closeTo(0.2, 9)]);
    },
  );

  // Common practice, no source: advertised less 0.050 is 52 to 66 deg on hydraulic flat tappets, 50 to 56 on hydraulic rollers.
  it.each([
    ['flat', 52, 66],
    ['roller', 50, 56],
  ] as const)(
    'a card without advertised duration gets the usual ramp of a %s follower',
    (follower, least, most) => {
      const lobe = buildLobe(card([[224, 0.05]], 0.34), follower);
      const extra = lobeDuration(lobe, 0.006 * IN) - 224;
      expect(extra).toBeGreaterThanOrEqual(least);
      expect(extra).toBeLessThanOrEqual(most);
      expect(lobe.estimated.length).toBe(2);
    },
  );

  it('estimates nothing where the card tells enough', () => {
    expect(
      buildLobe(
        card(
          [
            [282, 0.006],
            [230, 0.05],
            [158, 0.2],
          ],
          0.36,
        ),
      ).estimated,
    ).toEqual([]);
  });

  it('draws a roller fuller than a flat tappet from the same card', () => {
    const same = card(
      [
        [282, 0.006],
        [230, 0.05],
      ],
      0.36,
    );
    const [flat, roller] = (['flat', 'roller'] as const).map((follower) =>
      lobeDuration(buildLobe(same, follower), 0.2 * IN),
    );
    expect(roller - flat).toBeGreaterThan(8);
    expect(roller - flat).toBeLessThan(16);
  });
});

describe('buildLobe(table)', () => {
  const sampled = (step: number) => {
    const exact = cosine(240, 0.39);
    const count = Math.floor(exact.half / step);
    const angle = Array.from({ length: 2 * count + 1 }, (_, i) => (i - count) * step);
    return {
      exact,
      spec: { kind: 'table' as const, angle, lift: angle.map((at) => exact.liftAt(at) * IN) },
    };
  };

  it('follows a raised cosine sampled every 2 deg within 3e-4 in', () => {
    const { exact, spec } = sampled(2);
    const lobe = buildLobe(spec);
    for (let at = -150; at <= 150; at += 0.3) {
      expect(Math.abs(lobe.liftAt(at) / IN - exact.liftAt(at))).toBeLessThan(3e-4);
    }
    expect(lobeDuration(lobe, 0.05 * IN)).toBeCloseTo(240, 2);
    expect(lobe.closingHalf).toBeCloseTo(143, 0);
  });

  it('mirrors a table that starts at the centre', () => {
    const { spec } = sampled(2);
    const middle = (spec.angle.length - 1) / 2;
    const half = buildLobe({ kind: 'table', angle: spec.angle.slice(middle), lift: spec.lift.slice(middle) });
    const whole = buildLobe(spec);
    for (const at of [-140, -77.7, -3, 0, 12.3, 99, 141])
      expect(half.liftAt(at)).toBeCloseTo(whole.liftAt(at), 12);
  });

  it('keeps a lopsided lobe lopsided and passes every entry', () => {
    const angle = [-120, -80, -40, 0, 30, 60, 90];
    const lift = [0, 0.002, 0.006, 0.008, 0.006, 0.002, 0];
    const lobe = buildLobe({ kind: 'table', angle, lift });
    angle.forEach((at, i) => {
      expect(lobe.liftAt(at)).toBeCloseTo(lift[i], 15);
    });
    expect(lobe.openingHalf).toBe(120);
    expect(lobe.closingHalf).toBe(90);
    expect(lobeAngleAt(lobe, 0.002, 'opening')).toBeCloseTo(-80, 6);
    expect(lobeAngleAt(lobe, 0.002, 'closing')).toBeCloseTo(60, 6);
    expect(lobeAngleAt(lobe, 0.009, 'closing')).toBeNull();
  });

  it('refuses a table that ends far above the seat or has no other side', () => {
    const short = {
      kind: 'table' as const,
      angle: [-40, -20, 0, 20, 40],
      lift: [0.004, 0.006, 0.008, 0.006, 0.004],
    };
    expect(() => buildLobe(short)).toThrow('lift must be near zero at both ends of the table, got 0.004');
    expect(() => buildLobe({ ...short, lift: [0, 0.1, Number.NaN, 0.1, 0] })).toThrow(
      'lift[2] must be zero or positive',
    );
    expect(() => buildLobe({ kind: 'table', angle: [10, 20, 30, 40, 50], lift: [0, 1, 2, 1, 0] })).toThrow(
      'angle must be on both sides of the centre of the lobe, 0',
    );
  });
});

describe('sampleLobe(shape, step)', () => {
  it('reads back linearly within 1e-5 in at half a degree', () => {
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
    const table = sampleLobe(lobe, 0.5);
    for (let at = -170; at <= 170; at += 0.13) {
      expect(Math.abs(lookUp(table, at) - lobe.liftAt(at)) / IN).toBeLessThan(1e-5);
    }
  });
});
