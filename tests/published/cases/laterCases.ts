/** Production engines of later years, forecast from next to nothing. */
import { forecastLater, laterEngines, type Rated } from '../laterPopulations.ts';
import { median } from '../population.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';

const results = {
  1993: once(() => laterEngines(1993).map((engine) => forecastLater(engine))),
  // Every second one: the table is long, and each engine takes three speeds.
  2004: once(() =>
    laterEngines(2004)
      .filter((_, i) => i % 2 === 0)
      .map((engine) => forecastLater(engine)),
  ),
} as const;

/** Forecasts beside ratings, for the model's own error too. */
function laterResults(year: 1993 | 2004): readonly Rated[] {
  return results[year]();
}

const ratio = ({ ours, rated }: Rated): number => ours / rated;
const middle = (rated: readonly Rated[]): number => 100 * (median(rated.map(ratio)) - 1);
const within = (rated: readonly Rated[]): number =>
  (100 * rated.filter((one) => Math.abs(ratio(one) - 1) <= 0.15).length) / rated.length;

const offBy = { value: 0, unit: '%', decimals: 1 } as const;
const share = { unit: '%', decimals: 0, within: 0, relation: 'at least' } as const;

function casesOf(
  year: 1993 | 2004,
  allowed: { readonly median: number; readonly share: number },
): PublishedCase[] {
  const of = (what: string, keep: (rated: Rated) => boolean, most: number): PublishedCase => ({
    what: `${what}, median of forecast over rated power less one`,
    ...offBy,
    within: most,
    compute: () => middle(laterResults(year).filter(keep)),
  });
  return [
    of(`${year}`, () => true, allowed.median),
    {
      ...of(`${year}, every one`, () => true, 3),
      aim: true,
      cause:
        'bore, stroke and compression are not in the table, and the estimates of cam and ports come from engines of 1985',
    },
    of(`${year}, two valves`, ({ engine }) => engine.valves === 2, 10),
    of(`${year}, four valves`, ({ engine }) => engine.valves === 4, 8),
    {
      what: `${year}, engines within 15 % of their rating`,
      ...share,
      value: allowed.share,
      compute: () => within(laterResults(year)),
    },
  ];
}

export const laterCases: PublishedSource = {
  title: 'Production engines of 1993 and 2004',
  source:
    'R. H. Lock, Journal of Statistics Education 1(1), 1993; new car and truck data of 2004, the same journal; tests/data/cars-1993.md and cars-2004.md',
  note: 'Forecast from displacement, cylinders, valves per cylinder and, in 1993, the speed of the rating; bore over stroke and compression are medians. In 2004 the table has no speed of the rating: the most power around the speed the program takes for it stands beside the rating, so that engines made for high or low speed scatter more. Rotary, diesel, supercharged and motor-assisted cars are left out, and rows whose cylinders contradict the displacement.',
  cases: [...casesOf(1993, { median: 5, share: 90 }), ...casesOf(2004, { median: 5, share: 75 })],
};
