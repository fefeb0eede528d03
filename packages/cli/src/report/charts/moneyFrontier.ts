/** The most gain for each sum of money, and the best builds beside it. */
import type { ChoiceResult } from '@valvetide/core';
import { FRONTIER_COLUMNS } from '../../render/chosenText.ts';
import { fixed } from '../../render/fixed.ts';
import { signed } from '../../render/signed.ts';
import { type Figure, figureTable } from '../figure.ts';

/** Null where no build states what it costs, or money makes no difference. */
export function moneyFrontier({ frontier, builds }: ChoiceResult): Figure | null {
  const points = frontier.flatMap(({ cost, gainPct }) => (cost === null ? [] : [{ x: cost, y: gainPct }]));
  if (points.length < 2) return null;
  const best = builds.flatMap(({ cost, gainPct }) => (cost === null ? [] : [{ x: cost, y: gainPct }]));
  const [last] = points.slice(-1);
  return {
    id: 'money',
    title: 'What money buys',
    description: `The most gain for each sum, among builds that were forecast: from ${signed(points[0].y, 1)} % for ${fixed(points[0].x)} to ${signed(last.y, 1)} % for ${fixed(last.x)}. Diamonds: the best builds.`,
    drawing: {
      kind: 'plot',
      plot: {
        x: { title: 'cost', zero: true, whole: true },
        y: { title: 'gain, %', zero: true },
        layers: [
          { kind: 'line', name: 'most gain for the money', points, colour: 'a', marked: true },
          { kind: 'dots', name: 'the best builds', points: best, colour: 'b', shape: 'diamond' },
        ],
      },
    },
    table: figureTable(FRONTIER_COLUMNS, frontier),
  };
}
