/** What each choice of a shelf does on average, what matters most first. */
import type { ChoiceResult } from '@valvetide/core';
import { plain, plainShort } from '../../render/plain.ts';
import { signed } from '../../render/signed.ts';
import { type Figure, figureTable } from '../figure.ts';

/** Rows that can be read at a glance. */
const MOST_ROWS = 24;

interface Row {
  readonly group: string;
  readonly choice: string;
  readonly effectPct: number;
}

/** Null where nothing was forecast. */
export function choiceEffects({ effects }: ChoiceResult): Figure | null {
  const all = effects.flatMap(({ group, effects: of }): Row[] =>
    of.map(({ choice, effectPct }) => ({ group, choice: choice ?? 'as it is', effectPct })),
  );
  if (all.length === 0) return null;
  const [first] = effects;
  return {
    id: 'choices',
    title: 'What matters',
    description: `Each choice by itself, against the mean of its group. Most depends on ${plain(first.group)}: ${first.rangePct.toFixed(1)} % between its best and its worst.${all.length > MOST_ROWS ? ` The first ${MOST_ROWS} of ${all.length}.` : ''}`,
    drawing: {
      kind: 'rows',
      rows: {
        title: 'effect, %',
        noise: 0,
        rows: all.slice(0, MOST_ROWS).map(({ group, choice, effectPct }) => ({
          name: plainShort(choice === 'as it is' ? `${group}: as it is` : choice, 100),
          value: effectPct,
          error: null,
          figure: `${signed(effectPct, 2)} %`,
          colour: effectPct < 0 ? 'b' : 'a',
        })),
      },
    },
    table: figureTable<Row>(
      [
        { name: 'group', unit: '', cell: ({ group }) => plain(group), align: 'left' },
        { name: 'choice', unit: '', cell: ({ choice }) => plain(choice), align: 'left' },
        { name: 'effect', unit: '%', cell: ({ effectPct }) => signed(effectPct, 2) },
      ],
      all,
    ),
  };
}
