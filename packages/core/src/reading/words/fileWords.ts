/** What every field of a combination file means, with an example: what editors show, and the guide. Reading has no use for it. */
import { calibrationWords } from './calibrationWords.ts';
import { camWords } from './camWords.ts';
import { chamberWords } from './chamberWords.ts';
import { engineWords } from './engineWords.ts';
import { exhaustWords } from './exhaustWords.ts';
import type { DescribedPath, FieldWords } from './fieldWords.ts';
import { headsWords } from './headsWords.ts';
import { inductionWords } from './inductionWords.ts';
import { runningWords } from './runningWords.ts';

export const FILE_WORDS: Readonly<Record<DescribedPath, FieldWords>> = {
  $schema: ['Address of this schema, for editors.'],
  name: ['Name of this combination.', 'Tern Street six'],
  job: ['Number or name of the job, for the head of a report.', '1238'],
  customer: ['Whom it is for, for the head of a report.', 'Tern Street Engines'],
  notes: ['Anything worth remembering; stands at the end of a report.'],
  correction: [
    'Standard the shown torque and power refer to: J607 (60 F, 29.92 inHg dry), J1349 (77 F, 29.23 inHg dry) or none (as observed).',
  ],
  pullRate: [
    'By how much the speed of this engine rises in a second of its dyno pulls, for sheets that say nothing of it; below 0 where it falls. It moves no forecast: measured torque is brought to steady running by it.',
    '300 rpm/s',
  ],
  units: ['Units that results of this file are shown in: trade (in, lb-ft, hp) or si. Left out: trade.'],
  ...engineWords,
  ...chamberWords,
  ...headsWords,
  ...camWords,
  ...inductionWords,
  ...exhaustWords,
  ...runningWords,
  ...calibrationWords,
};
