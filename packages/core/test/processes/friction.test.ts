import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bearingSizes, type FrictionInput, friction } from '../../src/processes/friction.ts';
import { SMALL_FOUR } from '../support/smallFour.ts';

/** A street V8 of 350 in3 and a race V8 of 540 in3, both with two valves. */
const street: FrictionInput = {
  ...SMALL_FOUR,
  bore: 0.1016,
  stroke: 0.0884,
  cylinders: 8,
  compressionRatio: 9.5,
  ...sizes(0.1016),
  valvetrain: 'flat-tappet',
  valveLift: 0.0117,
  accessories: false,
};
const race: FrictionInput = {
  ...street,
  bore: 0.1143,
  stroke: 0.108,
  compressionRatio: 13,
  ...sizes(0.1143),
  valvetrain: 'roller-lifter',
  valveLift: 0.0195,
};

describe('friction(input, speed)', () => {
  /** Worked independently from the same constants: 86 x 86 four, 16 valves, compression ratio 10, 9 mm of lift. */
  it.each([
    [1000, 85],
    [2000, 97],
    [3000, 115],
    [4000, 136],
    [5000, 161],
    [6000, 188],
  ])('of an 86 mm square four at %i rpm is %i kPa', (rpm, kPa) => {
    expect(Math.round(friction(SMALL_FOUR, rpm / 60).total * 1e-3)).toBe(kPa);
  });

  it('adds up', () => {
    const f = friction(SMALL_FOUR, 50);
    expect(f.crank + f.reciprocating + f.gas + f.valvetrain + f.accessories).toBeCloseTo(f.total, 8);
  });

  it('has the components worked by hand at 3000 rpm', () => {
    const f = friction(SMALL_FOUR, 50);
    // 1.22e5 x 56 / 2544224 + 3.03e-4 x 3000 x 56^3 x 21 x 5 / 2544224 + 1.35e-10 x 56^2 x 3000^2 x 5 / 4
    expect(f.crank * 1e-3).toBeCloseTo(2.6853 + 6.5883 + 4.7628, 3);
    // 294 x 8.6 / 86 + 4.06e4 (1 + 1/6) / 86^2 + 3.03e-4 x 3000 x 48^3 x 21 x 4 / 2544224
    expect(f.reciprocating * 1e-3).toBeCloseTo(29.4 + 6.4044 + 3.3191, 3);
    // 6.89 (0.88 + 0.182 x 10^(1.33 - 0.0238 x 8.6))
    expect(f.gas * 1e-3).toBeCloseTo(22.7976, 3);
    // 8.32 + 5.58 + 6.705
    expect(f.accessories * 1e-3).toBeCloseTo(20.605, 3);
  });

  /** Worked independently from the same constants, the same four at 3000 rpm. */
  it.each([
    ['flat-tappet', 36.1236],
    ['roller-lifter', 23.0445],
    ['direct-acting', 18.4011],
    ['finger-follower', 28.7278],
    ['rocker-arm', 30.898],
  ] as const)('has %s valvetrain friction of %f kPa', (valvetrain, kPa) => {
    expect(friction({ ...SMALL_FOUR, valvetrain }, 50).valvetrain * 1e-3).toBeCloseTo(kPa, 4);
  });

  it('leaves the accessories out when they are not driven, as on a stand', () => {
    expect(friction({ ...SMALL_FOUR, accessories: false }, 50).accessories).toBe(0);
  });

  it('has bearings of a camshaft that grow with the engine: 30 mm by 30 mm at 86 mm of bore, a third of their drag at 65 mm', () => {
    const bearings = (bore: number): number => {
      const at = (camBearings: number) => friction({ ...SMALL_FOUR, bore, camBearings }, 100).valvetrain;
      return (at(10) - at(5)) * 1e-3;
    };
    // 244 x 6000 x 5 / (86^2 x 86 x 4), and (65 / 86)^4 / (65 / 86)^2 of that
    expect(bearings(0.086)).toBeCloseTo(2.87711, 4);
    expect(bearings(0.065)).toBeCloseTo(1.64356, 4);
  });

  it('drives the accessories of an engine rated at 7800 rpm through a ratio: 35.6 kPa there, where the formula at crankshaft speed has 68.2', () => {
    const fast = { ...SMALL_FOUR, driveRatio: 6000 / 7800 };
    // 8.32 + 1.86e-3 x 6000 + 7.45e-7 x 6000^2 = 46.3, and 6000 / 7800 of that
    expect(friction(fast, 130).accessories * 1e-3).toBeCloseTo(35.6154, 3);
    expect(friction(SMALL_FOUR, 130).accessories * 1e-3).toBeCloseTo(68.1538, 3);
    expect(() => friction({ ...fast, driveRatio: 0 }, 130)).toThrow('driveRatio must be positive');
  });

  it('of a race V8 with roller lifters at 26.6 m/s is far below the old speed-only table of the trade', () => {
    const speed = 7400 / 60;
    const pistonSpeed = 2 * 0.108 * speed;
    const table = 1e5 * (1 + 0.022 * pistonSpeed + 0.00457 * pistonSpeed ** 2);
    const total = friction(race, speed).total;
    expect(total).toBeGreaterThan(1.2e5);
    expect(total).toBeLessThan(2.6e5);
    expect(total).toBeLessThan(0.55 * table);
  });

  it('of a flat-tappet V8 is 0.6 to 0.9 bar at 2000 rpm and 1 to 1.6 bar at 5500', () => {
    expect(friction(street, 2000 / 60).total).toBeGreaterThan(0.6e5);
    expect(friction(street, 2000 / 60).total).toBeLessThan(0.9e5);
    expect(friction(street, 5500 / 60).total).toBeGreaterThan(1e5);
    expect(friction(street, 5500 / 60).total).toBeLessThan(1.6e5);
  });

  it('is about linear in speed, as NACA TR 108 found: within 6 % of a chord from 2000 to 5500 rpm', () => {
    const at = (rpm: number) => friction(street, rpm / 60).total;
    for (let rpm = 2000; rpm <= 5500; rpm += 250) {
      const chord = at(2000) + ((at(5500) - at(2000)) * (rpm - 2000)) / 3500;
      expect(Math.abs(at(rpm) / chord - 1)).toBeLessThan(0.06);
    }
  });

  it('is less with rollers than with flat tappets, and least of all sliding kinds when direct-acting', () => {
    const of = (valvetrain: FrictionInput['valvetrain']) =>
      friction({ ...street, valvetrain }, 60).valvetrain;
    expect(of('roller-lifter')).toBeLessThan(of('flat-tappet'));
    expect(of('direct-acting')).toBeLessThan(of('rocker-arm'));
    expect(of('rocker-arm')).toBeLessThan(of('flat-tappet'));
    expect(of('finger-follower')).toBeGreaterThan(0);
  });

  it('grows with bearing size, oil viscosity and compression', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 150, noNaN: true }),
        fc.double({ min: 1.02, max: 1.5, noNaN: true }),
        (speed, more) => {
          const base = friction(race, speed).total;
          expect(friction({ ...race, mainDiameter: race.mainDiameter * more }, speed).total).toBeGreaterThan(
            base,
          );
          expect(friction({ ...race, rodDiameter: race.rodDiameter * more }, speed).total).toBeGreaterThan(
            base,
          );
          expect(friction({ ...race, oilViscosityRatio: more }, speed).total).toBeGreaterThan(base);
          expect(friction({ ...race, compressionRatio: 13 * more }, speed).total).toBeGreaterThan(base);
        },
      ),
    );
  });

  it('refuses what is not a number', () => {
    expect(() => friction({ ...SMALL_FOUR, bore: Number.NaN }, 50)).toThrow('bore must be positive, got NaN');
    expect(() => friction({ ...SMALL_FOUR, compressionRatio: 1 }, 50)).toThrow(
      'compressionRatio must be above 1',
    );
    expect(() => friction(SMALL_FOUR, Number.NaN)).toThrow('speed');
    expect(() => friction(SMALL_FOUR, 0)).toThrow('speed');
    expect(() => friction({ ...SMALL_FOUR, valves: 0 }, 50)).toThrow('valves must be positive, got 0');
  });
});

