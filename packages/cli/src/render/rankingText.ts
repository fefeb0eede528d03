/** A ranking for people: the answer first, then the table, the pairs, the order of tests and what it all rests on. */

import type { RankedChange, RankedPair, RankedSet, RankingResult } from '@valvetide/core';
import { bandText } from './bandText.ts';
import { breachCell, breachLegend, breachWarnings, isNoBreach, markedName } from './breaches.ts';
import { chance } from './chance.ts';
import { counted } from './counted.ts';
import { fixed } from './fixed.ts';
import { gainDecimals } from './gainDecimals.ts';
import { leftOutLines } from './marched.ts';
import { measureFirstLine } from './measureFirstLine.ts';
import { assumedReasons, linesText, warningLines, wrapped } from './notes.ts';
import { orderParts } from './orderParts.ts';
import { answerText, madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** Pairs shown without --verbose. */
const MOST_PAIRS = 12;

/** `note` says where the speeds come from; empty where the user named them. */
export function rankingText(ranking: RankingResult, note: string, options: TextOptions): string {
  const { width, units, paint, detail } = options;
  const answer = answerText(rankingAnswer(ranking, units), options);
  if (detail === 'quiet') return answer;
  return paragraphs([
    answer + [...rankingBasis(ranking, units), note].map((line) => wrapped(line, width)).join(''),
    changesTable(ranking, options),
    pairsTable(ranking, options),
    setsText(ranking, options),
    orderText(ranking, width),
    wrapped(measureFirstLine(ranking.measureFirst), width) + mattersText(ranking, width),
    detail === 'verbose' ? assumedReasons(ranking.assumed, units, width) : assumedLine(ranking),
    paint.caution(linesText(rankingWarnings(ranking), width)),
    linesText(leftOutLines(ranking.leftOut), width),
    madeBy(ranking.program),
  ]);
}

/** The warnings of the engine as it is, and those that each change adds. */
export function rankingWarnings({ warnings, changes, baseline }: RankingResult): readonly string[] {
  return [
    ...warningLines(warnings.filter(isNoBreach)),
    ...breachWarnings('the engine as it is', { breaches: baseline?.breaches ?? [] }),
    ...changes.flatMap((change) => [
      ...breachWarnings(change.name, change),
      ...change.cautions.map((caution) => plain(`warning: ${change.name}: ${caution}`)),
    ]),
  ];
}

/** What to test first, what to expect of it, and whether the dyno will see it. */
export function rankingAnswer(ranking: RankingResult, units: UnitSystem): string {
  const { changes, order, dyno, baseline } = ranking;
  if (baseline === null || changes.length === 0)
    return ranking.complete
      ? 'There is nothing to rank: see the warnings'
      : 'Interrupted before the first change was forecast';
  const expected = (change: RankedChange): string => expectation(change, baseline.bandPowerKw, units);
  const [largest] = changes.filter(({ breaches }) => breaches.length === 0);
  if (largest === undefined)
    return `None of the changes is allowed: the one that gains most, ${plain(changes[0].name)}, ${expected(changes[0])}, breaks a limit: ${plain(breachCell(changes[0].breaches))}`;
  const beyond =
    changes[0] === largest
      ? ''
      : `. ${plain(changes[0].name)} gains more, ${expected(changes[0])}, but breaks a limit: ${plain(breachCell(changes[0].breaches))}`;
  const told = `${counted(dyno.pulls, 'pull')} a side show ${powerText((dyno.resolvablePct / 100) * baseline.bandPowerKw, units)} or more`;
  const first = order.steps.find(({ action }) => action === 'test');
  const chosen = changes.find(({ name }) => name === first?.change);
  if (chosen === undefined) {
    const best =
      largest.bandGainKw > 0
        ? `at most ${expected(largest)} from ${plain(largest.name)}`
        : `the best, ${plain(largest.name)}, is a loss, ${expected(largest)}`;
    return `Nothing here is likely to gain what your dyno can show ${bandText(ranking)}: ${best}; ${told}${beyond}`;
  }
  const most = chosen === largest ? '' : `; the largest gain is ${plain(largest.name)}, ${expected(largest)}`;
  return `First test ${plain(chosen.name)}: ${expected(chosen)} ${bandText(ranking)}; ${told}${most}${beyond}`;
}

/** `+11.2 +/- 4.8 hp (92 % sure to gain)`. */
function expectation(change: RankedChange, ofKw: number, units: UnitSystem): string {
  const { power, powerUnit } = SHOWN[units];
  const gain = signed(power(change.bandGainKw), 1);
  const spread = spreadKw(change, ofKw);
  if (spread === null) return `${gain} ${powerUnit}`;
  return `${gain} +/- ${fixed(power(spread), 1)} ${powerUnit} (${percentText(change.chanceOfGain)} sure to gain)`;
}

/** One standard deviation of a gain in power [kW], of an engine's mean power [kW]; null where not worked out. */
function spreadKw({ sigmaPct }: RankedChange, ofKw: number): number | null {
  return sigmaPct === null ? null : (ofKw * sigmaPct) / 100;
}

/** What the gains are held against, and whether all of it was worked out. */
export function rankingBasis(ranking: RankingResult, units: UnitSystem): readonly string[] {
  return [baselineLine(ranking, units), unfinished(ranking)].filter((line) => line !== '');
}

function baselineLine({ baseline, combination, dyno }: RankingResult, units: UnitSystem): string {
  if (baseline === null) return '';
  const { sigmaPct, bandPowerKw } = baseline;
  const own =
    sigmaPct === null
      ? ''
      : ` +/- ${fixed(sigmaPct, 1)} %, most of which is common to all that follows and cancels in the gains`;
  return `${plain(combination)}: ${powerText(bandPowerKw, units)} mean power${own}. Gains and their +/- (one standard deviation) are of mean power; the dyno repeats within ${fixed(dyno.repeatabilityPct, 2)} %.`;
}

function changesTable(ranking: RankingResult, { width, units, detail }: TextOptions): string {
  const { changes, dyno } = ranking;
  if (changes.length === 0) return '';
  const explanation = `gains: chance that there is a gain at all. seen: chance that it is more than the ${fixed(dyno.resolvablePct, 2)} % that ${counted(dyno.pulls, 'pull')} a side can show. Within a tie group the order is not settled.`;
  const legend = breachLegend(changes);
  const all = rankedColumns(units, gainDecimals(changes));
  const columns = detail === 'verbose' ? all : all.filter(({ name }) => name !== 'peak');
  const unheld = changes.flatMap(({ name, notModelled }) =>
    notModelled === null ? [] : [`- ${plain(name)} is not modelled: ${notModelled}.`],
  );
  return (
    table(columns, changes, width) +
    wrapped(legend === '' ? explanation : `${explanation} ${legend}.`, width) +
    linesText(unheld, width)
  );
}

/** A figure of the gain; where the model does not hold the change, other words and no figure. */
function held(cell: (change: RankedChange) => string, otherwise = ''): (change: RankedChange) => string {
  return (change) => (change.notModelled === null ? cell(change) : otherwise);
}

/**
 * The columns of the ranking, the ones that decide first.
 *
 * @param decimals - of gains and their spreads in percent
 */
export function rankedColumns(units: UnitSystem, decimals: number): readonly Column<RankedChange>[] {
  const { power, powerUnit } = SHOWN[units];
  return [
    { name: 'change', unit: '', cell: (change) => markedName(plain(change.name), change), align: 'left' },
    { name: 'tie', unit: 'group', cell: ({ tieGroup }) => fixed(tieGroup) },
    {
      name: 'gain',
      unit: powerUnit,
      cell: held(({ bandGainKw }) => signed(power(bandGainKw), 1), 'not modelled'),
    },
    { name: 'gain', unit: '%', cell: held(({ bandGainPct }) => signed(bandGainPct, decimals)) },
    {
      name: '+/-',
      unit: '%',
      cell: held(({ sigmaPct }) => (sigmaPct === null ? '?' : fixed(sigmaPct, decimals))),
    },
    { name: 'gains', unit: '% sure', cell: held(({ chanceOfGain }) => chance(chanceOfGain)) },
    { name: 'seen', unit: '% sure', cell: held(({ chanceResolvable }) => chance(chanceResolvable)) },
    {
      name: 'an hour',
      unit: powerUnit,
      cell: ({ gainKwPerHour }) => (gainKwPerHour === null ? '' : fixed(power(gainKwPerHour), 2)),
    },
    {
      name: 'for 100',
      unit: powerUnit,
      cell: ({ gainKwPerCost }) => (gainKwPerCost === null ? '' : fixed(power(100 * gainKwPerCost), 2)),
    },
    {
      name: 'pulls',
      unit: 'a side',
      cell: held(({ pullsNeeded }) => (pullsNeeded === null ? 'many' : fixed(pullsNeeded))),
    },
    {
      name: 'worst loss',
      unit: '%',
      cell: ({ worstLossPct, worstLossRpm }) => (worstLossRpm === null ? 'none' : fixed(worstLossPct, 1)),
    },
    {
      name: 'at',
      unit: 'rpm',
      cell: ({ worstLossRpm }) => (worstLossRpm === null ? '' : fixed(worstLossRpm)),
    },
    { name: 'peak', unit: 'power %', cell: ({ peakPowerGainPct }) => signed(peakPowerGainPct, 1) },
    { name: 'peak', unit: 'torque %', cell: ({ peakTorqueGainPct }) => signed(peakTorqueGainPct, 1) },
    { name: 'cost', unit: '', cell: ({ cost }) => (cost === null ? '?' : fixed(cost)) },
    { name: 'hours', unit: '', cell: ({ hours }) => (hours === null ? '?' : String(hours)) },
    { name: 'comes', unit: 'off', cell: ({ reversible }) => (reversible ? 'yes' : 'no') },
  ];
}

function pairsTable({ pairs, changes }: RankingResult, { width, detail }: TextOptions): string {
  if (pairs.length === 0) return '';
  const named = pairs.filter(({ verdict }) => verdict !== 'independent');
  const shown =
    detail === 'verbose' ? pairs : (named.length > 0 ? named : pairs.slice(0, 3)).slice(0, MOST_PAIRS);
  const columns: Column<RankedPair>[] = [
    { name: 'pair', unit: '', cell: ({ a, b }) => plain(`${a} + ${b}`), align: 'left' },
    { name: 'together', unit: '%', cell: ({ togetherPct }) => signed(togetherPct, 2) },
    { name: 'beyond sum', unit: '%', cell: ({ interactionPct }) => signed(interactionPct, 2) },
    { name: '', unit: '', cell: ({ verdict }) => verdict, align: 'left' },
  ];
  const rest = pairs.length - shown.length;
  const others =
    rest === 0 ? '' : `${counted(rest, 'other pair')} of ${changes.length} changes: --verbose.\n`;
  return table(columns, shown, width) + others;
}

function setsText(ranking: RankingResult, { width, units }: TextOptions): string {
  return linesText(setLines(ranking, units), width);
}

/** Several changes together: all that go, and the best that the budget bears. */
export function setLines({ together, best }: RankingResult, units: UnitSystem): readonly string[] {
  const line = (heading: string, set: RankedSet): string => {
    const spent = [
      set.cost === null ? '' : `cost ${fixed(set.cost)}`,
      set.hours === null ? '' : `${String(set.hours)} hours`,
    ].filter((text) => text !== '');
    const beyond =
      set.changes.length > 2 ? `, where single gains and pairs add up to ${signed(set.addedUpPct, 1)} %` : '';
    const bill = spent.length === 0 ? '' : ` (${spent.join(', ')})`;
    const gain = `${signed(SHOWN[units].power(set.bandGainKw), 1)} ${SHOWN[units].powerUnit} (${signed(set.bandGainPct, 1)} %)`;
    const broken = set.breaches.length === 0 ? '' : ` Breaks a limit: ${plain(breachCell(set.breaches))}.`;
    return `${heading}: ${gain}${beyond}${bill}: ${set.changes.map(plain).join(', ')}.${broken}`;
  };
  if (together === null || together.changes.length < 2) return best === null ? [] : [line('Best set', best)];
  if (best === null) return [line('All that go together', together)];
  return best.changes.join('\n') === together.changes.join('\n')
    ? [line('All that go together, and the best set', best)]
    : [line('All that go together', together), line('Best set', best)];
}

function orderText(ranking: RankingResult, width: number): string {
  return orderParts(ranking)
    .map(({ title, lines }) => wrapped(title, width) + linesText(lines, width))
    .join('\n');
}

function mattersText({ changes }: RankingResult, width: number): string {
  const lines = changes.flatMap(({ name, mattersMost, modelShare }) => {
    if (modelShare === null) return [];
    const unknown =
      mattersMost === null
        ? 'no unknown stands out'
        : `${plain(mattersMost.path)}, ${fixed(100 * mattersMost.share)} % of its variance, ${signed(mattersMost.perSigmaPct, 2)} % of gain a standard deviation`;
    return [`- ${plain(name)}: ${unknown}; the model's own error, ${fixed(100 * modelShare)} %`];
  });
  return lines.length === 0 ? '' : `What most of each uncertainty comes from\n${linesText(lines, width)}`;
}

function assumedLine({ assumed }: RankingResult): string {
  return assumed.length === 0 ? '' : `${assumed.length} values are assumed, --verbose lists them.\n`;
}

function unfinished({ complete }: RankingResult): string {
  return complete
    ? ''
    : 'Interrupted: what was not run is missing, and what was not worked out has a question mark.';
}

function powerText(kw: number, units: UnitSystem): string {
  const { power, powerUnit } = SHOWN[units];
  return `${fixed(power(kw), 1)} ${powerUnit}`;
}

function percentText(value: number | null): string {
  return `${chance(value)} %`;
}
