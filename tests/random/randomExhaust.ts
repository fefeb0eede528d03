/** The exhaust of a random engine: primaries in steps and of their own lengths, merges in one stage or two, cones, a balance tube, mufflers. */
import fc from 'fast-check';
import { airOf, type Base, between, clamp, factor, maybe, seldom, sweptOf } from './draws.ts';
import { cc, type Field, mm, type Section, size } from './sizes.ts';

/** Usual inside diameter of a primary [mm]. */
const insideOf = (of: Base): number => 0.42 * of.bore;

const primary = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({
      inside: factor(1.7),
      length: factor(5),
      steps: seldom(
        fc.array(fc.record({ after: between(0.1, 0.9), wider: between(0.9, 1.3) }), {
          minLength: 1,
          maxLength: 2,
        }),
      ),
      own:
        of.cylinders === 1
          ? fc.constant(undefined)
          : seldom(fc.array(factor(1.5), { minLength: of.cylinders, maxLength: of.cylinders })),
    })
    .map(({ inside, length, steps, own }) => {
      const longest = clamp(length * 600, 20, 3000);
      const lengths = own?.map((times) => clamp(times * longest, 20, 4000));
      const shortest = Math.min(...(lengths ?? [longest]));
      const bore = clamp(inside * insideOf(of), 12, 200);
      // Rising along the tube, the first 20 mm behind the flange, and as far from the next.
      const after = [...new Set((steps ?? []).map((step) => Math.round(step.after * shortest)))].sort(
        (a, b) => a - b,
      );
      const placed = after.filter(
        (at, i) => at >= 20 && at <= shortest - 25 && (i === 0 || at - after[i - 1] > 25),
      );
      return {
        inside: mm(bore),
        length: lengths === undefined ? mm(longest) : undefined,
        lengths: lengths?.map(mm),
        steps:
          placed.length === 0
            ? undefined
            : placed.map(
                (at, i): Section => ({
                  after: mm(at),
                  inside: mm(clamp(bore * (steps?.[i].wider ?? 1) ** (i + 1), 12, 240)),
                }),
              ),
      };
    });

const collector = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({ merge: factor(6), inside: factor(1.6), length: factor(5), exit: seldom(between(0.7, 2.5)) })
    .map(({ merge, inside, length, exit }) => {
      const bore = clamp(inside * insideOf(of) * 1.6, 10, 250);
      return {
        mergeVolume: cc(clamp(merge * 0.4 * sweptOf(of), 5, 20_000)),
        inside: mm(bore),
        length: mm(clamp(length * 300, 10, 4000)),
        exit: exit === undefined ? undefined : mm(clamp(exit * bore, 10, 250)),
      };
    });

/** There one time in four. */
const sometimes = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.option(value, { nil: undefined, freq: 3 });

/** Pairs that meet first, two collectors with a tube between them, or neither. */
const merges = (of: Base): fc.Arbitrary<Section> => {
  const even = of.cylinders % 2 === 0 && of.cylinders >= 4;
  const sizes = fc.record({ inside: factor(1.5), length: factor(4) });
  return fc
    .record({
      secondary: even ? sometimes(sizes) : fc.constant(undefined),
      balance: even ? sometimes(sizes) : fc.constant(undefined),
    })
    .map(({ secondary, balance }) => {
      const all = Array.from({ length: of.cylinders }, (_, i) => i + 1);
      const half = of.cylinders / 2;
      return {
        groups: balance === undefined ? undefined : [all.slice(0, half), all.slice(half)],
        secondary:
          secondary === undefined
            ? undefined
            : {
                inside: mm(clamp(secondary.inside * insideOf(of) * 1.2, 10, 250)),
                length: mm(clamp(secondary.length * 350, 10, 4000)),
              },
        balance:
          balance === undefined
            ? undefined
            : {
                inside: mm(clamp(balance.inside * insideOf(of), 10, 250)),
                length: mm(clamp(balance.length * 250, 10, 4000)),
              },
      };
    });
};

/** A muffler by its word, its rated flow or its back-pressure, with a box of its own or the estimates'. */
const muffler = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({
      said: fc.oneof(
        maybe(fc.constantFrom('open', 'straight-through', 'chambered')),
        factor(4).map((times): Section => ({ flow: size('flow', clamp(times * 1.5 * airOf(of), 0.1, 150)) })),
        between(0.3, 30).map((kPa): Section => ({ backPressure: size('pressure', kPa) })),
      ),
      box: seldom(
        fc.record({
          kind: maybe(fc.constantFrom('chambered', 'straight-through')),
          volume: maybe(factor(5)),
          pipe: maybe(fc.record({ inside: factor(1.5), length: factor(4) })),
        }),
      ),
    })
    .map(({ said, box }) => ({
      muffler: said,
      box:
        box === undefined || said === undefined || said === 'open'
          ? undefined
          : {
              kind: typeof said === 'string' ? undefined : box.kind,
              volume:
                box.volume === undefined ? undefined : cc(clamp(box.volume * 5 * sweptOf(of), 100, 100_000)),
              pipe:
                box.pipe === undefined
                  ? undefined
                  : {
                      inside: mm(clamp(box.pipe.inside * insideOf(of) * 1.5, 10, 250)),
                      length: mm(clamp(box.pipe.length * 400, 10, 4000)),
                    },
            },
    }));

export const exhaust = (of: Base): fc.Arbitrary<Section> =>
  fc
    .record({
      style: maybe(fc.constantFrom('headers', 'cast')),
      primary: maybe(primary(of)),
      collector: fc.oneof<fc.Arbitrary<Field>[]>(fc.constant(undefined), fc.constant('none'), collector(of)),
      merges: merges(of),
      ends: muffler(of),
      returned: seldom(between(0, 100)),
    })
    .map(({ style, primary: tube, collector: behind, merges: joined, ends, returned }) => ({
      style,
      primary: tube,
      collector: behind,
      ...(behind === 'none' ? {} : joined),
      ...ends,
      returned: returned === undefined ? undefined : size('share', returned),
    }));