describe('bearingSizes(bore, stroke)', () => {
  it('comes within 10 % of a common V8: 4.00 in bore, mains 2.45 in, rods 2.10 in (common practice, no source)', () => {
    const s = bearingSizes(0.1016, 0.0884);
    expect(Math.abs(s.mainDiameter / (2.45 * 0.0254) - 1)).toBeLessThan(0.1);
    expect(Math.abs(s.rodDiameter / (2.1 * 0.0254) - 1)).toBeLessThan(0.1);
    expect(s.mainLength).toBeCloseTo(0.21 * 0.1016, 12);
    expect(s.rodLength).toBeCloseTo(0.2 * 0.1016, 12);
  });
  it('is the documented share of the bore', () => {
    expect(bearingSizes(0.1, 0.09)).toEqual({
      mainDiameter: expect.closeTo(0.062, 12),
      mainLength: expect.closeTo(0.021, 12),
      rodDiameter: expect.closeTo(0.053, 12),
      rodLength: expect.closeTo(0.02, 12),
    });
  });
  it('refuses what is not a number', () => {
    expect(() => bearingSizes(Number.NaN, 0.09)).toThrow('bore');
    expect(() => bearingSizes(0.1, 0)).toThrow('stroke');
  });
  it('goes with a short stroke: a motorcycle four of 67 by 46 mm has mains of 33 to 37 mm (common practice, no source)', () => {
    const { mainDiameter, rodDiameter, mainLength } = bearingSizes(0.067, 0.046);
    expect(mainDiameter).toBeCloseTo(0.0368, 10);
    expect(rodDiameter).toBeCloseTo(0.03145806, 7);
    expect(mainLength).toBeCloseTo(0.01407, 10);
    // No step where the rule changes.
    expect(bearingSizes(0.1, 0.0775).mainDiameter).toBeCloseTo(0.062, 12);
    expect(bearingSizes(0.1, 0.077).mainDiameter).toBeCloseTo(0.0616, 12);
  });
});

/** Production bearing proportions, written out so that no tested code runs while the file loads. */
function sizes(
  bore: number,
): Pick<FrictionInput, 'mainDiameter' | 'mainLength' | 'rodDiameter' | 'rodLength'> {
  return {
    mainDiameter: 0.62 * bore,
    mainLength: 0.21 * bore,
    rodDiameter: 0.53 * bore,
    rodLength: 0.2 * bore,
  };
}
