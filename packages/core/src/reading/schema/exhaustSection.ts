/** Section `exhaust`: from the face of the head to the open air. */
import * as z from 'zod';
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

export interface CollectorSection extends PipeSection {
  readonly mergeVolume?: number | undefined;
}

export interface MufflerSection {
  readonly flow?: number | undefined;
  readonly at?: number | undefined;
  readonly backPressure?: number | undefined;
  readonly airflow?: number | undefined;
}

export interface ExhaustSection {
  readonly style?: ExhaustStyle | undefined;
  readonly primary?: PipeSection | undefined;
  readonly collector?: 'none' | CollectorSection | undefined;
  readonly groups?: number[][] | undefined;
  readonly muffler?: MufflerWord | MufflerSection | undefined;
  readonly returned?: number | undefined;
}

const DIAMETER = { min: '10 mm', max: '250 mm' };

function pipe(name: string, diameter: string, length: string): z.ZodRawShape {
  return {
    diameter: quantity('length', DIAMETER, `Outside diameter of the ${name}.`, diameter).optional(),
    wall: quantity('length', { min: '0.3 mm', max: '10 mm' }, 'Wall of the tube.', '0.049 in').optional(),
    inside: quantity(
      'length',
      DIAMETER,
      `Inside diameter of the ${name}, in place of outside and wall.`,
      '1.65 in',
    ).optional(),
    length: quantity('length', { min: '10 mm', max: '4000 mm' }, `Length of the ${name}.`, length).optional(),
    wallTemperature: quantity(
      'temperature',
      { min: '280 K', max: '1300 K' },
      'Wall of the tube at full load.',
      '800 K',
    ).optional(),
  };
}

const primary = z.strictObject(pipe('primary', '1.750 in', '34 in')).meta({
  description: 'Primary tube of one cylinder, flange to merge.',
}) as unknown as z.ZodType<PipeSection>;

const collector = z
  .strictObject({
    ...pipe('collector', '3.000 in', '12 in'),
    mergeVolume: quantity(
      'volume',
      { min: '1 cc', max: '20 l' },
      'Volume where the primaries meet.',
      '400 cc',
    ).optional(),
  })
  .meta({ description: 'Collector pipe after the merge.' }) as unknown as z.ZodType<CollectorSection>;

const muffler = z
  .strictObject({
    flow: quantity('flow', RATING_FLOW, 'Rated flow of one outlet with its muffler.', '600 cfm').optional(),
    at: quantity('pressure', RATING_DROP, 'Pressure drop of the rating.', '1.5 inHg').optional(),
    backPressure: quantity(
      'pressure',
      { min: '0.01 psi', max: '15 psi' },
      'Measured back-pressure, in place of a rating.',
      '1.5 psi',
    ).optional(),
    airflow: quantity(
      'flow',
      RATING_FLOW,
      'Air the whole engine drew when the back-pressure was measured.',
      '700 cfm',
    ).optional(),
  })
  .meta({ description: 'A muffler by its rating or its back-pressure.' });

export const exhaustSection: z.ZodType<ExhaustSection> = z
  .strictObject({
    style: word(EXHAUST_STYLES, 'headers (tubes) or cast manifolds.').optional(),
    primary: primary.optional(),
    collector: z
      .union([z.literal('none'), collector], {
        error: () => "needs 'none' (open primaries) or the collector's sizes",
      })
      .meta({
        description: "Collector; 'none' for primaries that end in the open.",
        examples: [{ diameter: '3.000 in', length: '12 in' }, 'none'],
      })
      .optional(),
    groups: z
      .array(cylinderList('Cylinders that share one collector.', [1, 3, 5, 7]))
      .min(1)
      .max(16)
      .meta({
        description: 'Which cylinders share a collector.',
        examples: [
          [
            [1, 3, 5, 7],
            [2, 4, 6, 8],
          ],
        ],
      })
      .optional(),
    muffler: z
      .union([z.enum(MUFFLERS), muffler], {
        error: () =>
          "needs { backPressure: 1.5 psi }, a rating such as { flow: 600 cfm }, or 'open', 'straight-through' or 'chambered'",
      })
      .meta({
        description:
          'Muffler: its measured back-pressure, or the rated flow of each outlet; where neither is known, open (no muffler), straight-through (1.0 psi at rated speed) or chambered (2.5 psi, a full system).',
        examples: [
          { backPressure: '1.5 psi', airflow: '700 cfm' },
          { flow: '600 cfm', at: '1.5 inHg' },
          'open',
          'straight-through',
          'chambered',
        ],
      })
      .optional(),
    returned: quantity(
      'share',
      { min: '0 %', max: '100 %' },
      'Of the gas that flows back in at the outlet, the share that is exhaust; the rest is air from around it.',
      '50 %',
    ).optional(),
  })
  .meta({ description: 'From the face of the head to the open air.' });
