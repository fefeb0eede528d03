/** What was chosen as CSV: a line a build, the best first and then those along the curve of money. */
import type { ChoiceResult } from '@valvetide/core';
import { csv, warningsCell } from './csv.ts';

export function chosenCsv({ combination, builds, frontier, warnings }: ChoiceResult): string {
  const groups = (builds[0] ?? frontier[0])?.choices.map(({ group }) => group) ?? [];
  const header = [
    'combination',
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
    'warnings',
    ...groups,
  ];
  return csv([
    header,
    ...builds.map((build, i) => [
      combination,
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
      warningsCell([...warnings, ...build.cautions]),
      ...build.choices.map(({ choice }) => choice ?? ''),
    ]),
    ...frontier.map(({ gainPct, cost, hours, choices }, i) => [
      combination,
      'for the money',
      i + 1,
      gainPct,
      ...['', '', '', ''],
      cost ?? '',
      hours ?? '',
      ...['', ''],
      warningsCell(warnings),
      ...choices.map(({ choice }) => choice ?? ''),
    ]),
  ]);
}
