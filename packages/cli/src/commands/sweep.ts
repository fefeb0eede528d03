/** `valvetide sweep`: one or two fields varied, and the best of them. */
import type { Sweep } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { CommandSpec, Flags } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { parseVary } from '../input/parseVary.ts';
import { readBaseline, sheetsBeside } from '../input/readInput.ts';
import type { Io } from '../io.ts';
import { chooseDestination } from '../output/deliver.ts';
import { chooseSideFiles, REPORT_OPTION, svgOptions } from '../output/sideFiles.ts';
import { problemJson, problemLine } from '../render/problems.ts';
import { sweepCsv } from '../render/studyCsv.ts';
import { sweepAnswer, sweepText, sweepWarnings } from '../render/sweepText.ts';
import { SWEEP_CHARTS, sweepCharts, sweepReport } from '../report/sweepReport.ts';
import { fidelityOf, weightingOf } from './readFlags.ts';
import {
  chooseSpeeds,
  forbidTogether,
  SPEED_OPTIONS,
  STUDY_NOTES,
  STUDY_OPTIONS,
  WEIGHTING_OPTION,
  withWorkers,
} from './studyFlags.ts';
import { deliverStudy } from './studyOutput.ts';

export const sweepCommand: CommandSpec = {
  name: 'sweep',
  summary: 'vary one or two fields of a combination and find the best',
  operand: 'FILE',
  examples: [
    ['valvetide sweep engine.yaml --vary "exhaust.primary.length=28:36:2 in"', 'a length, from, to and step'],
    [
      'valvetide sweep engine.yaml --vary cam.advance=-2:8:2deg --band 3500:7000',
      'over the band you race in',
    ],
    [
      'valvetide sweep engine.yaml --vary "cam.separation=108:114:2 deg" --vary "cam.advance=0:8:2 deg"',
      'two fields, a grid of them',
    ],
    ['valvetide sweep engine.yaml --vary induction.manifold=single-plane,dual-plane', 'words, with commas'],
  ],
  options: [
    {
      name: 'vary',
      value: 'PATH=FROM:TO:STEP',
      many: true,
      help: 'a field by its path and the values to try, with their unit; values with commas work too',
    },
    ...SPEED_OPTIONS,
    WEIGHTING_OPTION,
    ...STUDY_OPTIONS,
    REPORT_OPTION,
    ...svgOptions(SWEEP_CHARTS),
  ],
  notes: [
    'The estimates for what the file leaves out are held as they are, so that only what is named varies. The best is the highest mean power over the band; how far a field may move before 0.5 % of it is lost is told too. Values that no engine can have are left out and say why.',
    ...STUDY_NOTES,
  ],
  run,
};

async function run(operand: string | undefined, flags: Flags, io: Io, core: Core): Promise<ExitCode> {
  forbidTogether(flags, 'json', 'csv');
  forbidTogether(flags, 'quiet', 'verbose');
  const variables = flags.texts('vary').map(parseVary);
  if (variables.length < 1 || variables.length > 2) {
    const why =
      variables.length === 0 ? 'sweep needs --vary, once or twice' : '--vary can be given once or twice';
    throw new CommandFailure(EXIT.usage, [why, 'see valvetide sweep --help']);
  }
  if (variables.length === 2 && variables[0].path === variables[1].path)
    throw new CommandFailure(EXIT.usage, ['--vary names the same field twice']);
  const size = variables.reduce((product, { values }) => product * values.length, 1);
  if (size > core.MOST_SWEEP_POINTS) {
    const line = `--vary makes ${size} points, and ${core.MOST_SWEEP_POINTS} at most are forecast`;
    throw new CommandFailure(EXIT.usage, [line]);
  }
  const asJson = flags.on('json');
  const { baseline, files } = await readBaseline(operand, 'sweep', asJson, io, core);
  const destination = chooseDestination(io, flags.text('output'), flags.on('force'), files);
  const beside = chooseSideFiles(io, flags, files);
  const { rpm, band, reason } = chooseSpeeds(flags, baseline.combination, core);
  const result = await withWorkers(flags, io, core, (jobs, control) =>
    core.sweep(
      baseline,
      variables,
      {
        rpm,
        band,
        weighting: weightingOf(flags),
        fidelity: fidelityOf(flags),
        sheet: sheetsBeside(operand ?? '-', files, io),
        ...control,
      },
      jobs,
    ),
  );
  if (!result.ok)
    throw new CommandFailure(EXIT.input, result.problems.map(asJson ? problemJson : problemLine));
  const { sweep } = result;
  return deliverStudy(flags, io, destination, {
    result: sweep,
    text: (options) => sweepText(sweep, reason, options),
    csv: () => sweepCsv(sweep),
    beside,
    drawn: {
      page: (units) => sweepReport(sweep, reason, units),
      charts: (units) => sweepCharts(sweep, units),
    },
    answer: (units) => sweepAnswer(sweep, units),
    warnings: sweepWarnings(sweep),
    ...progressOf(sweep),
    unsettled: [],
  });
}

function progressOf({ points, baseline }: Sweep): { done: number; total: number } {
  const asked = points.filter(({ refused }) => refused === null);
  const done = asked.filter(({ figures }) => figures !== null).length;
  return { done: done + (baseline === null ? 0 : 1), total: asked.length + 1 };
}
