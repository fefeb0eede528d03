/** `valvetide sweep`: one or two fields varied, and the best of them. */

import { misuse, usageFailure } from '../commandFailure.ts';
import type { CommandSpec, Invocation } from '../commandSpec.ts';
import type { ExitCode } from '../exitCodes.ts';
import { parseVary } from '../input/parseVary.ts';
import { readBaseline } from '../input/readInput.ts';
import { pageOptions } from '../output/sideFiles.ts';
import { sweepCsv } from '../render/studyCsv.ts';
import { sweepAnswer, sweepText, sweepWarnings } from '../render/sweepText.ts';
import { aboutOf } from '../report/about.ts';
import { SWEEP_CHARTS, sweepCharts, sweepReport } from '../report/sweepReport.ts';
import { resultOf } from '../results.ts';
import { chooseSpeeds } from './chooseSpeeds.ts';
import { fidelityOf, forbidTwoForms, weightingOf } from './readFlags.ts';
import { runStudy } from './runStudy.ts';
import { isShared } from './shares.ts';
import { SPEED_OPTIONS, STUDY_NOTES, STUDY_OPTIONS, WEIGHTING_OPTION } from './studyOptions.ts';

/** Points that several machines, or one with a journal, may share. */
const MOST_SHARED_POINTS = 100_000;

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
    ...pageOptions(SWEEP_CHARTS),
  ],
  notes: [
    'The estimates for what the file leaves out are held as they are, so that only what is named varies. The best is the highest mean power over the band; how far a field may move before 0.5 % of it is lost is said too. Values that no engine can have are left out, with the reason.',
    ...STUDY_NOTES,
  ],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { flags, core } = invocation;
  forbidTwoForms(flags);
  const variables = flags.texts('vary').map(parseVary);
  if (variables.length < 1 || variables.length > 2) {
    const why =
      variables.length === 0 ? 'sweep needs --vary, once or twice' : '--vary can be given once or twice';
    throw usageFailure('sweep', why);
  }
  if (variables.length === 2 && variables[0].path === variables[1].path)
    throw misuse('--vary names the same field twice');
  const size = variables.reduce((product, { values }) => product * values.length, 1);
  const most = isShared(flags) ? MOST_SHARED_POINTS : core.MOST_SWEEP_POINTS;
  if (size > most) {
    const line = `--vary makes ${size} points, and ${most} at most are forecast${isShared(flags) ? '' : '; --journal, --shard or --queue allow more'}`;
    throw misuse(line);
  }
  const input = await readBaseline(invocation);
  const { baseline, files, sheet } = input;
  const { rpm, band, reason, hinted } = chooseSpeeds(baseline.combination, invocation);
  return runStudy(invocation, {
    files,
    units: baseline.combination.units,
    ask: (control) =>
      core.sweep(baseline, variables, {
        rpm,
        band,
        most,
        weighting: weightingOf(flags),
        fidelity: fidelityOf(flags),
        sheet,
        ...control,
      }),
    view: (sweep) => ({
      result: resultOf('sweep', sweep),
      text: (options) => sweepText(sweep, hinted, options),
      csv: () => sweepCsv(sweep),
      drawn: {
        page: (units) => sweepReport(sweep, reason, units, aboutOf(input, core)),
        charts: (units) => sweepCharts(sweep, units),
      },
      answer: (units) => sweepAnswer(sweep, units),
      warnings: sweepWarnings(sweep),
      unsettled: [],
      complete: sweep.complete,
      worthShowing: sweep.baseline !== null || sweep.points.some(({ figures }) => figures !== null),
    }),
  });
}
