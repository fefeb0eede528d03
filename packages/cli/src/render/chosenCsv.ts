/** What was chosen as CSV: a line a build, the best first and then those along the curve of money. */
import type { ChoiceResult } from '@valvetide/core';
import { type CsvColumn, csvTable, warningsCell } from './csv.ts';

export function chosenCsv({ combination, builds, frontier, warnings }: ChoiceResult): string {
  type Chosen = ChoiceResult['builds'][number];
  type Row = {
    readonly list: 'best' | 'for the money';
    readonly place: number;
    readonly build: ChoiceResult['frontier'][number];
    /** What only the best were worked out with. */
    readonly best: Chosen | null;
  };
  const groups = (builds[0] ?? frontier[0])?.choices.map(({ group }) => group) ?? [];
  const columns: readonly CsvColumn<Row>[] = [
    ['combination', () => combination],
    ['list', ({ list }) => list],
    ['place', ({ place }) => place],
    ['gainPct', ({ build }) => build.gainPct],
    ['sigmaPct', ({ best }) => best?.sigmaPct ?? null],
    ['bandGainKw', ({ best }) => best?.bandGainKw ?? null],
    ['chanceOfGain', ({ best }) => best?.chanceOfGain ?? null],
    ['tieGroup', ({ best }) => best?.tieGroup ?? null],
    ['cost', ({ build }) => build.cost],
    ['hours', ({ build }) => build.hours],
    ['octaneRequired', ({ best }) => best?.octaneRequired ?? null],
    ['pistonSpeedMs', ({ best }) => best?.pistonSpeedMs ?? null],
    ['warnings', ({ best }) => warningsCell([...warnings, ...(best?.cautions ?? [])])],
    ...groups.map((group, g): CsvColumn<Row> => [group, ({ build }) => build.choices[g].choice]),
  ];
  return csvTable(columns, [
    ...builds.map((build, i): Row => ({ list: 'best', place: i + 1, build, best: build })),
    ...frontier.map((build, i): Row => ({ list: 'for the money', place: i + 1, build, best: null })),
  ]);
}
