/** The shape of a changes file. */
import * as z from 'zod/mini';
import type { Plain } from '../reading/combinationDocument.ts';
import { explained } from '../reading/schema/explained.ts';
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
): z.ZodMiniType<Record<string, unknown>> =>
  z.record(z.string(), z.unknown()).check(z.meta({ description, examples: [example] }));

/** Fields of a change wherever one is written: what it is called, does, costs and takes. */
export const changeFields: {
  readonly [Field in Exclude<keyof ChangeEntry, 'insteadOf'>]-?: z.ZodMiniType<ChangeEntry[Field]>;
} = {
  name: explained(text(80), 'What the change is called in every result.', 'Wide-core mufflers'),
  set: z.optional(
    fields('Fields of the combination by path, with their new values. A sheet is replaced by its new name.', {
      'exhaust.muffler.backPressure': '1.3 psi',
    }),
  ),
  scale: z.optional(
    fields('Fields multiplied by a plain number, from the value given or assumed.', {
      'heads.intake.flowMultiplier': 1.04,
    }),
  ),
  add: z.optional(
    fields('Fields with an amount added to the value given or assumed.', {
      'cam.advance': '2 deg',
    }),
  ),
  cost: z.optional(
    z
      .number()
      .check(
        z.gte(0),
        z.lte(1e9),
        z.meta({ description: "What it costs, in the shop's money.", examples: [950] }),
      ),
  ),
  hours: z.optional(
    z.number().check(z.gte(0), z.lte(1e6), z.meta({ description: 'Hours of work.', examples: [1.5] })),
  ),
  reversible: z.optional(
    explained(flag(), 'Whether it can be taken off again without loss; left out: yes.', true, false),
  ),
};

/** Schema of one change. */
export const changeEntry: z.ZodMiniType<ChangeEntry> = z
  .strictObject({
    ...changeFields,
    insteadOf: z.optional(explained(text(60), 'Name of a group whose changes exclude each other.', 'heads')),
  })
  .check(z.meta({ description: 'One thing to buy, grind, port or bolt on.' }));

/** Schema of a changes file. */
export const changesFile: z.ZodMiniType<ChangesFile> = z
  .strictObject({
    $schema: z.optional(explained(text(400), 'Address of this schema, for editors.')),
    notes: z.optional(explained(text(4000), 'Anything worth remembering.')),
    changes: z
      .array(changeEntry)
      .check(
        z.minLength(1),
        z.maxLength(MOST_CHANGES),
        z.meta({ description: 'The changes to weigh against each other.' }),
      ),
  })
  .check(
    z.meta({
      title: 'Changes',
      description: 'Changes of one combination, each with its name and its edits.',
    }),
  );
