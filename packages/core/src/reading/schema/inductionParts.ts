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

/** A part by its sizes, or `none`. */
function orNone<Section, In>(
  part: z.ZodMiniType<Section, In>,
  example: Readonly<Record<string, string | number>>,
): z.ZodMiniType<OrNone<Section>, OrNone<In>> {
  const written = Object.entries(example)
    .map(([name, value]) => `${name}: ${value}`)
    .join(', ');
  return z.union([z.literal('none'), part], { error: () => `needs 'none', or sizes such as { ${written} }` });
}

/** The part where there is one. */
export function fitted<Section extends object>(part: OrNone<Section> | undefined): Section | undefined {
  return part === 'none' ? undefined : part;
}

const BORE = '4 mm to 200 mm';
/** Most bores of one part. */
const MOST_BORES = 32;

export const spacer: z.ZodMiniType<OrNone<SpacerSection>> = orNone(
  z.strictObject({
    kind: z.optional(word(SPACERS)),
    height: quantity('length', '2 mm to 300 mm'),
    bore: z.optional(quantity('length', BORE)),
    bores: z.optional(count(1, MOST_BORES)),
    opening: z.optional(quantity('area', '1 cm2 to 2000 cm2')),
    loss: z.optional(pure(0, 5)),
  }),
  { kind: 'four-hole', height: '1 in' },
);

export const restrictor: z.ZodMiniType<OrNone<RestrictorSection>> = orNone(
  z.strictObject({
    kind: z.optional(word(RESTRICTORS)),
    bore: quantity('length', BORE),
    bores: z.optional(count(1, MOST_BORES)),
    discharge: z.optional(pure(0.3, 1)),
    recovery: z.optional(quantity('share', '0 % to 95 %')),
  }),
  { kind: 'plate', bores: 4, bore: '1.125 in' },
);

export const inletDuct: z.ZodMiniType<OrNone<InletDuctSection>> = orNone(
  z.strictObject({
    inside: quantity('length', '10 mm to 400 mm'),
    length: quantity('length', '10 mm to 3000 mm'),
  }),
  { inside: '70 mm', length: '250 mm' },
);

export const divider: z.ZodMiniType<OrNone<DividerSection>> = orNone(
  z.strictObject({
    opening: quantity('area', '0.1 cm2 to 500 cm2'),
    discharge: z.optional(pure(0.3, 1)),
  }),
  { opening: '2 in2' },
);

export const plenumGroups: z.ZodMiniType<number[][]> = z
  .array(cylinderList())
  .check(z.minLength(1), z.maxLength(16));

export const runnerBalance: z.ZodMiniType<OrNone<RunnerBalanceSection>> = orNone(
  z.strictObject({
    inside: quantity('length', '2 mm to 80 mm'),
    length: z.optional(quantity('length', '10 mm to 1500 mm')),
    at: z.optional(quantity('length', '0 mm to 1400 mm')),
    pairs: z.optional(z.array(cylinderList()).check(z.minLength(1), z.maxLength(16))),
  }),
  { inside: '8 mm', length: '110 mm' },
);
