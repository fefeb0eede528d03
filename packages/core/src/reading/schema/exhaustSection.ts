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

const DIAMETER = { min: '10 mm', max: '250 mm' };

function pipe(name: string, diameter: string, length: string): Record<string, z.ZodMiniType> {
  return {
    diameter: z.optional(quantity('length', DIAMETER, `Outside diameter of the ${name}.`, diameter)),
    wall: z.optional(quantity('length', { min: '0.3 mm', max: '10 mm' }, 'Wall of the tube.', '0.049 in')),
    inside: z.optional(
      quantity(
        'length',
        DIAMETER,
        `Inside diameter of the ${name}, in place of outside and wall.`,
        '1.65 in',
      ),
    ),
    length: z.optional(
      quantity('length', { min: '10 mm', max: '4000 mm' }, `Length of the ${name}.`, length),
    ),
    wallTemperature: z.optional(
      quantity('temperature', { min: '280 K', max: '1300 K' }, 'Wall of the tube at full load.', '800 K'),
    ),
  };
}

const { diameter, wall, inside } = pipe('primary from there on', '1-7/8 in', '');
const step = z
  .strictObject({
    after: quantity(
      'length',
      { min: '10 mm', max: '4000 mm' },
      'Length from the flange to where the tube takes its next size.',
      '12 in',
    ),
    diameter,
    wall,
    inside,
  })
  .check(z.meta({ description: 'A next size of tube.' })) as unknown as z.ZodMiniType<StepSection>;

const primary = z
  .strictObject({
    ...pipe('primary', '1.750 in', '34 in'),
    steps: z.optional(
      z.array(step).check(
        z.minLength(1),
        z.maxLength(4),
        z.meta({
          description: 'Next sizes of the tube, one after another, from the flange on.',
          examples: [[{ after: '12 in', diameter: '1-7/8 in' }]],
        }),
      ),
    ),
    lengths: z.optional(
      z.array(quantity('length', { min: '10 mm', max: '4000 mm' }, 'Length of one primary.', '31 in')).check(
        z.minLength(1),
        z.maxLength(16),
        z.meta({
          description:
            'Length of the primary of each cylinder, in the order of their numbers, in place of one length. All cylinders march then.',
          examples: [['31 in', '34 in', '33 in', '30 in']],
        }),
      ),
    ),
  })
  .check(
    z.meta({
      description: 'Primary tube of one cylinder, flange to merge.',
    }),
  ) as unknown as z.ZodMiniType<PrimarySection>;

const MERGE_VOLUME = { min: '1 cc', max: '20 l' };

const secondary = z
  .strictObject({
    ...pipe('secondary', '2.000 in', '14 in'),
    groups: z.optional(
      z.array(cylinderList('Cylinders whose primaries meet first.', [1, 4])).check(
        z.minLength(1),
        z.maxLength(16),
        z.meta({
          description: 'Which cylinders meet first. Left out: pairs that fire a turn of the crank apart.',
          examples: [
            [
              [1, 4],
              [2, 3],
            ],
          ],
        }),
      ),
    ),
    mergeVolume: z.optional(quantity('volume', MERGE_VOLUME, 'Volume where these primaries meet.', '150 cc')),
  })
  .check(
    z.meta({
      description:
        'A first merge of some primaries each, and the pipe from there to the collector. Left out: the primaries meet in the collector. All cylinders march then.',
    }),
  ) as unknown as z.ZodMiniType<SecondarySection>;

const collector = z
  .strictObject({
    ...pipe('collector', '3.000 in', '12 in'),
    mergeVolume: z.optional(quantity('volume', MERGE_VOLUME, 'Volume where the primaries meet.', '400 cc')),
    exit: z.optional(
      quantity(
        'length',
        DIAMETER,
        'Inside diameter at its far end, where it widens to a megaphone or narrows. Left out: straight.',
        '3.500 in',
      ),
    ),
  })
  .check(
    z.meta({ description: 'Collector pipe after the merge.' }),
  ) as unknown as z.ZodMiniType<CollectorSection>;

