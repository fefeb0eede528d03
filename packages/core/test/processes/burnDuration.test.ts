import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CENTRED_CA50,
  ca50FromSpark,
  DEVELOPMENT_INSTANT,
  DEVELOPMENT_REFERENCE,
  flameDevelopmentAngle,
  MAIN_REFERENCE,
  mainBurnAngle,
  mainBurnTimed,
  type ReferenceBurn,
  sparkLead,
} from '../../src/processes/burnDuration.ts';
import { chamberBurn, REFERENCE_CRANK } from '../../src/processes/chamberBurn.ts';
import { type FlameFuel, laminarFlameSpeed } from '../../src/processes/laminarFlameSpeed.ts';
import { kinematicViscosity } from '../../src/processes/viscosity.ts';
import { FORMS, type FormName } from './chamberForms.ts';

/** Burns of the reference engine with each chamber. */
const REFERENCE = Object.fromEntries(
  Object.entries(FORMS).map(([name, form]) => [name, chamberBurn(REFERENCE_CRANK, form)]),
) as Readonly<Record<FormName, ReferenceBurn>>;

/** A burn of round figures, for the scaling. */
const REFERENCE_28: ReferenceBurn = { development: 20, main: 28, density: 0.6361 };

/** Total timing for best torque, petrol, middle to high speed (common practice, no source). */
const bands: readonly (readonly [FormName, number, number])[] = [
  ['pent roof', 24, 30],
  ['wedge with much squish', 28, 34],
  ['wedge', 32, 36],
  ['wedge with little squish', 36, 40],
  ['hemispherical', 36, 42],
];

describe('the reference conditions', () => {
  it('are those of the charge they name', () => {
    for (const [reference, T, p] of [
      [DEVELOPMENT_REFERENCE, 624, 9.82e5],
      [MAIN_REFERENCE, 720, 17.5e5],
    ] as const) {
      expect(reference.pistonSpeed / (2 * 0.08839 * (4000 / 60))).toBeCloseTo(1, 3);
      expect(reference.viscosity / kinematicViscosity(T, p, 287)).toBeCloseTo(1, 3);
      expect(reference.flameSpeed / laminarFlameSpeed('gasoline', 1 / 0.87, T, p, 0.06)).toBeCloseTo(1, 3);
    }
    expect(MAIN_REFERENCE.height).toBeCloseTo(0.0884 / 9, 5);
    const travel = pistonTravel(DEVELOPMENT_INSTANT);
    expect(DEVELOPMENT_REFERENCE.height - MAIN_REFERENCE.height).toBeCloseTo(travel, 5);
    for (const { development, main, density } of Object.values(REFERENCE)) {
      const lead = sparkLead(development, main, CENTRED_CA50);
      expect(MAIN_REFERENCE.height / (MAIN_REFERENCE.height + pistonTravel(lead))).toBeCloseTo(density, 3);
    }
  });

  it('give the reference angles back', () => {
    for (const [chamber] of bands) {
      const burn = charge(chamber, {});
      expect(burn.development).toBeCloseTo(REFERENCE[chamber].development, 1);
      expect(burn.main).toBeCloseTo(REFERENCE[chamber].main, 1);
    }
  });

  it('belong to a spark that agrees with them: a longer burn is lit earlier, which shortens it', () => {
    // main = 40 - lead / 2 and lead = 20 + 0.48713 main - 8 meet at main = 34 / 1.24357.
    const share = sparkLead(0, 1, 0);
    const settled = mainBurnTimed(20, (lead) => 40 - lead / 2, 8);
    expect(settled).toBeCloseTo((40 - (20 - CENTRED_CA50) / 2) / (1 + share / 2), 3);
  });

  it('are longer where the burn is late, and no shorter where it is early', () => {
    const timed = (ca50: number) => mainBurnTimed(20, (lead) => 40 - lead / 2, ca50);
    const share = sparkLead(0, 1, 0);
    // As above with 16 deg: main = 38 / 1.24357.
    expect(timed(16)).toBeCloseTo((40 - (20 - 16) / 2) / (1 + share / 2), 3);
    expect(timed(16)).toBeGreaterThan(timed(8) + 3);
    expect(timed(0)).toBe(timed(CENTRED_CA50));
  });
});

