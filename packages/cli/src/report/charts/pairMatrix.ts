/** What two changes do to each other: the gain of both less the gains of each. */
import type { RankingResult } from '@valvetide/core';
import { plain } from '../../render/plain.ts';
import { signed } from '../../render/signed.ts';
import { gridSpec } from '../draw/grid.ts';
import { type Figure, figureTable } from '../figure.ts';

/** More columns than this can't carry a figure each. */
const MOST = 10;
/** Width that has room for hundredths. */
const WIDE = 600;
/** An interaction as large as what a dyno hardly tells [%]. */
const STRONGEST = 0.5;
const LETTERS = 'ABCDEFGHIJ';

/** Null where no two changes go together. */
export function pairMatrix({ changes, pairs }: RankingResult): Figure | null {
  if (pairs.length === 0) return null;
  const names = changes.slice(0, MOST).map(({ name }) => name);
  const cells = pairs.flatMap(({ a, b, interactionPct, verdict }) => {
    const [i, j] = [names.indexOf(a), names.indexOf(b)].sort((x, y) => x - y);
    if (i < 0) return [];
    return [
      {
        row: j - 1,
        column: i,
        value: interactionPct,
        marked: verdict !== 'independent',
      },
    ];
  });
  const told = pairs.filter(({ verdict }) => verdict !== 'independent');
  const left = changes.length - names.length;
  return {
    id: 'pairs',
    title: 'Pairs',
    description: `A is ${plain(names[0])}. Gain of two changes together less the gains of each [%]: above zero they help each other, below zero they are worth less together. Framed: large enough to be named. ${told.length === 0 ? 'None is.' : told.map(({ a, b, verdict }) => `${plain(a)} and ${plain(b)}: ${verdict}.`).join(' ')}${left > 0 ? ` ${left} smaller changes are in the table only.` : ''}`,
    drawing: {
      kind: 'spec',
      spec: (width) =>
        gridSpec(
          {
            rowTitle: '',
            columnTitle: 'gain beyond the sum of both, %',
            // The first pairs with those below it, the last with those above: half the grid says all.
            rows: names.map((name, i) => `${LETTERS[i]} ${plain(name)}`).slice(1),
            columns: names.slice(0, -1).map((_, i) => LETTERS[i]),
            cells: cells.map((cell) => ({ ...cell, text: signed(cell.value, width > WIDE ? 2 : 1) })),
            strongest: STRONGEST,
          },
          width,
        ),
    },
    table: figureTable(
      [
        { name: 'pair', unit: '', cell: ({ a, b }) => `${a} + ${b}`, align: 'left' },
        { name: 'together', unit: '%', cell: ({ togetherPct }) => signed(togetherPct, 2) },
        { name: 'beyond the sum', unit: '%', cell: ({ interactionPct }) => signed(interactionPct, 2) },
        { name: '', unit: '', cell: ({ verdict }) => verdict, align: 'left' },
      ],
      pairs,
    ),
  };
}
