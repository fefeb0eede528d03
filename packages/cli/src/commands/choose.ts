/** `valvetide choose`: the best of all the builds that a shelf of parts allows. */

import type { Shelf } from '@valvetide/core';
import { misuse, usageFailure } from '../commandFailure.ts';
import type { CommandSpec, Invocation } from '../commandSpec.ts';
import type { ExitCode } from '../exitCodes.ts';
import { forbidInputTwice, readBaseline } from '../input/readInput.ts';
import { readShelfFile } from '../input/readShelfFile.ts';
import { pageOptions } from '../output/sideFiles.ts';
import { chosenCsv } from '../render/chosenCsv.ts';
import { chosenAnswer, chosenText, chosenWarnings } from '../render/chosenText.ts';
import { aboutOf } from '../report/about.ts';
import { CHOOSE_CHARTS, chooseCharts, chooseReport } from '../report/chooseReport.ts';
import { resultOf } from '../results.ts';
import { chooseSpeeds } from './chooseSpeeds.ts';
import { amount, fidelityOf, forbidTwoForms, whole } from './readFlags.ts';
import { runStudy } from './runStudy.ts';
import { SPEED_OPTIONS, STUDY_NOTES, STUDY_OPTIONS } from './studyOptions.ts';

export const chooseCommand: CommandSpec = {
  name: 'choose',
  summary: 'choose the best builds from a shelf of parts and sizes, within a budget',
  operand: 'FILE',
  examples: [
    ['valvetide choose engine.yaml --shelf shelf.yaml', 'the best five of all builds of the shelf'],
    ['valvetide choose engine.yaml --shelf shelf.yaml --band 4500:6500', 'over the band you race in'],
    [
      'valvetide choose engine.yaml --shelf shelf.yaml --budget 2500 --hours 30',
      'within a budget of money and hours',
    ],
    ['valvetide choose engine.yaml --shelf shelf.yaml --most 120', 'with no more than 120 builds forecast'],
  ],
  options: [
    { name: 'shelf', value: 'FILE', help: 'parts by group, sizes by range, limits and aims' },
    ...SPEED_OPTIONS,
    { name: 'budget', value: 'MONEY', help: "most a build may cost, in place of the shelf's own limit" },
    { name: 'hours', value: 'HOURS', help: "most hours a build may take, in place of the shelf's own limit" },
    { name: 'wanted', value: 'N', help: 'how many of the best are shown; without it 5' },
    { name: 'most', value: 'N', help: 'builds forecast at most; without it 400' },
    { name: 'seed', value: 'N', help: 'seed of the search and of the draws; without it 1' },
    ...STUDY_OPTIONS,
    ...pageOptions(CHOOSE_CHARTS),
  ],
  notes: [
    'A small shelf is forecast build by build. Of a larger one a mixed set of builds is forecast first. From these the effect of each part, of pairs and of threes is estimated, and those builds are forecast next that may beat the best so far, until hardly any of the rest is likely to be among the best. Every figure shown is of a forecast of that very build. The report says how many builds were forecast, and what was not looked at.',
    "A shelf that names aims has its own bands: --band can't be used with it.",
    ...STUDY_NOTES,
  ],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, core } = invocation;
  forbidTwoForms(flags);
  const path = flags.text('shelf');
  if (path === undefined) throw usageFailure('choose', 'choose needs --shelf FILE');
  const [budget, hours] = [amount(flags, 'budget'), amount(flags, 'hours')];
  const [wanted, most] = [whole(flags, 'wanted', 1, 20), whole(flags, 'most', 10, 100_000)];
  const seed = whole(flags, 'seed', 0, 2 ** 32 - 1);
  forbidInputTwice([...operands, path]);
  const input = await readBaseline(invocation);
  const { baseline } = input;
  const read = await readShelfFile(path, input.files, invocation);
  const shelf: Shelf = {
    ...read.shelf,
    limits: {
      ...read.shelf.limits,
      ...(budget === null ? {} : { cost: budget }),
      ...(hours === null ? {} : { hours }),
    },
  };
  const aimed = shelf.aims.length > 0;
  if (aimed && flags.text('band') !== undefined)
    throw misuse('--band: leave it out, since the shelf names aims with bands of their own');
  const { band, rpm, reason, hinted } = chooseSpeeds(baseline.combination, invocation);
  return runStudy(invocation, {
    files: read.files,
    units: baseline.combination.units,
    ask: (control) =>
      core.choose(baseline, shelf, {
        ...(aimed ? {} : { band }),
        ...(flags.texts('rpm').length === 0 ? {} : { rpm }),
        ...(wanted === null ? {} : { wanted }),
        ...(most === null ? {} : { most }),
        ...(seed === null ? {} : { seed }),
        fidelity: fidelityOf(flags),
        sheet: read.sheet,
        ...control,
      }),
    view: (chosen) => ({
      result: resultOf('choose', chosen),
      text: (options) => chosenText(chosen, aimed ? '' : hinted, options),
      csv: () => chosenCsv(chosen),
      drawn: {
        page: (units) => chooseReport(chosen, aimed ? '' : reason, units, aboutOf(input, core)),
        charts: (units) => chooseCharts(chosen, units),
      },
      answer: (units) => chosenAnswer(chosen, units),
      warnings: chosenWarnings(chosen),
      unsettled: [],
      complete: chosen.complete,
      worthShowing: chosen.builds.length > 0,
    }),
  });
}
