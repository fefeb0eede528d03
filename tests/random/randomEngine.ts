/** Engines nobody drew: sections of a file, each there or left to the estimates, from usual sizes to the ends of what a file may say. */
import fc from 'fast-check';
import { FUEL_NAMES } from '../../packages/core/src/gas/fuels.ts';
import { type Base, between, clamp, factor, maybe, round, seldom } from './draws.ts';
import { exhaust } from './randomExhaust.ts';
import { induction } from './randomInduction.ts';
import { deg, mm, type Section, size } from './sizes.ts';

/** An engine's file and the speeds it is tried at [1/min]. */
export interface RandomEngine {
  readonly sections: Section;
  readonly rpm: readonly number[];
  /** Speed that its pistons suit [1/min]. */
  readonly ratedRpm: number;
}

/** Shrinks to a single of ordinary size. */
const base: fc.Arbitrary<Base> = fc
  .record({
    bore: fc.oneof({ weight: 4, arbitrary: between(65, 110) }, { weight: 1, arbitrary: between(30, 180) }),
    strokeRatio: between(0.6, 1.5),
    cylinders: fc.constantFrom(1, 1, 1, 2, 2, 3, 4, 4, 5, 6, 8, 10, 12),
    valves: fc.constantFrom(2, 2, 3, 4, 5),
    pistonSpeed: between(9, 24),
  })
  .map(({ bore, strokeRatio, cylinders, valves, pistonSpeed }) => {
    const stroke = clamp(bore * strokeRatio, 20, 250);
    const ratedRpm = Math.min(18_000, Math.max(1500, Math.round((30_000 * pistonSpeed) / stroke / 50) * 50));
    return { bore, stroke, cylinders, valves, ratedRpm };
  });

const engine = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({ rod: maybe(between(1.4, 2.4)), rated: maybe(fc.constant(true)), odd: maybe(between(90, 360)) })
    .map(({ rod, rated, odd }) => ({
      bore: mm(of.bore),
      stroke: mm(of.stroke),
      cylinders: of.cylinders,
      rod: rod === undefined ? undefined : mm(clamp(rod * of.stroke, 25, 700)),
      firingIntervals: odd !== undefined && of.cylinders === 2 ? [deg(odd), deg(720 - odd)] : undefined,
      ratedSpeed: rated === undefined ? undefined : size('speed', of.ratedRpm),
    }));

/** One value of every cylinder, seldom: then all of them march. */
const byCylinder = (of: Base, value: fc.Arbitrary<number>): fc.Arbitrary<number[] | undefined> =>
  of.cylinders === 1
    ? fc.constant(undefined)
    : seldom(fc.array(value, { minLength: of.cylinders, maxLength: of.cylinders }));

const compression = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({ one: between(5, 18), apart: byCylinder(of, between(-0.5, 0.5)) })
    .map(({ one, apart }) =>
      apart === undefined
        ? { compression: one }
        : { compressions: apart.map((more) => clamp(one + more, 4, 20)) },
    );

const mixture = (of: Base): fc.Arbitrary<Section> =>
  fc.record({ lambda: between(0.65, 1.35), differences: byCylinder(of, between(-0.1, 0.1)) });

const chamberForm: fc.Arbitrary<Section> = fc.record({
  shape: maybe(fc.constantFrom('wedge', 'bathtub', 'bowl-in-piston', 'hemispherical', 'pent-roof')),
  plug: maybe(fc.constantFrom('central', 'side')),
  squishArea: seldom(between(0, 60).map((percent) => size('share', percent))),
  squishHeight: seldom(between(0.5, 6).map(mm)),
});

const headSide = (of: Base): fc.Arbitrary<Section> =>
  fc.record({
    flowMultiplier: maybe(between(0.4, 1.8)),
    reverseFlow: seldom(between(40, 120).map((percent) => size('share', percent))),
    portLength: maybe(between(0.3, 3).map((times) => mm(clamp(times * of.bore, 10, 500)))),
  });

