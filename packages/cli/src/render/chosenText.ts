/** What was chosen from a shelf, for people: the best build, the table of the best, the curve of money, and what was not looked at. */
import type { ChoiceResult, ChosenBuild, PricedBuild, Taken } from '@valvetide/core';
import { bandText } from './bandText.ts';
import { chance } from './chance.ts';
import { fixed } from './fixed.ts';
import { leftOutLines } from './marched.ts';
import { assumedReasons, linesText, warningLines, wrapped } from './notes.ts';
import { answerText, madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { figureIn, SHOWN, SHOWN_PISTON_SPEED, type UnitSystem } from './units.ts';
import { wrap } from './wrap.ts';

/** `note` says where the speeds come from; empty where the user or the shelf named them. */
export function chosenText(chosen: ChoiceResult, note: string, options: TextOptions): string {
  const { width, units, paint, detail } = options;
  const answer = answerText(chosenAnswer(chosen, units), options);
  if (detail === 'quiet') return answer;
  return paragraphs([
    answer + [...chosenBasis(chosen, units), note].map((line) => wrapped(line, width)).join(''),
    buildsText(chosen, options),
    frontierText(chosen, width),
    effectsText(chosen, options),
    linesText(searchLines(chosen), width),
    detail === 'verbose' ? assumedReasons(chosen.assumed, units, width) : '',
    paint.caution(linesText(chosenWarnings(chosen), width)),
    linesText(leftOutLines(chosen.leftOut), width),
    madeBy(chosen.program),
  ]);
}

/** The warnings of the engine as it is, and those that each of the best adds. */
export function chosenWarnings({ warnings, builds }: ChoiceResult): readonly string[] {
  return [
    ...warningLines(warnings),
    ...builds.flatMap(({ cautions }, i) =>
      cautions.map((caution) => plain(`warning: build ${i + 1}: ${caution}`)),
    ),
  ];
}

/** The best build, what to expect of it and what it costs. */
export function chosenAnswer(
  chosen: Pick<ChoiceResult, 'builds' | 'complete' | 'search'>,
  units: UnitSystem,
): string {
  const [best] = chosen.builds;
  if (best === undefined)
    return chosen.complete
      ? 'No build of the shelf keeps the limits'
      : 'Interrupted before a build was forecast';
  const { power, powerUnit } = SHOWN[units];
  const tied = chosen.builds.filter(({ tieGroup }) => tieGroup === 1);
  const others = tied.some(isAsItIs)
    ? '; the engine as it is may be as good, so that nothing here is sure to gain'
    : tied.length < 2
      ? ''
      : `; ${tied.length === 2 ? 'the next' : `the next ${tied.length - 1}`} may be as good`;
  if (isAsItIs(best))
    return `Best of ${fixed(chosen.search.withinLimits ?? chosen.search.builds)} builds: the engine as it is. Nothing on this shelf gains`;
  const spread = best.sigmaPct === null ? '' : ` +/- ${fixed(best.sigmaPct, 1)}`;
  return `Best of ${fixed(chosen.search.withinLimits ?? chosen.search.builds)} builds: ${buildText(best)}: ${signed(best.gainPct, 1)}${spread} % (${signed(power(best.bandGainKw), 1)} ${powerUnit} mean power)${priceText(best)}${others}`;
}

function isAsItIs({ choices }: PricedBuild): boolean {
  return choices.every(({ choice }) => choice === null);
}

/** The parts of a build that are not the engine's own. */
export function buildText({ choices }: PricedBuild): string {
  const names = choices.flatMap(({ choice }) => (choice === null ? [] : [plain(choice)]));
  return names.length === 0 ? 'the engine as it is' : names.join(' + ');
}

function priceText({ cost, hours }: PricedBuild): string {
  const parts = [
    ...(cost === null ? [] : [`cost ${fixed(cost)}`]),
    ...(hours === null
      ? []
      : [hours === 1 ? '1 hour' : `${fixed(hours, Number.isInteger(hours) ? 0 : 1)} hours`]),
  ];
  return parts.length === 0 ? '' : `, ${parts.join(', ')}`;
}

/** What the gains are held against, and by which aims. */
export function chosenBasis(chosen: ChoiceResult, units: UnitSystem): readonly string[] {
  const { power, powerUnit } = SHOWN[units];
  const { baseline, aims, complete } = chosen;
  const weights = aims.length > 1;
  const aimed = aims.map(({ band, of, weighting, weight }) => {
    const counts = weights ? `, weight ${fixed(weight, Number.isInteger(weight) ? 0 : 2)}` : '';
    if (of === 'time')
      return `time through ${fixed(band.fromRpm)} to ${fixed(band.toRpm)} rpm, plus is sooner${counts}`;
    return `mean ${of} ${bandText({ band })}${weighting === 'time' ? ' by time' : ''}${counts}`;
  });
  return [
    ...(baseline === null
      ? []
      : [
          `${plain(chosen.combination)}: ${fixed(power(baseline.bandPowerKw), 1)} ${powerUnit} mean power as it is. Gains are of ${aimed.join('; ')}.`,
        ]),
    ...(complete ? [] : ['Interrupted: the best of what was forecast until then.']),
  ];
}

function buildsText(chosen: ChoiceResult, { width, units }: TextOptions): string {
  const { builds, shared } = chosen;
  if (builds.length === 0) return '';
  const entries = builds.flatMap((build, i) =>
    wrapped(`${i + 1}  ${buildText(build)}`, width)
      .trimEnd()
      .split('\n'),
  );
  const told = builds.length > 1 ? 'Within a tie group the order is not settled.' : '';
  const common = shared.map(
    ({ group, choice }) => `${plain(group)}: ${choice === null ? 'as it is' : plain(sizeIn(group, choice))}`,
  );
  const sharedLine =
    builds.length < 2 || common.length === 0
      ? ''
      : `All that may be as good as the best share ${common.join('; ')}.`;
  return (
    table(buildColumns(units), builds.map(numbered), width) +
    entries.map((line) => `${line}\n`).join('') +
    wrapped([told, sharedLine].filter((line) => line !== '').join(' '), width)
  );
}

/** A build and its place. */
export interface NumberedBuild extends ChosenBuild {
  readonly place: number;
}

export function numbered(build: ChosenBuild, i: number): NumberedBuild {
  return { ...build, place: i + 1 };
}

export function buildColumns(units: UnitSystem): readonly Column<NumberedBuild>[] {
  const { power, powerUnit } = SHOWN[units];
  const piston = SHOWN_PISTON_SPEED[units];
  return [
    { name: 'build', unit: '', cell: ({ place }) => fixed(place), align: 'left' },
    { name: 'tie', unit: 'group', cell: ({ tieGroup }) => fixed(tieGroup) },
    { name: 'gain', unit: '%', cell: ({ gainPct }) => signed(gainPct, 2) },
    {
      name: '+/-',
      unit: '%',
      cell: unlessAsItIs(({ sigmaPct }) => (sigmaPct === null ? '?' : fixed(sigmaPct, 2))),
    },
    { name: 'power', unit: powerUnit, cell: ({ bandGainKw }) => signed(power(bandGainKw), 1) },
    { name: 'gains', unit: '% sure', cell: unlessAsItIs(({ chanceOfGain }) => chance(chanceOfGain)) },
    { name: 'cost', unit: '', cell: ({ cost }) => (cost === null ? '?' : fixed(cost)) },
    { name: 'hours', unit: '', cell: ({ hours }) => (hours === null ? '?' : fixed(hours, 1)) },
    { name: 'octane', unit: '', cell: ({ octaneRequired }) => fixed(octaneRequired, 1) },
    { name: 'piston', unit: piston.unit, cell: ({ pistonSpeedMs }) => figureIn(piston, pistonSpeedMs) },
  ];
}

/** Of the engine as it is there is no gain to be sure or unsure of. */
function unlessAsItIs(cell: (build: NumberedBuild) => string): (build: NumberedBuild) => string {
  return (build) => (build.choices.every(({ choice }) => choice === null) ? '' : cell(build));
}

function frontierText({ frontier }: ChoiceResult, width: number): string {
  if (frontier.length < 2) return '';
  const heading = wrapped(
    'What money buys, the most gain for each sum among the builds that were forecast:',
    width,
  );
  const costs = frontier.map(({ cost }) => (cost === null ? '?' : fixed(cost)));
  const gains = frontier.map(({ gainPct }) => `${signed(gainPct, 2)} %`);
  const wide = (texts: readonly string[]): number => Math.max(...texts.map(({ length }) => length));
  const lines = frontier.map(
    (build, i) => `${costs[i].padStart(wide(costs))}  ${gains[i].padStart(wide(gains))}  ${buildText(build)}`,
  );
  return `${heading}${lines.flatMap((line) => wrap(line, width, '    ')).join('\n')}\n`;
}

/** Money against gain. */
export const FRONTIER_COLUMNS: readonly Column<PricedBuild>[] = [
  { name: 'cost', unit: '', cell: ({ cost }) => (cost === null ? '?' : fixed(cost)) },
  { name: 'gain', unit: '%', cell: ({ gainPct }) => signed(gainPct, 2) },
  { name: 'build', unit: '', cell: buildText, align: 'left' },
];

/** Groups shown without --verbose. */
const MOST_GROUPS = 6;

/** The groups that matter most, or in a verbose report all of them. */
function effectsText({ effects }: ChoiceResult, { width, detail }: TextOptions): string {
  const shown = detail === 'verbose' ? effects : effects.slice(0, MOST_GROUPS);
  if (shown.length === 0) return '';
  const left = effects.length - shown.length;
  const lines = shown.map(({ group, effects: of }) => {
    const each = of.map(
      ({ choice, effectPct }) =>
        `${choice === null ? 'as it is' : plain(sizeIn(group, choice))} ${signed(effectPct, 1)}`,
    );
    return `${plain(group)}: ${each.join(', ')}`;
  });
  return (
    wrapped('What matters, each choice by itself against the mean of its group [%]:', width) +
    linesText([...lines, ...(left > 0 ? [`and ${left} more that matter less`] : [])], width)
  );
}

/** A choice beside the name of its group: a size of a range begins with that name. */
function sizeIn(group: string, choice: string): string {
  return choice.startsWith(`${group} `) ? choice.slice(group.length + 1) : choice;
}

/** How many builds there are, how many were forecast, and what was not looked at. */
export function searchLines({ search }: ChoiceResult): readonly string[] {
  const { builds, withinLimits, forecast, refused, impossible, enumerated, missing, modelErrorPct } = search;
  const within =
    withinLimits === null
      ? 'too many to count those within the limits'
      : `${fixed(withinLimits)} within the limits`;
  const looked = enumerated
    ? 'all of them were forecast'
    : `${fixed(forecast)} were forecast, and ${missingText(missing)}`;
  const model =
    modelErrorPct === null
      ? ''
      : ` The estimate that chose them is off by ${fixed(modelErrorPct, 2)} % (one standard deviation).`;
  const out = [
    ...(refused === 0
      ? []
      : [
          `${fixed(refused)} broke a limit of the combination file, asked for too much octane, or lost a speed`,
        ]),
    ...(impossible === 0 ? [] : [`${fixed(impossible)} had parts that can't be had together`]),
  ];
  return [
    `The shelf makes ${fixed(builds)} builds, ${within}; ${looked}.${model}`,
    ...neverLines(search.never),
    ...(out.length === 0 ? [] : [`Of those looked at, ${out.join('; ')}.`]),
    `${fixed(search.forUncertainty)} short forecasts more say how sure the best are.`,
  ];
}

/** Choices named at the most that no build may have. */
const MOST_NEVER = 12;

function neverLines(never: readonly Taken[]): readonly string[] {
  if (never.length === 0) return [];
  const named = never
    .slice(0, MOST_NEVER)
    .map(({ group, choice }) => (choice === null ? `${plain(group)} as it is` : plain(choice)));
  const more = never.length > MOST_NEVER ? ` and ${never.length - MOST_NEVER} more` : '';
  return [`No build within the limits has ${named.join(', ')}${more}.`];
}

function missingText(missing: number): string {
  if (missing < 0.1) return 'hardly any of the others is likely to be among the best';
  return `${fixed(missing, missing < 10 ? 1 : 0)} of the others may still belong among the best: --most lets more be forecast`;
}
