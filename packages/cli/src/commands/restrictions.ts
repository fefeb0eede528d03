/** `valvetide restrictions`: which element stands in the way of a combination. */

import { misuse } from '../commandFailure.ts';
import type { CommandSpec, Invocation } from '../commandSpec.ts';
import type { ExitCode } from '../exitCodes.ts';
import { readChangesFile } from '../input/readChangesFile.ts';
import { forbidInputTwice, readBaseline } from '../input/readInput.ts';
import { pageOptions } from '../output/sideFiles.ts';
import { restrictionsCsv } from '../render/restrictionsCsv.ts';
import { restrictionsAnswer, restrictionsText, restrictionsWarnings } from '../render/restrictionsText.ts';
import { aboutOf } from '../report/about.ts';
import { RESTRICTION_CHARTS, restrictionsCharts, restrictionsReport } from '../report/restrictionsReport.ts';
import { resultOf } from '../results.ts';
import { chooseSpeeds } from './chooseSpeeds.ts';
import { fidelityOf, forbidTwoForms, weightingOf } from './readFlags.ts';
import { runStudy, unsettledSpeeds } from './runStudy.ts';
import { SPEED_OPTIONS, STUDY_NOTES, STUDY_OPTIONS, WEIGHTING_OPTION } from './studyOptions.ts';

/** Each change asks for eight forecasts of its own. */
const MOST_CHANGES = 30;

export const restrictionsCommand: CommandSpec = {
  name: 'restrictions',
  summary: 'name what is in the way, by freeing one element after the other',
  operand: 'FILE',
  examples: [
    ['valvetide restrictions engine.yaml', 'what is in the way at each speed'],
    ['valvetide restrictions engine.yaml --band 5000:7500', 'over the band you race in'],
    ['valvetide restrictions engine.yaml --changes changes.yaml', 'and what is in the way after each change'],
    ['valvetide restrictions engine.yaml --rpm 6000,7000 --csv', 'every figure, for a spreadsheet'],
  ],
  options: [
    {
      name: 'changes',
      value: 'FILE',
      help: 'changes to make, each alone, to see what is in the way after it',
    },
    ...SPEED_OPTIONS,
    WEIGHTING_OPTION,
    ...STUDY_OPTIONS,
    ...pageOptions(RESTRICTION_CHARTS),
  ],
  notes: [
    'Air cleaner, carburetor or throttle, manifold, intake port, exhaust port, primary, collector with muffler and charge heating are freed by a forecast each, pumping and friction by taking their work off; the report says what free means for each. Lengths, areas of pipes and the cam stay, so that tuning stays. Gains do not add up, and an element below zero helps by its waves more than it costs. Only what air and exhaust pass through can be in the way; heating, pumping and friction are shown beside it. With --verbose the speeds of each change are shown too.',
    ...STUDY_NOTES,
  ],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, core } = invocation;
  forbidTwoForms(flags);
  const path = flags.text('changes');
  if (path !== undefined) forbidInputTwice([...operands, path]);
  const input = await readBaseline(invocation);
  const read =
    path === undefined ? { changes: [], files: input.files } : await readChangesFile(path, input, invocation);
  if (read.changes.length > MOST_CHANGES) {
    const line = `${read.changes.length} changes, and ${MOST_CHANGES} at most are looked at`;
    throw misuse(line);
  }
  const { combination } = input.baseline;
  const { rpm, band, reason, hinted } = chooseSpeeds(combination, invocation);
  const changed = read.changes.map(({ change, combination: after }) => ({
    name: change.name,
    combination: after,
  }));
  return runStudy(invocation, {
    files: read.files,
    units: combination.units,
    ask: (control) =>
      core.restrictions(input.baseline, changed, {
        rpm,
        band,
        weighting: weightingOf(flags),
        fidelity: fidelityOf(flags),
        ...control,
      }),
    view: (study) => ({
      result: resultOf('restrictions', study),
      text: (options) => restrictionsText(study, hinted, options),
      csv: () => restrictionsCsv(study),
      drawn: {
        page: (units) => restrictionsReport(study, reason, units, aboutOf(input, core)),
        charts: () => restrictionsCharts(study),
      },
      answer: () => restrictionsAnswer(study),
      warnings: restrictionsWarnings(study),
      unsettled: study.states.flatMap(({ name, points }) => unsettledSpeeds(name, points)),
      complete: study.complete,
      worthShowing: study.states[0].points !== null,
    }),
  });
}
