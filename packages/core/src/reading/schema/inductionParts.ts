/** Parts of section `induction` between carburetor or throttle and the runners: spacer, restrictor, inlet duct, divider, balance tubes. */
import * as z from 'zod/mini';
import { count, cylinderList, pure, quantity, word } from './quantity.ts';

export const SPACERS = ['open', 'four-hole'] as const;
export type SpacerKind = (typeof SPACERS)[number];

export const RESTRICTORS = ['plate', 'sonic'] as const;
export type RestrictorKind = (typeof RESTRICTORS)[number];

export interface SpacerSection {
  readonly kind?: SpacerKind | undefined;
  readonly height: number;
  readonly bore?: number | undefined;
  readonly bores?: number | undefined;
  readonly opening?: number | undefined;
  readonly loss?: number | undefined;
}

export interface RestrictorSection {
  readonly kind?: RestrictorKind | undefined;
  readonly bore: number;
  readonly bores?: number | undefined;
  readonly discharge?: number | undefined;
  readonly recovery?: number | undefined;
}

export interface InletDuctSection {
  readonly inside: number;
  readonly length: number;
}

export interface DividerSection {
  readonly opening: number;
  readonly discharge?: number | undefined;
}

export interface RunnerBalanceSection {
  readonly inside: number;
  readonly length?: number | undefined;
  readonly at?: number | undefined;
  readonly pairs?: number[][] | undefined;
}

/** A part that a change may take off again. */
export type OrNone<Section> = 'none' | Section;

/** A part by its sizes, or `none`; the first example is the part's. */
function orNone<Section, In>(
  part: z.ZodMiniType<Section, In>,
  description: string,
  example: Readonly<Record<string, string | number>>,
): z.ZodMiniType<OrNone<Section>, OrNone<In>> {
  const written = Object.entries(example)
    .map(([name, value]) => `${name}: ${value}`)
    .join(', ');
  return z
    .union([z.literal('none'), part], { error: () => `needs 'none', or sizes such as { ${written} }` })
    .check(z.meta({ description, examples: [{ ...example }, 'none'] }));
}

/** The part where there is one. */
export function fitted<Section extends object>(part: OrNone<Section> | undefined): Section | undefined {
  return part === 'none' ? undefined : part;
}

const BORE = { min: '4 mm', max: '200 mm' };
/** Most bores of one part. */
const MOST_BORES = 32;

export const spacer: z.ZodMiniType<OrNone<SpacerSection>> = orNone(
  z.strictObject({
    kind: z.optional(
      word(
        SPACERS,
        'open (one opening, which makes the plenum taller) or four-hole (a hole under each barrel, however many there are).',
      ),
    ),
    height: quantity('length', { min: '2 mm', max: '300 mm' }, 'Height of the spacer.', '1 in'),
    bore: z.optional(quantity('length', BORE, 'Diameter of one hole of a four-hole spacer.', '1.69 in')),
    bores: z.optional(count(1, MOST_BORES, 'Holes of a four-hole spacer, all carburetors together.', 4, 2)),
    opening: z.optional(
      quantity(
        'area',
        { min: '1 cm2', max: '2000 cm2' },
        'Area of an open spacer, all carburetors together.',
        '13 in2',
      ),
    ),
    loss: z.optional(pure(0, 5, 'Dynamic pressures lost in the opening or the holes, beside the jet.', 0.1)),
  }),
  'Spacer between carburetor or throttle body and plenum. Left out: none.',
  { kind: 'four-hole', height: '1 in' },
);

export const restrictor: z.ZodMiniType<OrNone<RestrictorSection>> = orNone(
  z.strictObject({
    kind: z.optional(
      word(
        RESTRICTORS,
        'plate (bores under the carburetor or behind the throttle) or sonic (rounded mouth and diffuser, in front of it).',
      ),
    ),
    bore: quantity('length', BORE, 'Diameter of one bore at its narrowest.', '1.125 in'),
    bores: z.optional(count(1, MOST_BORES, 'Bores, whole engine.', 4, 1)),
    discharge: z.optional(pure(0.3, 1, 'What a bore passes over what its area could.', 0.75)),
    recovery: z.optional(
      quantity(
        'share',
        { min: '0 %', max: '95 %' },
        "Share of the throat's pressure drop that a diffuser behind it gives back.",
        '80 %',
      ),
    ),
  }),
  'Restrictor plate or sonic restrictor in series with carburetor or throttle. With individual-throttles it stands at the inlet of the airbox. Left out: none.',
  { kind: 'plate', bores: 4, bore: '1.125 in' },
);

export const inletDuct: z.ZodMiniType<OrNone<InletDuctSection>> = orNone(
  z.strictObject({
    inside: quantity('length', { min: '10 mm', max: '400 mm' }, 'Inside diameter.', '70 mm'),
    length: quantity('length', { min: '10 mm', max: '3000 mm' }, 'Throttle to plenum.', '250 mm'),
  }),
  'Pipe between the throttle, or carburetor, at its front and the plenum; one to each plenum. Left out: the throttle sits on the plenum.',
  { inside: '70 mm', length: '250 mm' },
);

export const divider: z.ZodMiniType<OrNone<DividerSection>> = orNone(
  z.strictObject({
    opening: quantity(
      'area',
      { min: '0.1 cm2', max: '500 cm2' },
      'Area of the opening cut in the divider, or of the passage between two plenums.',
      '2 in2',
    ),
    discharge: z.optional(pure(0.3, 1, 'What the opening passes over what its area could.', 0.65)),
  }),
  'Opening between two plenums, such as the two planes of a dual-plane manifold. Left out: a whole divider. All cylinders march then.',
  { opening: '2 in2' },
);

export const plenumGroups: z.ZodMiniType<number[][]> = z
  .array(cylinderList('Cylinders that one plenum feeds.', [1, 4, 6, 7]))
  .check(
    z.minLength(1),
    z.maxLength(16),
    z.meta({
      description:
        'Which cylinders each plenum feeds; carburetors, throttles and plenum volume are shared out by cylinders. Left out: one plenum, or with dual-plane two, each for every other cylinder in firing order.',
      examples: [
        [
          [1, 3, 5, 7],
          [2, 4, 6, 8],
        ],
      ],
    }),
  );

export const runnerBalance: z.ZodMiniType<OrNone<RunnerBalanceSection>> = orNone(
  z.strictObject({
    inside: quantity('length', { min: '2 mm', max: '80 mm' }, 'Inside diameter of one tube.', '8 mm'),
    length: z.optional(quantity('length', { min: '10 mm', max: '1500 mm' }, 'Length of one tube.', '110 mm')),
    at: z.optional(
      quantity(
        'length',
        { min: '0 mm', max: '1400 mm' },
        'From the face of the head back to where the tubes join the runners.',
        '60 mm',
      ),
    ),
    pairs: z.optional(
      z.array(cylinderList('Two cylinders that a tube joins.', [1, 2])).check(
        z.minLength(1),
        z.maxLength(16),
        z.meta({
          description:
            'Which runners are joined. Left out: neighbours of each bank, or the two cylinders of a twin.',
          examples: [
            [
              [1, 2],
              [2, 3],
            ],
          ],
        }),
      ),
    ),
  }),
  'Balance tubes between runners, such as those between individual throttles. Left out: none. All cylinders march then.',
  { inside: '8 mm', length: '110 mm' },
);
