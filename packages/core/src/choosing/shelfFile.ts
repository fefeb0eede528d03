/** The shape of a shelf file. */
import * as z from 'zod/mini';
import type { ChangeEntry } from '../changes/changeEntry.ts';
import { changeFields } from '../changes/changesFile.ts';
import { explained } from '../reading/schema/explained.ts';
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
  readonly largest?: Readonly<Record<string, number | string>> | undefined;
}

interface AimEntry {
  readonly from: number;
  readonly to: number;
  readonly of?: 'power' | 'torque' | 'time' | undefined;
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

const money = (description: string): z.ZodMiniOptional<z.ZodMiniNumber> =>
  z.optional(z.number().check(z.gte(0), z.lte(1e9), z.meta({ description, examples: [950] })));
const hours = (description: string): z.ZodMiniOptional<z.ZodMiniNumber> =>
  z.optional(z.number().check(z.gte(0), z.lte(1e6), z.meta({ description, examples: [4] })));
const stay = z.optional(
  explained(flag(), 'Whether the engine may stay as it is here; left out: yes.', true, false),
);
const size = (description: string, example: string): z.ZodMiniType<number | string> =>
  z
    .union([z.number(), z.string().check(z.minLength(1), z.maxLength(60))])
    .check(z.meta({ description, examples: [example] }));
const speed = (description: string): z.ZodMiniType<number, string> =>
  explained(quantity('speed', '200 rpm to 30000 rpm'), description, '4500 rpm');

const group = z
  .strictObject({
    name: explained(text(60), 'What it is a choice of.', 'Cam'),
    mayStay: stay,
    choices: z
      .array(z.strictObject(changeFields))
      .check(
        z.minLength(1),
        z.maxLength(MOST_ALTERNATIVES),
        z.meta({ description: 'The alternatives, each with what it alters, costs and takes.' }),
      ),
  })
  .check(z.meta({ description: 'Parts for one place: a build has one of them, or what the engine has.' }));

const range = z
  .strictObject({
    name: explained(text(60), 'What is varied.', 'Primary length'),
    field: explained(text(120), 'Field of the combination.', 'exhaust.primary.length'),
    from: size('First value.', '26 in'),
    to: size('Last value.', '36 in'),
    step: size('From one value to the next.', '2 in'),
    mayStay: stay,
    cost: money("What any value but the engine's own costs."),
    hours: hours("Hours of work for any value but the engine's own."),
  })
  .check(z.meta({ description: 'A size, from, to and in which steps.' }));

const limits = z
  .strictObject({
    cost: money("Most that a build may cost, in the shop's money."),
    hours: hours('Most hours that a build may take.'),
    largest: z.optional(
      z.record(z.string(), z.union([z.number(), z.string()])).check(
        z.meta({
          description: 'Largest value of fields, as rules ask for.',
          examples: [{ 'induction.carburetor.rating': '650 cfm' }],
        }),
      ),
    ),
  })
  .check(z.meta({ description: 'What a build must keep.' }));

const aim = z
  .strictObject({
    from: speed('First speed that counts.'),
    to: speed('Last speed that counts.'),
    of: z.optional(
      explained(
        word(['power', 'torque', 'time']),
        'What is averaged; time: how soon the engine brings a constant load through the band; left out: power.',
        'power',
      ),
    ),
    weighting: z.optional(
      explained(word(['speed', 'time']), 'What counts equally in the mean; left out: speed.', 'speed'),
    ),
    weight: z.optional(
      z
        .number()
        .check(
          z.gte(0.001),
          z.lte(1000),
          z.meta({ description: 'How much it counts beside other aims; left out: 1.', examples: [2] }),
        ),
    ),
  })
  .check(z.meta({ description: 'Mean power or torque over a band, or the time through it.' }));

/** Schema of a shelf file. */
export const shelfFile: z.ZodMiniType<ShelfFile> = z
  .strictObject({
    $schema: z.optional(explained(text(400), 'Address of this schema, for editors.')),
    notes: z.optional(explained(text(4000), 'Anything worth remembering.')),
    groups: z.optional(
      z
        .array(group)
        .check(z.maxLength(MOST_GROUPS), z.meta({ description: 'Parts, by the place they are for.' })),
    ),
    ranges: z.optional(
      z
        .array(range)
        .check(z.maxLength(MOST_GROUPS), z.meta({ description: 'Sizes that may be had in steps.' })),
    ),
    limits: z.optional(limits),
    aims: z.optional(
      z
        .array(aim)
        .check(z.maxLength(8), z.meta({ description: 'What for; left out: mean power over the band.' })),
    ),
  })
  .check(
    z.meta({
      title: 'Shelf',
      description: 'What may be fitted to a combination, what may be spent, and what for.',
    }),
  );
