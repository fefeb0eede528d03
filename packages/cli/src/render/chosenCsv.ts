/** What was chosen as CSV: a line a build, the best first and then those along the curve of money. */
import type { ChoiceResult } from '@valvetide/core';
import { csv } from './csv.ts';

export function chosenCsv({ builds, frontier }: ChoiceResult): string {
  const groups = (builds[0] ?? frontier[0])?.choices.map(({ group }) => group) ?? [];
  const header = [
    'list',
    'place',
    'gainPct',
    'sigmaPct',
    'bandGainKw',
    'chanceOfGain',
    'tieGroup',
    'cost',
    'hours',
    'octaneRequired',
    'pistonSpeedMs',
    ...groups,
  ];
  return csv([
    header,
    ...builds.map((build, i) => [
      'best',
      i + 1,
      build.gainPct,
      build.sigmaPct ?? '',
      build.bandGainKw,
      build.chanceOfGain ?? '',
      build.tieGroup,
      build.cost ?? '',
      build.hours ?? '',
      build.octaneRequired,
      build.pistonSpeedMs,
      ...build.choices.map(({ choice }) => choice ?? ''),
    ]),
    ...frontier.map(({ gainPct, cost, hours, choices }, i) => [
      'for the money',
      i + 1,
      gainPct,
      ...['', '', '', ''],
      cost ?? '',
      hours ?? '',
      ...['', ''],
      ...choices.map(({ choice }) => choice ?? ''),
    ]),
  ]);
}
