/** Section `exhaust`: from the face of the head to the open air. */
import * as z from 'zod/mini';
import { RATING_DROP, RATING_FLOW } from './inductionSection.ts';
import { cylinderList, quantity, word } from './quantity.ts';

export const EXHAUST_STYLES = ['headers', 'cast'] as const;
export type ExhaustStyle = (typeof EXHAUST_STYLES)[number];

/** Mufflers by word where nothing was measured: none at all, one the gas sees through, or one it must turn in. */
export const MUFFLERS = ['open', 'straight-through', 'chambered'] as const;
export type MufflerWord = (typeof MUFFLERS)[number];

/** A round tube by its outside and wall, or by its inside. */
export interface PipeSection {
  readonly diameter?: number | undefined;
  readonly wall?: number | undefined;
  readonly inside?: number | undefined;
  readonly length?: number | undefined;
  readonly wallTemperature?: number | undefined;
}

/** A primary that grows or shrinks on its way. */
export interface StepSection extends Pick<PipeSection, 'diameter' | 'wall' | 'inside'> {
  readonly after: number;
}

export interface PrimarySection extends PipeSection {
  readonly bends?: number | undefined;
  readonly steps?: StepSection[] | undefined;
  readonly lengths?: number[] | undefined;
}

export interface SecondarySection extends PipeSection {
  readonly groups?: number[][] | undefined;
  readonly mergeVolume?: number | undefined;
}

export interface CollectorSection extends PipeSection {
  readonly mergeVolume?: number | undefined;
  readonly exit?: number | undefined;
}

export interface BalanceSection extends PipeSection {
  readonly at?: number | undefined;
}

/** How a muffler is built: chambers that the gas turns in, or a pipe with holes through a box. */
export const MUFFLER_KINDS = ['chambered', 'straight-through'] as const;
export type MufflerKind = (typeof MUFFLER_KINDS)[number];

/** What a muffler is beside its loss. */
export interface BoxSection {
  readonly kind?: MufflerKind | undefined;
  readonly backPressure?: number | undefined;
  readonly volume?: number | undefined;
  readonly pipe?: PipeSection | undefined;
}

export interface MufflerSection {
  readonly flow?: number | undefined;
  readonly at?: number | undefined;
  readonly backPressure?: number | undefined;
  readonly airflow?: number | undefined;
}

export interface ExhaustSection {
  readonly style?: ExhaustStyle | undefined;
  readonly primary?: PrimarySection | undefined;
  readonly secondary?: SecondarySection | undefined;
  readonly collector?: 'none' | CollectorSection | undefined;
  readonly groups?: number[][] | undefined;
  readonly balance?: BalanceSection | undefined;
  readonly muffler?: MufflerWord | MufflerSection | undefined;
  readonly box?: BoxSection | undefined;
  readonly returned?: number | undefined;
}

const DIAMETER = '5 mm to 250 mm';

/** What every tube may say of itself. */
const PIPE = {
  diameter: z.optional(quantity('length', DIAMETER)),
  wall: z.optional(quantity('length', '0.3 mm to 10 mm')),
  inside: z.optional(quantity('length', DIAMETER)),
  length: z.optional(quantity('length', '10 mm to 4000 mm')),
  wallTemperature: z.optional(quantity('temperature', '280 K to 1300 K')),
};

const { diameter, wall, inside } = PIPE;
const step = z.strictObject({
  after: quantity('length', '10 mm to 4000 mm'),
  diameter,
  wall,
  inside,
});

const primary = z.strictObject({
  ...PIPE,
  bends: z.optional(quantity('angle', '0 deg to 900 deg')),
  steps: z.optional(z.array(step).check(z.minLength(1), z.maxLength(4))),
  lengths: z.optional(z.array(quantity('length', '10 mm to 4000 mm')).check(z.minLength(1), z.maxLength(16))),
});

const MERGE_VOLUME = '1 cc to 20 l';

const secondary = z.strictObject({
  ...PIPE,
  groups: z.optional(z.array(cylinderList()).check(z.minLength(1), z.maxLength(16))),
  mergeVolume: z.optional(quantity('volume', MERGE_VOLUME)),
});

const collector = z.strictObject({
  ...PIPE,
  mergeVolume: z.optional(quantity('volume', MERGE_VOLUME)),
  exit: z.optional(quantity('length', DIAMETER)),
});

const balance = z.strictObject({
  ...PIPE,
  at: z.optional(quantity('length', '0 mm to 4000 mm')),
});

const BACK_PRESSURE = '0.01 psi to 15 psi';

const box = z.strictObject({
  kind: z.optional(word(MUFFLER_KINDS)),
  backPressure: z.optional(quantity('pressure', BACK_PRESSURE)),
  volume: z.optional(quantity('volume', '0.1 l to 100 l')),
  pipe: z.optional(z.strictObject(PIPE)),
});

const muffler = z.strictObject({
  flow: z.optional(quantity('flow', RATING_FLOW)),
  at: z.optional(quantity('pressure', RATING_DROP)),
  backPressure: z.optional(quantity('pressure', BACK_PRESSURE)),
  airflow: z.optional(quantity('flow', RATING_FLOW)),
});

export const exhaustSection: z.ZodMiniType<ExhaustSection> = z.strictObject({
  style: z.optional(word(EXHAUST_STYLES)),
  primary: z.optional(primary),
  secondary: z.optional(secondary),
  collector: z.optional(
    z.union([z.literal('none'), collector], {
      error: () =>
        "needs 'none' (open primaries) or the collector's sizes, such as { diameter: 3.000 in, length: 14 in }",
    }),
  ),
  groups: z.optional(z.array(cylinderList()).check(z.minLength(1), z.maxLength(16))),
  balance: z.optional(balance),
  muffler: z.optional(
    z.union([z.enum(MUFFLERS), muffler], {
      error: () =>
        "needs { backPressure: 1.5 psi }, a rating such as { flow: 600 cfm }, or 'open', 'straight-through' or 'chambered'",
    }),
  ),
  box: z.optional(box),
  returned: z.optional(quantity('share', '0 % to 100 %')),
});
