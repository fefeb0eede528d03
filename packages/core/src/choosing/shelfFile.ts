/** The shape of a shelf file. */
import * as z from 'zod';
import type { ChangeEntry } from '../changes/changeEntry.ts';
import { changeFields } from '../changes/changesFile.ts';
import { flag, quantity, text, word } from '../reading/schema/quantity.ts';

/** Most groups and ranges on one shelf, and most alternatives of one of them. */
const MOST_GROUPS = 40;
const MOST_ALTERNATIVES = 40;

/** A group as written. */
interface GroupEntry {
  readonly name: string;
  readonly mayStay?: boolean | undefined;
  readonly choices: readonly Omit<ChangeEntry, 'insteadOf'>[];
}

/** A range of a size as written. */
export interface RangeEntry {
  readonly name: string;
  readonly field: string;
  readonly from: number | string;
  readonly to: number | string;
  readonly step: number | string;
  readonly mayStay?: boolean | undefined;
  readonly cost?: number | undefined;
  readonly hours?: number | undefined;
}

interface LimitsEntry {
  readonly cost?: number | undefined;
  readonly hours?: number | undefined;
  readonly octane?: number | undefined;
  readonly pistonSpeed?: string | undefined;
  readonly largest?: Readonly<Record<string, number | string>> | undefined;
}

interface AimEntry {
  readonly from: number;
  readonly to: number;
  readonly of?: 'power' | 'torque' | undefined;
  readonly weighting?: 'speed' | 'time' | undefined;
  readonly weight?: number | undefined;
}

/** A shelf file as written. */
export interface ShelfFile {
  readonly groups?: readonly GroupEntry[] | undefined;
  readonly ranges?: readonly RangeEntry[] | undefined;
  readonly limits?: LimitsEntry | undefined;
  readonly aims?: readonly AimEntry[] | undefined;
}

const money = (description: string): z.ZodOptional<z.ZodNumber> =>
  z
    .number()
    .min(0)
    .max(1e9)
    .meta({ description, examples: [950] })
    .optional();
const hours = (description: string): z.ZodOptional<z.ZodNumber> =>
  z
    .number()
    .min(0)
    .max(1e6)
    .meta({ description, examples: [4] })
    .optional();
const stay = flag('Whether the engine may stay as it is here; left out: yes.').optional();
const size = (description: string, example: string): z.ZodType<number | string> =>
  z.union([z.number(), z.string().min(1).max(60)]).meta({ description, examples: [example] });
const speed = (description: string): z.ZodType<number, string> =>
  quantity('speed', { min: '200 rpm', max: '30000 rpm' }, description, '4500 rpm');

const group = z
  .strictObject({
    name: text(60, 'What it is a choice of.', 'Cam'),
    mayStay: stay,
    choices: z
      .array(z.strictObject(changeFields))
      .min(1)
      .max(MOST_ALTERNATIVES)
      .meta({ description: 'The alternatives, each with what it alters, costs and takes.' }),
  })
  .meta({ description: 'Parts for one place: a build has one of them, or what the engine has.' });

const range = z
  .strictObject({
    name: text(60, 'What is varied.', 'Primary length'),
    field: text(120, 'Field of the combination.', 'exhaust.primary.length'),
    from: size('First value.', '26 in'),
    to: size('Last value.', '36 in'),
    step: size('From one value to the next.', '2 in'),
    mayStay: stay,
    cost: money("What any value but the engine's own costs."),
    hours: hours("Hours of work for any value but the engine's own."),
  })
  .meta({ description: 'A size, from, to and in which steps.' });

const limits = z
  .strictObject({
    cost: money("Most that a build may cost, in the shop's money."),
    hours: hours('Most hours that a build may take.'),
    octane: z
      .number()
      .min(60)
      .max(130)
      .meta({ description: 'Octane of the fuel in the tank, (R + M) / 2.', examples: [92] })
      .optional(),
    pistonSpeed: z
      .string()
      .regex(/^\s*\d+(\.\d+)?\s*(m\/s|ft\/min)\s*$/u, 'needs a speed such as 22 m/s or 4300 ft/min')
      .meta({ description: 'Highest mean piston speed at the last speed that counts.', examples: ['22 m/s'] })
      .optional(),
    largest: z
      .record(z.string(), z.union([z.number(), z.string()]))
      .meta({
        description: 'Largest value of fields, as rules ask for.',
        examples: [{ 'induction.carburetor.rating': '650 cfm' }],
      })
      .optional(),
  })
  .meta({ description: 'What a build must keep.' });

const aim = z
  .strictObject({
    from: speed('First speed that counts.'),
    to: speed('Last speed that counts.'),
    of: word(['power', 'torque'], 'What is averaged; left out: power.').optional(),
    weighting: word(['speed', 'time'], 'What counts equally in the mean; left out: speed.').optional(),
    weight: z
      .number()
      .min(0.001)
      .max(1000)
      .meta({ description: 'How much it counts beside other aims; left out: 1.', examples: [2] })
      .optional(),
  })
  .meta({ description: 'Mean power or torque over a band.' });

/** Schema of a shelf file. */
export const shelfFile: z.ZodType<ShelfFile> = z
  .strictObject({
    $schema: text(400, 'Address of this schema, for editors.').optional(),
    notes: text(4000, 'Anything worth remembering.').optional(),
    groups: z
      .array(group)
      .max(MOST_GROUPS)
      .meta({ description: 'Parts, by the place they are for.' })
      .optional(),
    ranges: z
      .array(range)
      .max(MOST_GROUPS)
      .meta({ description: 'Sizes that may be had in steps.' })
      .optional(),
    limits: limits.optional(),
    aims: z
      .array(aim)
      .max(8)
      .meta({ description: 'What for; left out: mean power over the band.' })
      .optional(),
  })
  .meta({
    title: 'Shelf',
    description: 'What may be fitted to a combination, what may be spent, and what for.',
  });
