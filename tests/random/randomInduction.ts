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

export const induction = (of: Base): fc.Arbitrary<Section> =>
  fc.tuple(inductionFlow(of), inductionParts(of)).map(([flow, parts]) => ({ ...flow, ...parts }));
