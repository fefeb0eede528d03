/** `valvetide compare`: combinations, or changes of one, side by side. */

import type {
  Baseline,
  Change,
  ComparisonResult,
  NamedCombination,
  Problem,
  Result,
  SheetSource,
  StudyControl,
} from '@valvetide/core';
import { misuse, usageFailure } from '../commandFailure.ts';
import type { CommandSpec, Invocation } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import type { ExitCode } from '../exitCodes.ts';
import { readChangesFile } from '../input/readChangesFile.ts';
import { forbidInputTwice, readBaseline, readInput, type TextInput } from '../input/readInput.ts';
import { pageOptions } from '../output/sideFiles.ts';
import { type BestGain, bestGainLine } from '../render/bestGain.ts';
import { comparisonAnswer, comparisonText, comparisonWarnings } from '../render/comparisonText.ts';
import { comparisonCsv } from '../render/studyCsv.ts';
import { type About, aboutOf } from '../report/about.ts';
import { COMPARE_CHARTS, type CompareExtras, compareCharts, compareReport } from '../report/compareReport.ts';
import { resultOf } from '../results.ts';
import { chooseSpeeds } from './chooseSpeeds.ts';
import { fidelityOf, forbidTwoForms, weightingOf } from './readFlags.ts';
import { runStudy, type StudyView, unsettledSpeeds } from './runStudy.ts';
import { SPEED_OPTIONS, STUDY_NOTES, STUDY_OPTIONS, WEIGHTING_OPTION } from './studyOptions.ts';

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
    { name: 'quick', help: 'leave out what is not known of the best gain, and what to measure first' },
    ...STUDY_OPTIONS,
    ...pageOptions(COMPARE_CHARTS),
  ],
  notes: [
    'Everything is set against the first combination, and shown by its correction standard. With --changes the estimates for what the file leaves out are held as they are, so that a change alters what it names and nothing else; of two files each has its own estimates.',
    ...STUDY_NOTES,
  ],
  run,
};

type Named = NamedCombination & { readonly name: string };

interface Candidates {
  readonly candidates: readonly Named[];
  readonly files: readonly string[];
  /** What the first was read from. */
  readonly source: TextInput;
  /** The change behind each candidate but the first; null where they are files. */
  readonly asked: {
    readonly baseline: Baseline;
    readonly changes: readonly Change[];
    readonly sheet: SheetSource;
  } | null;
}

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, core } = invocation;
  forbidTwoForms(flags);
  const changes = flags.text('changes');
  const { candidates, files, source, asked } =
    changes === undefined
      ? await fromFiles(operands, invocation)
      : await fromChanges(operands, changes, invocation);
  const [baseline, ...others] = candidates;
  const { rpm, band, reason, hinted } = chooseSpeeds(baseline.combination, invocation);
  const extras: CompareExtras = {
    note: reason,
    resolvablePct: core.resolvablePct(core.DYNO),
    fuelOctane: candidates.map(({ combination: { fuel } }) =>
      core.octaneIndex(fuel.researchOctane, fuel.motorOctane),
    ),
  };
  return runStudy(invocation, {
    files,
    units: baseline.combination.units,
    ask: async (control): Promise<Result<Compared, Problem>> => {
      const compared = await core.compare(baseline, others, {
        rpm,
        band,
        weighting: weightingOf(flags),
        fidelity: fidelityOf(flags),
        ...control,
      });
      const leaveOut = flags.on('quick') || flags.on('quiet');
      if (!compared.ok || !compared.value.complete || asked === null || leaveOut) return compared;
      const value = await withBestGain(compared.value, candidates, asked, control, core);
      return { ok: true, value };
    },
    view: (comparison) => viewOf(comparison, hinted, aboutOf(source, core), extras),
  });
}

/** The best gain has its spread where changes were compared, and that was not left out. */
type Compared = ComparisonResult & { readonly bestGain?: BestGain | null };

function viewOf(comparison: Compared, hinted: string, about: About, extras: CompareExtras): StudyView {
  const bestGain = bestGainLine(comparison.bestGain ?? null);
  return {
    result: resultOf('compare', comparison),
    text: (options) => comparisonText(comparison, [hinted, bestGain], options),
    csv: () => comparisonCsv(comparison),
    drawn: {
      page: (units) => compareReport(comparison, { ...extras, bestGain }, units, about),
      charts: (units) => compareCharts(comparison, extras, units),
    },
    answer: (units) => comparisonAnswer(comparison, units),
    warnings: comparisonWarnings(comparison),
    unsettled: comparison.entries.flatMap(({ name, curve }) => unsettledSpeeds(name, curve?.points ?? null)),
    complete: comparison.complete,
    worthShowing: comparison.entries.some(({ curve }) => curve !== null),
  };
}

async function fromFiles(operands: readonly string[], invocation: Invocation): Promise<Candidates> {
  if (operands.length < 2) {
    throw usageFailure('compare', 'compare needs two combination files or more, or one with --changes');
  }
  forbidInputTwice(operands);
  const files: string[] = [];
  const read: Named[] = [];
  const sources: TextInput[] = [];
  for (const operand of operands) {
    const input = await readInput(operand, invocation);
    sources.push(input.source);
    files.push(...input.files);
    read.push({ name: input.combination.name, combination: input.combination });
  }
  return { candidates: distinct(read, operands), files, source: sources[0], asked: null };
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
  invocation: Invocation,
): Promise<Candidates> {
  if (operands.length !== 1) {
    throw misuse('with --changes, compare takes one combination file');
  }
  forbidInputTwice([operands[0], changes]);
  const input = await readBaseline(invocation);
  const read = await readChangesFile(changes, input, invocation);
  const { combination } = input.baseline;
  return {
    candidates: [
      { name: combination.name, combination },
      ...read.changes.map(({ change, combination: changed }) => ({
        name: change.name === combination.name ? `${change.name} (change)` : change.name,
        combination: changed,
        change,
      })),
    ],
    files: read.files,
    source: input,
    asked: { baseline: input.baseline, changes: read.changes.map(({ change }) => change), sheet: read.sheet },
  };
}

/** With what is not known of the gain of the change named best, or of the one that comes nearest. */
async function withBestGain(
  comparison: ComparisonResult,
  candidates: readonly Named[],
  { baseline, changes, sheet }: NonNullable<Candidates['asked']>,
  control: Required<StudyControl>,
  core: Core,
): Promise<Compared> {
  const gainOf = (name: string): number =>
    comparison.entries.find((entry) => entry.name === name && entry.breaches.length === 0)?.gain?.band
      .powerPct ?? Number.NEGATIVE_INFINITY;
  const places = candidates.map((_, i) => i).slice(1);
  const [best] = places.sort((a, b) => gainOf(candidates[b].name) - gainOf(candidates[a].name));
  const known =
    best !== undefined && Number.isFinite(gainOf(candidates[best].name)) && !control.signal.aborted;
  const spread = known
    ? await core.gainUncertainty(baseline, changes[best - 1], comparison.band, { ...control, sheet })
    : null;
  const bestGain = spread === null ? null : { change: candidates[best].name, ...spread };
  return { ...comparison, bestGain };
}
