/** Options that commands share: which speeds, where and how they are computed, and how they are shown. */
import { type OptionSpec, OUTPUT_OPTIONS } from '../commandSpec.ts';

export const RPM_OPTION: OptionSpec = {
  name: 'rpm',
  value: 'FROM:TO:STEP',
  many: true,
  help: 'speeds to forecast; a list with commas works too',
};

export const FIDELITY_OPTION: OptionSpec = {
  name: 'fidelity',
  value: 'WHICH',
  choices: ['representative', 'all'],
  help: 'compute one cylinder that stands for the others, or all of them',
};

export const UNITS_OPTION: OptionSpec = {
  name: 'units',
  value: 'WHICH',
  choices: ['trade', 'si'],
  help: 'units of the report',
};

/** Which speeds, and which of them count. */
export const SPEED_OPTIONS: readonly OptionSpec[] = [
  RPM_OPTION,
  { name: 'band', value: 'FROM:TO', help: 'speeds that count; without it all of them' },
];

export const WEIGHTING_OPTION: OptionSpec = {
  name: 'weighting',
  value: 'WHICH',
  choices: ['speed', 'time'],
  help: 'what counts equally in a mean: each speed, or each moment of an acceleration',
};

/** Where forecasts are done. */
export const WHERE_OPTIONS: readonly OptionSpec[] = [
  { name: 'workers', value: 'N', help: 'threads to compute on; without it one a core' },
  {
    name: 'queue',
    value: 'URL',
    help: 'leave the forecasts to the machines that work on a queue, redis://HOST:PORT; see valvetide work',
  },
  {
    name: 'wait',
    value: 'SECONDS',
    help: 'how long to wait for a queue whose server went away; without it 600',
  },
];

/** How it is computed and shown. */
export const STUDY_OPTIONS: readonly OptionSpec[] = [
  FIDELITY_OPTION,
  ...WHERE_OPTIONS,
  {
    name: 'journal',
    value: 'FILE',
    help: 'keep each forecast in FILE as it is done, and begin where FILE leaves off',
  },
  { name: 'parts', value: 'FILE', many: true, help: 'forecasts done elsewhere, which are not done again' },
  {
    name: 'shard',
    value: 'I/N',
    help: 'do the I-th of N shares of the forecasts and write them to -o, without a result',
  },
  UNITS_OPTION,
  { name: 'json', help: 'the whole result as JSON' },
  { name: 'csv', help: 'the figures as CSV' },
  ...OUTPUT_OPTIONS,
  { name: 'strict', help: 'end with exit code 5 if a speed did not settle or there is a warning' },
  { name: 'quiet', short: 'q', help: 'the answer line only, no progress' },
  { name: 'verbose', short: 'v', help: 'every column' },
];

export const STUDY_NOTES: readonly string[] = [
  'Without --rpm the speeds come from --band, and without that from the inlet Mach index of the combination; the report says so. The result is the same on any number of workers. Ctrl-C ends the work and shows what is done; pressed twice it shows nothing.',
];
