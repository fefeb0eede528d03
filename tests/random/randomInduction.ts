/** The induction of a random engine: carburetor or throttle, plenum and runners, and what stands between them. */
import fc from 'fast-check';
import { airOf, type Base, between, clamp, factor, maybe, seldom, sweptOf } from './draws.ts';
import { cc, mm, type Section, size } from './sizes.ts';

const inductionFlow = (of: Base): fc.Arbitrary<Section> =>
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

/** What stands between carburetor or throttle and plenum, and what joins plenums or runners. */
const inductionParts = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({
      restrictor: seldom(
        fc.record({
          kind: fc.constantFrom('plate', 'sonic'),
          size: factor(2),
          bores: fc.constantFrom(1, 2, 4),
        }),
      ),
      spacer: seldom(fc.record({ kind: fc.constantFrom('open', 'four-hole'), height: between(5, 100) })),
      duct: seldom(fc.record({ inside: factor(1.6), length: factor(4) })),
      tubes:
        of.cylinders === 1
          ? fc.constant(undefined)
          : seldom(fc.record({ inside: between(3, 30), at: between(5, 60) })),
    })
    .map(({ restrictor, spacer, duct, tubes }) => {
      // A bore that passes rated air at 60 m/s.
      const bore = 1000 * Math.sqrt((4 * airOf(of)) / 60 / Math.PI / 60);
      return {
        restrictor:
          restrictor === undefined
            ? undefined
            : {
                kind: restrictor.kind,
                bore: mm(clamp((restrictor.size * bore) / Math.sqrt(restrictor.bores), 4, 200)),
                bores: restrictor.bores,
              },
        spacer: spacer === undefined ? undefined : { kind: spacer.kind, height: mm(spacer.height) },
        inletDuct:
          duct === undefined
            ? undefined
            : {
                inside: mm(clamp(duct.inside * bore, 10, 400)),
                length: mm(clamp(duct.length * 300, 10, 3000)),
              },
        balance: tubes === undefined ? undefined : { inside: mm(tubes.inside), at: mm(tubes.at) },
      };
    });

/** A throttle or carburetor a cylinder along its runner, in still air or behind an airbox. */
const individual = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({
      kind: fc.constantFrom('carburetor', 'throttle'),
      sizes: factor(2),
      runner: factor(2.5),
      at: between(0.05, 0.95),
      mouth: maybe(fc.constantFrom('bell', 'plain')),
      airbox: maybe(fc.record({ volume: factor(6), inside: factor(2), length: maybe(between(10, 800)) })),
      tubes: of.cylinders === 1 ? fc.constant(undefined) : seldom(fc.record({ inside: between(3, 20) })),
    })
    .map(({ kind, sizes, runner, at, mouth, airbox, tubes }) => {
      const each = airOf(of) / of.cylinders;
      const length = clamp(runner * 3 * of.stroke, 60, 1200);
      const bore = (air: number): number => 1000 * Math.sqrt((4 * air) / 60 / Math.PI / 40);
      return {
        manifold: 'individual-throttles',
        carburetor:
          kind === 'carburetor'
            ? {
                rating: size('flow', clamp(sizes * 3 * each, 0.1, 150)),
                barrels: 1,
                ratedAt: size('pressure', 10.16),
                count: of.cylinders,
              }
            : undefined,
        throttle:
          kind === 'throttle'
            ? { diameter: mm(clamp(sizes * 1.4 * bore(each), 8, 200)), count: of.cylinders }
            : undefined,
        runner: { length: mm(length), throttleAt: mm(clamp(at * length, 1, length)), mouth },
        airbox:
          airbox === undefined
            ? undefined
            : {
                volume: cc(clamp(airbox.volume * 5 * of.cylinders * sweptOf(of), 100, 200_000)),
                inlet: {
                  inside: mm(clamp(airbox.inside * bore(airOf(of)), 10, 400)),
                  length: airbox.length === undefined ? undefined : mm(airbox.length),
                },
              },
        balance: tubes === undefined ? undefined : { inside: mm(tubes.inside) },
      };
    });

/** Plenums by group of cylinders, and the opening between two. */
const plenums = (of: Base, flow: Section): fc.Arbitrary<Section> => {
  if (of.cylinders < 4 || of.cylinders % 2 > 0) return fc.constant({});
  const all = Array.from({ length: of.cylinders }, (_, i) => i + 1);
  const half = of.cylinders / 2;
  const manifold = flow['manifold'];
  return fc
    .record({ groups: seldom(fc.constant([all.slice(0, half), all.slice(half)])), opening: maybe(factor(5)) })
    .map(({ groups, opening }) => {
      const own = manifold === 'individual-runner' ? undefined : groups;
      const two = manifold === 'dual-plane' || own !== undefined;
      return {
        groups: own,
        divider:
          opening === undefined || !two
            ? undefined
            : { opening: size('area', clamp(opening * 0.05 * of.bore * of.bore * 0.01, 0.1, 500)) },
      };
    });
};

export const induction = (of: Base): fc.Arbitrary<Section> =>
  fc.oneof(
    {
      weight: 4,
      arbitrary: inductionFlow(of).chain((flow) =>
        fc
          .tuple(inductionParts(of), plenums(of, flow))
          .map(([parts, grouped]) => ({ ...flow, ...parts, ...grouped })),
      ),
    },
    { weight: 1, arbitrary: individual(of) },
  );