describe('sparkLead with 50 % burned at 8 deg', () => {
  it.each(bands)(
    'is in the band of total timing from 4000 to 5000 rpm: %s, %f to %f deg',
    (chamber, low, high) => {
      for (const rpm of [4000, 4500, 5000]) {
        const burn = charge(chamber, { rpm });
        const lead = sparkLead(burn.development, burn.main, 8);
        expect(lead).toBeGreaterThan(low);
        expect(lead).toBeLessThan(high);
      }
    },
  );

  it('is undone by ca50FromSpark', () => {
    expect(ca50FromSpark(21, 29, sparkLead(21, 29, 8))).toBeCloseTo(8, 12);
  });

  it('moves degree for degree against the angle of 50 % burned', () => {
    expect(sparkLead(21, 29, 8) - sparkLead(21, 29, 12)).toBeCloseTo(4, 12);
  });
});

describe('the scaling', () => {
  it('goes with the cube root of piston speed and viscosity and the two thirds of bore over flame speed; the height drops out', () => {
    const at = (speed: number, nu: number, h: number, s: number, bore = 1, stroke = 1) =>
      mainBurnAngle(
        REFERENCE_28,
        {
          bore: MAIN_REFERENCE.bore * bore,
          stroke: MAIN_REFERENCE.stroke * stroke,
          pistonSpeed: MAIN_REFERENCE.pistonSpeed * speed,
          viscosity: MAIN_REFERENCE.viscosity * nu,
          height: MAIN_REFERENCE.height * h,
          flameSpeed: MAIN_REFERENCE.flameSpeed * s,
        },
        REFERENCE_28.density,
      );
    expect(at(1, 1, 1, 1)).toBeCloseTo(28, 12);
    expect(at(8, 1, 1, 1)).toBeCloseTo(56, 12);
    expect(at(1, 8, 1, 1)).toBeCloseTo(56, 12);
    expect(at(1, 1, 8, 1)).toBeCloseTo(28, 12);
    expect(at(1, 1, 1, 8)).toBeCloseTo(7, 12);
    expect(at(1, 1, 1, 1, 8)).toBeCloseTo(112, 12);
    expect(at(1, 1, 1, 1, 1, 2)).toBeCloseTo(14, 12);
  });

  it('develops with the 4/9 power of the bore and the 2/9 power of the height, by a length of stroke', () => {
    const at = (bore: number, height: number, stroke: number) =>
      flameDevelopmentAngle(REFERENCE_28, {
        ...DEVELOPMENT_REFERENCE,
        bore: DEVELOPMENT_REFERENCE.bore * bore,
        height: DEVELOPMENT_REFERENCE.height * height,
        stroke: DEVELOPMENT_REFERENCE.stroke * stroke,
      });
    expect(at(1, 1, 1)).toBeCloseTo(20, 12);
    // 512^(4/9) = 16, 512^(2/9) = 4.
    expect(at(512, 1, 1)).toBeCloseTo(320, 9);
    expect(at(1, 512, 1)).toBeCloseTo(80, 9);
    expect(at(1, 1, 2)).toBeCloseTo(10, 12);
  });

  it('is a number of the angle alone: an engine twice as large in every length, at the same piston speed, burns 2^(-1/3) of it', () => {
    const { bore, stroke, height } = MAIN_REFERENCE;
    const large = { ...MAIN_REFERENCE, bore: 2 * bore, stroke: 2 * stroke, height: 2 * height };
    expect(mainBurnAngle(REFERENCE_28, large, REFERENCE_28.density)).toBeCloseTo(28 / Math.cbrt(2), 12);
  });

  it('goes with the 4/9 power of the density at the spark', () => {
    const { main, density } = REFERENCE.hemispherical;
    const at = (d: number) => mainBurnAngle(REFERENCE.hemispherical, MAIN_REFERENCE, d);
    expect(at(density)).toBeCloseTo(main, 12);
    // 2^(4/9) = 1.36079...
    expect(at(2 * density) / main).toBeCloseTo(1.3608, 4);
  });

  it('rises weakly with speed: exponent 0.2 to 0.4', () => {
    const exponent =
      Math.log(charge('pent roof', { rpm: 6000 }).main / charge('pent roof', { rpm: 3000 }).main) / Math.LN2;
    expect(exponent).toBeGreaterThan(0.2);
    expect(exponent).toBeLessThan(0.4);
  });

  it('burns faster with compression, slower with residual, slower lean', () => {
    const base = charge('wedge', {});
    expect(charge('wedge', { ratio: 12 }).main).toBeLessThan(base.main);
    expect(charge('wedge', { residual: 0.12 }).main).toBeGreaterThan(base.main);
    expect(charge('wedge', { lambda: 1.1 }).main).toBeGreaterThan(base.main);
  });

  it('asks for less lead with methanol at equal conditions, its flame being faster', () => {
    const lead = (fuel: FlameFuel) => {
      const burn = charge('wedge', { fuel });
      return sparkLead(burn.development, burn.main, 8);
    };
    expect(lead('methanol')).toBeLessThan(lead('gasoline'));
  });

  it('stays positive and finite over any charge an engine can hold', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 12_000, noNaN: true }),
        fc.double({ min: 6, max: 16, noNaN: true }),
        fc.double({ min: 0.6, max: 1.6, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (rpm, ratio, lambda, residual) => {
          const burn = charge('wedge with little squish', { rpm, ratio, lambda, residual });
          expect(burn.main).toBeGreaterThan(0);
          expect(burn.main).toBeLessThan(Number.POSITIVE_INFINITY);
          expect(burn.development).toBeGreaterThan(0);
        },
      ),
    );
  });

  it('refuses what is not a number', () => {
    const now = { ...MAIN_REFERENCE, pistonSpeed: 10, viscosity: 4e-6, height: 0.01, flameSpeed: 0.8 };
    const none = Number.NaN;
    expect(() => mainBurnAngle(REFERENCE_28, { ...now, pistonSpeed: none }, 0.6)).toThrow('pistonSpeed');
    expect(() => mainBurnAngle(REFERENCE_28, { ...now, viscosity: none }, 0.6)).toThrow('viscosity');
    expect(() => mainBurnAngle(REFERENCE_28, { ...now, bore: none }, 0.6)).toThrow('bore');
    expect(() => mainBurnAngle(REFERENCE_28, { ...now, stroke: 0 }, 0.6)).toThrow('stroke');
    expect(() => mainBurnAngle(REFERENCE_28, now, none)).toThrow('density');
    expect(() => flameDevelopmentAngle(REFERENCE_28, { ...now, height: none })).toThrow('height');
    expect(() => flameDevelopmentAngle(REFERENCE_28, { ...now, flameSpeed: 0 })).toThrow('flameSpeed');
    expect(() => sparkLead(Number.NaN, 28, 8)).toThrow('development');
    expect(() => sparkLead(20, Number.NaN, 8)).toThrow('main');
    expect(() => sparkLead(20, 28, Number.NaN)).toThrow('ca50');
  });
});

