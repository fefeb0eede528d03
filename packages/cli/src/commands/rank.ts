/** `valvetide rank`: which change to try first, and which to leave alone. */

import type { Budget, Dyno, RankingResult } from '@valvetide/core';
import { misuse, usageFailure } from '../commandFailure.ts';
import type { CommandSpec, Flags, Invocation } from '../commandSpec.ts';
import type { ExitCode } from '../exitCodes.ts';
import { readChangesFile } from '../input/readChangesFile.ts';
import { type BaselineInput, readBaseline } from '../input/readInput.ts';
import { pageOptions } from '../output/sideFiles.ts';
import { plainShort } from '../render/plain.ts';
import { rankingAnswer, rankingText, rankingWarnings } from '../render/rankingText.ts';
import { rankingCsv } from '../render/studyCsv.ts';
import { type About, aboutOf } from '../report/about.ts';
import { RANK_CHARTS, type RankExtras, rankCharts, rankReport } from '../report/rankReport.ts';
import { resultOf } from '../results.ts';
import { chooseSpeeds } from './chooseSpeeds.ts';
import { amount, fidelityOf, forbidTwoForms, refuse, whole } from './readFlags.ts';
import { runStudy, type StudyView } from './runStudy.ts';
import { SPEED_OPTIONS, STUDY_NOTES, STUDY_OPTIONS } from './studyOptions.ts';

/** Pairs grow with the square, and each change asks for a dozen forecasts of its own. */
const MOST_CHANGES = 30;

export const rankCommand: CommandSpec = {
  name: 'rank',
  summary: 'rank changes of a combination, with what is not known of each gain',
  operand: 'FILE',
  examples: [
    ['valvetide rank engine.yaml --changes changes.yaml', 'every change, every pair, all together'],
    ['valvetide rank engine.yaml --changes changes.yaml --band 4500:6500', 'over the band you race in'],
    ['valvetide rank engine.yaml --changes changes.yaml --budget 2500 --hours 30', 'the best set that fits'],
    [
      'valvetide rank engine.yaml --changes changes.yaml --dyno 0.3 --pulls 5',
      'for a dyno that repeats well',
    ],
  ],
  options: [
    { name: 'changes', value: 'FILE', help: 'the changes to rank' },
    ...SPEED_OPTIONS,
    { name: 'budget', value: 'MONEY', help: 'most the best set may cost, in the money of the changes file' },
    { name: 'hours', value: 'HOURS', help: 'most hours the best set may take' },
    { name: 'dyno', value: 'PERCENT', help: 'repeatability of the dyno from pull to pull; without it 0.5' },
    { name: 'pulls', value: 'N', help: 'pulls averaged on each side of a test; without it 3' },
    { name: 'seed', value: 'N', help: 'seed of the draws; without it 1' },
    ...STUDY_OPTIONS,
    ...pageOptions(RANK_CHARTS),
  ],
  notes: [
    'The estimates for what the file leaves out are held as they are, so that a change alters what it names and nothing else. What is not known, of estimates and of sheets, is drawn alike for the engine as it is and for each change: what is common to both cancels in the gain. Changes whose order is not settled share a tie group.',
    ...STUDY_NOTES,
  ],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { flags, core } = invocation;
  forbidTwoForms(flags);
  const path = flags.text('changes');
  if (path === undefined) {
    throw usageFailure('rank', 'rank needs --changes FILE');
  }
  const budget: Budget = { cost: amount(flags, 'budget'), hours: amount(flags, 'hours') };
  const dyno = dynoOf(flags, core.DYNO);
  const seed = whole(flags, 'seed', 0, 2 ** 32 - 1);
  const input = await readBaseline(invocation);
  const { changes, files, sheet } = await readChangesFile(path, input, invocation);
  if (changes.length > MOST_CHANGES) {
    const line = `${plainShort(path)}: ${changes.length} changes, and ${MOST_CHANGES} at most are ranked`;
    throw misuse(line);
  }
  const { combination } = input.baseline;
  const { rpm, band, reason, hinted } = chooseSpeeds(combination, invocation);
  return runStudy(invocation, {
    files,
    units: combination.units,
    ask: (control) =>
      core.rank(
        input.baseline,
        changes.map(({ change }) => change),
        {
          band,
          ...(flags.text('rpm') === undefined ? {} : { rpm }),
          budget,
          dyno,
          ...(seed === null ? {} : { seed }),
          fidelity: fidelityOf(flags),
          sheet,
          ...control,
        },
      ),
    view: (ranking) =>
      viewOf(ranking, hinted, aboutOf(input, core), extrasOf(ranking, reason, input, invocation)),
  });
}

/** What a page says of the engine as it is, forecast only where a page is made. */
function extrasOf(
  { baseline, rpm }: RankingResult,
  note: string,
  { baseline: { combination } }: BaselineInput,
  { flags, core }: Invocation,
): RankExtras {
  return {
    note,
    curve: once(() =>
      baseline === null ? null : core.forecast(combination, { rpm, fidelity: fidelityOf(flags) }),
    ),
    fuelOctane: core.octaneIndex(combination.fuel.researchOctane, combination.fuel.motorOctane),
  };
}

function viewOf(ranking: RankingResult, hinted: string, about: About, extras: RankExtras): StudyView {
  return {
    result: resultOf('rank', ranking),
    text: (options) => rankingText(ranking, hinted, options),
    csv: () => rankingCsv(ranking),
    drawn: {
      page: (units) => rankReport(ranking, extras, units, about),
      charts: (units) => rankCharts(ranking, extras, units),
    },
    answer: (units) => rankingAnswer(ranking, units),
    warnings: rankingWarnings(ranking),
    unsettled: [],
    complete: ranking.complete,
    // Without the baseline there is nothing to show.
    worthShowing: ranking.baseline !== null,
  };
}

/** Computed at the first call and kept. */
function once<Value>(compute: () => Value): () => Value {
  let kept: { readonly value: Value } | null = null;
  return () => {
    kept ??= { value: compute() };
    return kept.value;
  };
}

/** `--dyno` and `--pulls`, or what is usual. */
function dynoOf(flags: Flags, usual: Dyno): Dyno {
  const text = flags.text('dyno')?.replace(/\s*%$/, '');
  const repeatabilityPct = text === undefined ? usual.repeatabilityPct : Number(text);
  const isPlain = text === undefined || /^\d+(\.\d+)?$/.test(text);
  if (!(isPlain && repeatabilityPct > 0 && repeatabilityPct <= 20))
    throw refuse('dyno', flags, 'write one standard deviation in percent, such as 0.5');
  return { repeatabilityPct, pulls: whole(flags, 'pulls', 1, 100) ?? usual.pulls };
}
