/** Engines nobody drew: sections of a file, each there or left to the estimates, from usual sizes to the ends of what a file may say. */
import fc from 'fast-check';
import { FUEL_NAMES } from '../../packages/core/src/gas/fuels.ts';
import { cc, deg, mm, type Section, size } from './sizes.ts';

/** An engine's file and the speeds it is tried at [1/min]. */
export interface RandomEngine {
  readonly sections: Section;
  readonly rpm: readonly number[];
  /** Speed that its pistons suit [1/min]. */
  readonly ratedRpm: number;
}

/** What the sizes of the parts are taken from. */
interface Base {
  readonly bore: number;
  readonly stroke: number;
  readonly cylinders: number;
  readonly valves: number;
  readonly ratedRpm: number;
}

/** A number between two bounds, rounded to a few digits so that a shrunk engine can be read. */
const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1000 }).map((i) => round(min + ((max - min) * i) / 1000));
/** A factor, as likely below 1 as above. */
const factor = (most: number): fc.Arbitrary<number> =>
  fc.integer({ min: -500, max: 500 }).map((i) => most ** (i / 500));
const round = (x: number): number => Number(x.toPrecision(4));
const clamp = (x: number, min: number, max: number): number => round(Math.min(max, Math.max(min, x)));
/** There half of the time. */
const maybe = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.option(value, { nil: undefined, freq: 2 });
const seldom = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.oneof({ weight: 7, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary: value });

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

/** Displacement of a cylinder [cc]. */
const sweptOf = ({ bore, stroke }: Base): number => (Math.PI / 4) * bore * bore * stroke * 1e-3;
/** Air at rated speed, all cylinders [m3/min]. */
const airOf = (of: Base): number => (sweptOf(of) * of.cylinders * of.ratedRpm) / 2e6;

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

const chamber: fc.Arbitrary<Section> = fc.record({
  compression: between(5, 18),
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

const induction = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({
      kind: fc.constantFrom('none', 'carburetor', 'throttle'),
      sizes: fc.oneof({ weight: 4, arbitrary: factor(2.5) }, { weight: 1, arbitrary: factor(10) }),
      cleaner: maybe(factor(4)),
      manifold: maybe(fc.constantFrom('single-plane', 'dual-plane', 'individual-runner', 'long-runner')),
      plenum: maybe(factor(10)),
      runner: maybe(factor(5)),
      taper: maybe(between(0.7, 1.4)),
      flowLoss: maybe(between(0, 40)),
      injection: maybe(fc.constantFrom('port', 'direct')),
      heating: seldom(between(-20, 70)),
      evaporation: seldom(between(0, 100)),
      vapour: seldom(between(0, 100)),
    })
    .map((i) => {
      const air = airOf(of);
      const count = i.manifold === 'individual-runner' ? of.cylinders : 1;
      const carburetor =
        i.kind === 'carburetor'
          ? {
              rating: size('flow', clamp((i.sizes * 1.2 * air) / count, 0.1, 150)),
              barrels: 2,
              ratedAt: size('pressure', 10.16),
              count,
            }
          : undefined;
      const bore = 1000 * Math.sqrt((4 * i.sizes * air) / count / 60 / Math.PI / 60);
      const throttle = i.kind === 'throttle' ? { diameter: mm(clamp(bore, 8, 200)), count } : undefined;
      const valves = 0.3 * (Math.PI / 4) * of.bore * of.bore * 0.01;
      return {
        carburetor,
        throttle,
        airCleaner:
          i.cleaner === undefined
            ? undefined
            : { flow: size('flow', clamp(i.cleaner * air * 1.5, 0.1, 150)) },
        manifold: i.manifold,
        plenum:
          i.plenum === undefined ? undefined : cc(clamp(i.plenum * of.cylinders * sweptOf(of), 20, 60_000)),
        runner:
          i.runner === undefined
            ? undefined
            : {
                length: mm(clamp(i.runner * 3 * of.stroke, 10, 1500)),
                entryArea: size('area', clamp(valves * (i.taper ?? 1), 0.2, 150)),
                exitArea: size('area', clamp(valves, 0.2, 150)),
              },
        flowLoss: i.flowLoss === undefined ? undefined : size('share', i.flowLoss),
        injection: i.kind === 'throttle' ? i.injection : undefined,
        heating: i.heating === undefined ? undefined : size('rise', i.heating),
        evaporation: i.evaporation === undefined ? undefined : size('share', i.evaporation),
        vapour: i.vapour === undefined ? undefined : size('share', i.vapour),
      };
    });

const exhaust = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({
      style: maybe(fc.constantFrom('headers', 'cast')),
      primary: maybe(fc.record({ inside: factor(1.7), length: factor(5) })),
      collector: maybe(fc.constantFrom('none' as const, 'sized' as const)),
      merge: factor(6),
      inside: factor(1.6),
      length: factor(5),
      muffler: maybe(fc.constantFrom('open', 'straight-through', 'chambered')),
      box: seldom(factor(5)),
      returned: seldom(between(0, 100)),
    })
    .map((e) => {
      const inside = 0.42 * of.bore;
      const sized = {
        mergeVolume: cc(clamp(e.merge * 0.4 * sweptOf(of), 5, 20_000)),
        inside: mm(clamp(e.inside * inside * 1.6, 10, 250)),
        length: mm(clamp(e.length * 300, 10, 4000)),
      };
      return {
        style: e.style,
        primary:
          e.primary === undefined
            ? undefined
            : {
                inside: mm(clamp(e.primary.inside * inside, 12, 200)),
                length: mm(clamp(e.primary.length * 600, 20, 4000)),
              },
        collector: e.collector === 'sized' ? sized : e.collector,
        muffler: e.muffler,
        box:
          e.box !== undefined && e.muffler !== undefined && e.muffler !== 'open'
            ? { volume: cc(clamp(e.box * 5 * sweptOf(of), 100, 100_000)) }
            : undefined,
        returned: e.returned === undefined ? undefined : size('share', e.returned),
      };
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
      chamber,
      heads: fc.record({ intake: headSide(of), exhaust: headSide(of) }),
      cam: maybe(cam(of)),
      valvetrain: fc.constant(undefined),
      rockers: valvetrain,
      induction: maybe(induction(of)),
      exhaust: maybe(exhaust(of)),
      fuel: maybe(fc.constantFrom(...FUEL_NAMES)),
      mixture: maybe(between(0.65, 1.35).map((lambda) => ({ lambda }))),
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