/** How far the reference engine's piston is from top centre [m], an angle of the crank away from it [deg]. */
function pistonTravel(degrees: number): number {
  const angle = (degrees * Math.PI) / 180;
  const [throwLength, rod] = [0.0442, 0.145];
  return (
    throwLength * (1 - Math.cos(angle)) + rod - Math.sqrt(rod ** 2 - (throwLength * Math.sin(angle)) ** 2)
  );
}

/** Burn angles of the reference engine with a few things changed; charge compressed by the polytrope of exponent 1.33. */
function charge(
  chamber: FormName,
  change: { rpm?: number; ratio?: number; lambda?: number; residual?: number; fuel?: FlameFuel },
): { development: number; main: number } {
  const { rpm = 4000, ratio = 10, lambda = 0.87, residual = 0.06, fuel = 'gasoline' } = change;
  const pistonSpeed = (2 * 0.0884 * rpm) / 60;
  const clearance = 0.0884 / (ratio - 1);
  const at = (travel: number) => {
    const height = clearance + travel;
    // Same charge at the same volume as the reference: only the volume now differs.
    const squeeze = MAIN_REFERENCE.height / height;
    const total = (clearance + 0.0884) / (MAIN_REFERENCE.height + 0.0884);
    const T = 720 * (squeeze * total) ** 0.33;
    const p = 17.5e5 * (squeeze * total) ** 1.33;
    return {
      bore: MAIN_REFERENCE.bore,
      stroke: 0.0884,
      pistonSpeed,
      height,
      viscosity: kinematicViscosity(T, p, 287),
      flameSpeed: laminarFlameSpeed(fuel, 1 / lambda, T, p, residual),
    };
  };
  const top = at(0);
  const development = flameDevelopmentAngle(REFERENCE[chamber], at(5.35e-3));
  return {
    development,
    main: mainBurnTimed(
      development,
      (lead) => mainBurnAngle(REFERENCE[chamber], top, clearance / (clearance + pistonTravel(lead))),
      CENTRED_CA50,
    ),
  };
}
