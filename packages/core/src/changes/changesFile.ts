/** The shape of a changes file. */
import * as z from 'zod';
import type { Plain } from '../reading/readDocument.ts';
import { flag, text } from '../reading/schema/quantity.ts';
import type { ChangeEntry } from './changeEntry.ts';

/** Most changes in one file. */
export const MOST_CHANGES = 60;

/** A changes file as written. */
export interface ChangesFile {
  readonly notes?: string | undefined;
  readonly changes: readonly ChangeEntry[];
}

const fields = (
  description: string,
  example: Readonly<Record<string, Plain>>,
): z.ZodType<Record<string, unknown>> =>
  z.record(z.string(), z.unknown()).meta({ description, examples: [example] });

/** Fields of a change wherever one is written: what it is called, does, costs and takes. */
export const changeFields: {
  readonly [Field in Exclude<keyof ChangeEntry, 'insteadOf'>]-?: z.ZodType<ChangeEntry[Field]>;
} = {
  name: text(80, 'What the change is called in every result.', 'Wide-core mufflers'),
  set: fields(
    'Fields of the combination by path, with their new values. A sheet is replaced by its new name.',
    {
      'exhaust.muffler.backPressure': '1.3 psi',
    },
  ).optional(),
  scale: fields('Fields multiplied by a plain number, from the value given or assumed.', {
    'heads.intake.flowMultiplier': 1.04,
  }).optional(),
  add: fields('Fields with an amount added to the value given or assumed.', {
    'cam.advance': '2 deg',
  }).optional(),
  cost: z
    .number()
    .min(0)
    .max(1e9)
    .meta({ description: "What it costs, in the shop's money.", examples: [950] })
    .optional(),
  hours: z
    .number()
    .min(0)
    .max(1e6)
    .meta({ description: 'Hours of work.', examples: [1.5] })
    .optional(),
  reversible: flag('Whether it can be taken off again without loss; left out: yes.').optional(),
};

/** Schema of one change. */
export const changeEntry: z.ZodType<ChangeEntry> = z
  .strictObject({
    ...changeFields,
    insteadOf: text(60, 'Name of a group whose changes exclude each other.', 'heads').optional(),
  })
  .meta({ description: 'One thing to buy, grind, port or bolt on.' });

/** Schema of a changes file. */
export const changesFile: z.ZodType<ChangesFile> = z
  .strictObject({
    $schema: text(400, 'Address of this schema, for editors.').optional(),
    notes: text(4000, 'Anything worth remembering.').optional(),
    changes: z
      .array(changeEntry)
      .min(1)
      .max(MOST_CHANGES)
      .meta({ description: 'The changes to weigh against each other.' }),
  })
  .meta({ title: 'Changes', description: 'Changes of one combination, each with its name and its edits.' });