const balance = z
  .strictObject({
    ...pipe('balance tube', '2.000 in', '18 in'),
    at: z.optional(
      quantity(
        'length',
        { min: '0 mm', max: '4000 mm' },
        'How far behind the merges it joins the collectors.',
        '10 in',
      ),
    ),
  })
  .check(
    z.meta({
      description:
        'A tube between two collectors; as short as it is wide where the pipes cross. Left out: none. All cylinders march then.',
    }),
  ) as unknown as z.ZodMiniType<BalanceSection>;

const box = z
  .strictObject({
    kind: z.optional(
      word(
        MUFFLER_KINDS,
        'chambered: the pipe opens into a box and another leads out. straight-through: a pipe with holes leads through the box.',
      ),
    ),
    volume: z.optional(
      quantity('volume', { min: '0.1 l', max: '100 l' }, 'Gas in one box, packing taken off.', '6 l'),
    ),
    pipe: z.optional(
      z.strictObject(pipe('tail-pipe, or of the pipe with holes', '2.500 in', '16 in')).check(
        z.meta({
          description: 'Tail-pipe of a box with chambers, or the pipe with holes in a straight one.',
        }),
      ) as unknown as z.ZodMiniType<PipeSection>,
    ),
  })
  .check(
    z.meta({
      description:
        'The muffler of one outlet as a volume with its pipe. Its loss is what `muffler` says; what is left out is estimated.',
    }),
  ) as unknown as z.ZodMiniType<BoxSection>;

const muffler = z
  .strictObject({
    flow: z.optional(quantity('flow', RATING_FLOW, 'Rated flow of one outlet with its muffler.', '600 cfm')),
    at: z.optional(quantity('pressure', RATING_DROP, 'Pressure drop of the rating.', '1.5 inHg')),
    backPressure: z.optional(
      quantity(
        'pressure',
        { min: '0.01 psi', max: '15 psi' },
        'Measured back-pressure, in place of a rating.',
        '1.5 psi',
      ),
    ),
    airflow: z.optional(
      quantity(
        'flow',
        RATING_FLOW,
        'Air the whole engine drew when the back-pressure was measured.',
        '700 cfm',
      ),
    ),
  })
  .check(z.meta({ description: 'A muffler by its rating or its back-pressure.' }));

export const exhaustSection: z.ZodMiniType<ExhaustSection> = z
  .strictObject({
    style: z.optional(word(EXHAUST_STYLES, 'headers (tubes) or cast manifolds.')),
    primary: z.optional(primary),
    secondary: z.optional(secondary),
    collector: z.optional(
      z
        .union([z.literal('none'), collector], {
          error: () => "needs 'none' (open primaries) or the collector's sizes",
        })
        .check(
          z.meta({
            description: "Collector; 'none' for primaries that end in the open.",
            examples: [{ diameter: '3.000 in', length: '12 in' }, 'none'],
          }),
        ),
    ),
    groups: z.optional(
      z.array(cylinderList('Cylinders that share one collector.', [1, 3, 5, 7])).check(
        z.minLength(1),
        z.maxLength(16),
        z.meta({
          description: 'Which cylinders share a collector.',
          examples: [
            [
              [1, 3, 5, 7],
              [2, 4, 6, 8],
            ],
          ],
        }),
      ),
    ),
    balance: z.optional(balance),
    muffler: z.optional(
      z
        .union([z.enum(MUFFLERS), muffler], {
          error: () =>
            "needs { backPressure: 1.5 psi }, a rating such as { flow: 600 cfm }, or 'open', 'straight-through' or 'chambered'",
        })
        .check(
          z.meta({
            description:
              'Muffler: its measured back-pressure, or the rated flow of each outlet; where neither is known, open (no muffler), straight-through (1.0 psi at rated speed) or chambered (2.5 psi, a full system).',
            examples: [
              { backPressure: '1.5 psi', airflow: '700 cfm' },
              { flow: '600 cfm', at: '1.5 inHg' },
              'open',
              'straight-through',
              'chambered',
            ],
          }),
        ),
    ),
    box: z.optional(box),
    returned: z.optional(
      quantity(
        'share',
        { min: '0 %', max: '100 %' },
        'Of the gas that flows back in at the outlet, the share that is exhaust; the rest is air from around it.',
        '50 %',
      ),
    ),
  })
  .check(z.meta({ description: 'From the face of the head to the open air.' }));