const camSide = (of: Base): fc.Arbitrary<Section> =>
  fc.record({ at050: between(170, 305), ramps: between(28, 80), lift: factor(1.6) }).map((side) => ({
    advertised: deg(round(side.at050 + side.ramps)),
    checkedAt: mm(0.15),
    at050: deg(side.at050),
    lobeLift: mm(clamp(side.lift * (of.valves > 2 ? 0.085 : 0.11) * of.bore ** 0.93, 1.6, 25)),
  }));

const cam = (of: Base): fc.Arbitrary<Section> =>
  fc.record({
    separation: between(92, 122).map(deg),
    advance: maybe(between(-10, 10).map(deg)),
    intake: camSide(of),
    exhaust: camSide(of),
  });

const valvetrain: fc.Arbitrary<Section> = fc.record({
  type: maybe(fc.constantFrom('pushrod', 'direct-acting', 'finger-follower', 'rocker-arm')),
  intakeRatio: fc.constant(1),
  exhaustRatio: fc.constant(1),
  flex: maybe(between(0, 0.4).map(mm)),
});

const burn = (ratedRpm: number): fc.Arbitrary<Section> =>
  fc.oneof(
    fc.constantFrom<Section>({}, { timing: 'best-torque' }, { timing: 'knock-limited' }),
    fc.record({ timing: fc.constant('ca50'), ca50: between(0, 30).map(deg) }),
    fc.record({ low: between(0, 50), high: between(10, 60) }).map(({ low, high }) => ({
      spark: [
        { rpm: size('speed', 500), advance: deg(low) },
        { rpm: size('speed', ratedRpm), advance: deg(high) },
      ],
    })),
    fc.record({ durationMultiplier: between(0.5, 2), efficiency: between(80, 100) }).map((b) => ({
      ...b,
      efficiency: size('share', b.efficiency),
    })),
  );

const weather: fc.Arbitrary<Section> = fc.record({
  barometer: between(70, 104).map((kPa) => size('pressure', kPa)),
  temperature: between(-30, 45).map((celsius) => size('temperature', celsius)),
  humidity: between(0, 100).map((percent) => size('share', percent)),
});

/** Speeds from a fifth of the rated one to twice it, one or two of them. */
const speeds = (ratedRpm: number): fc.Arbitrary<readonly number[]> =>
  fc
    .uniqueArray(fc.oneof(between(0.4, 1.3), between(0.2, 2)), { minLength: 1, maxLength: 2 })
    .map((parts) =>
      [...new Set(parts.map((part) => Math.min(30_000, Math.max(300, Math.round(part * ratedRpm)))))].sort(
        (a, b) => a - b,
      ),
    );

export const randomEngine: fc.Arbitrary<RandomEngine> = base.chain((of) =>
  fc
    .record({
      engine: engine(of),
      chamber: fc.tuple(compression(of), chamberForm).map(([ratio, form]) => ({ ...ratio, ...form })),
      heads: fc.record({ intake: headSide(of), exhaust: headSide(of) }),
      cam: maybe(cam(of)),
      valvetrain: fc.constant(undefined),
      rockers: valvetrain,
      induction: maybe(induction(of)),
      exhaust: maybe(exhaust(of)),
      fuel: maybe(fc.constantFrom(...FUEL_NAMES)),
      mixture: maybe(mixture(of)),
      burn: maybe(burn(of.ratedRpm)),
      heat: seldom(
        fc.record({
          model: fc.constantFrom('woschni', 'hohenberg', 'annand'),
          multiplier: between(0.4, 2),
        }),
      ),
      friction: seldom(fc.record({ multiplier: between(0.4, 2.5) })),
      weather: maybe(weather),
      correction: fc.constantFrom('none', 'J607', 'J1349'),
      rpm: speeds(of.ratedRpm),
    })
    .map(({ rpm, rockers, ...sections }) => ({
      sections: {
        name: 'random engine',
        ...sections,
        heads: { valvesPerCylinder: of.valves, ...sections.heads },
        valvetrain: sections.cam === undefined ? undefined : rockers,
      },
      rpm,
      ratedRpm: of.ratedRpm,
    })),
);
