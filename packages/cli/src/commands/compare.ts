/** `valvetide compare`: combinations, or changes of one, side by side. */
import type { NamedCombination } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { CommandSpec, Flags } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { readChangesFile } from '../input/readChangesFile.ts';
import { forbidInputTwice, readBaseline, readInput } from '../input/readInput.ts';
import type { Io } from '../io.ts';
import { REPORT_OPTION, svgOptions } from '../output/sideFiles.ts';
import { comparisonAnswer, comparisonText, comparisonWarnings } from '../render/comparisonText.ts';
import { comparisonCsv } from '../render/studyCsv.ts';
import { COMPARE_CHARTS, type CompareExtras, compareCharts, compareReport } from '../report/compareReport.ts';
import { fidelityOf, weightingOf } from './readFlags.ts';
import { runStudy, unsettledSpeeds } from './runStudy.ts';
import {
  chooseSpeeds,
  forbidTogether,
  SPEED_OPTIONS,
  STUDY_NOTES,
  STUDY_OPTIONS,
  WEIGHTING_OPTION,
} from './studyFlags.ts';

/** Curves that still fit side by side. */
const MOST_FILES = 12;

export const compareCommand: CommandSpec = {
  name: 'compare',
  summary: 'set combinations, or changes of one, side by side',
  operand: 'FILE ...',
  mostOperands: MOST_FILES,
  examples: [
    ['valvetide compare small.yaml large.yaml', 'the second against the first, speed by speed'],
    ['valvetide compare engine.yaml --changes changes.yaml', 'each change against the engine as it is'],
    ['valvetide compare engine.yaml --changes changes.yaml --band 3500:7000', 'over the band you race in'],
    ['valvetide compare a.yaml b.yaml --rpm 3000:7000:500 --csv', 'every figure, for a spreadsheet'],
  ],
  options: [
    { name: 'changes', value: 'FILE', help: 'changes of the one combination named, each compared with it' },
    ...SPEED_OPTIONS,
    WEIGHTING_OPTION,
    ...STUDY_OPTIONS,
    REPORT_OPTION,
    ...svgOptions(COMPARE_CHARTS),
  ],
  notes: [
    'Everything is set against the first combination, and shown by its correction standard. With --changes the estimates for what the file leaves out are held as they are, so that a change alters what it names and nothing else; two files each have their own.',
    ...STUDY_NOTES,
  ],
  run,
};

type Named = Required<NamedCombination>;

interface Candidates {
  readonly candidates: readonly Named[];
  readonly files: readonly string[];
}

async function run(
  _operand: string | undefined,
  flags: Flags,
  io: Io,
  core: Core,
  operands: readonly string[],
): Promise<ExitCode> {
  forbidTogether(flags, 'json', 'csv');
  forbidTogether(flags, 'quiet', 'verbose');
  const changes = flags.text('changes');
  const { candidates, files } =
    changes === undefined
      ? await fromFiles(operands, flags.on('json'), io, core)
      : await fromChanges(operands, changes, flags.on('json'), io, core);
  const [baseline, ...others] = candidates;
  const { rpm, band, reason } = chooseSpeeds(flags, baseline.combination, core);
  const extras: CompareExtras = {
    note: reason,
    resolvablePct: core.resolvablePct(core.DYNO),
    fuelOctane: candidates.map(({ combination: { fuel } }) =>
      core.octaneIndex(fuel.researchOctane, fuel.motorOctane),
    ),
  };
  return runStudy(flags, io, core, {
    files,
    ask: (control) =>
      core.compare(baseline, others, {
        rpm,
        band,
        weighting: weightingOf(flags),
        fidelity: fidelityOf(flags),
        ...control,
      }),
    view: (comparison) => ({
      result: comparison,
      text: (options) => comparisonText(comparison, reason, options),
      csv: () => comparisonCsv(comparison),
      drawn: {
        page: (units) => compareReport(comparison, extras, units),
        charts: (units) => compareCharts(comparison, extras, units),
      },
      answer: (units) => comparisonAnswer(comparison, units),
      warnings: comparisonWarnings(comparison),
      unsettled: comparison.entries.flatMap(({ name, curve }) =>
        unsettledSpeeds(name, curve?.points ?? null),
      ),
      complete: comparison.complete,
      worthShowing: comparison.entries.some(({ curve }) => curve !== null),
    }),
  });
}

async function fromFiles(
  operands: readonly string[],
  asJson: boolean,
  io: Io,
  core: Core,
): Promise<Candidates> {
  if (operands.length < 2) {
    throw new CommandFailure(EXIT.usage, [
      'compare needs two combination files or more, or one with --changes',
      'see valvetide compare --help',
    ]);
  }
  forbidInputTwice(operands);
  const files: string[] = [];
  const read: Named[] = [];
  for (const operand of operands) {
    const input = await readInput(operand, 'compare', asJson, io, core);
    files.push(...input.files);
    read.push({ name: input.combination.name, combination: input.combination });
  }
  return { candidates: distinct(read, operands), files };
}

/** Two files of one name, a copy with one part changed, go by their file too. */
function distinct(read: readonly Named[], operands: readonly string[]): readonly Named[] {
  const isShared = (name: string): boolean => read.filter((other) => other.name === name).length > 1;
  return read.map(({ name, combination }, i) => {
    if (!isShared(name)) return { name, combination };
    const again = operands.slice(0, i).filter((operand) => operand === operands[i]).length;
    return { name: `${name} (${operands[i]}${again === 0 ? '' : `, ${again + 1}`})`, combination };
  });
}

async function fromChanges(
  operands: readonly string[],
  changes: string,
  asJson: boolean,
  io: Io,
  core: Core,
): Promise<Candidates> {
  if (operands.length !== 1) {
    throw new CommandFailure(EXIT.usage, ['with --changes, compare takes one combination file']);
  }
  forbidInputTwice([operands[0], changes]);
  const input = await readBaseline(operands[0], 'compare', asJson, io, core);
  const read = await readChangesFile(changes, operands[0], input, 'compare', asJson, io, core);
  const { combination } = input.baseline;
  return {
    candidates: [
      { name: combination.name, combination },
      ...read.changes.map(({ change, combination: changed }) => ({
        name: change.name === combination.name ? `${change.name} (change)` : change.name,
        combination: changed,
      })),
    ],
    files: read.files,
  };
}
