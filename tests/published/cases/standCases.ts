/** Carbureted eights beside their makers' ratings: the level, and how far torque falls from its top to the power peak. */
import { median } from '../population.ts';
import { once, type PublishedSource } from '../publishedCase.ts';
import { singlePlaneGain, standRatings } from '../standEights.ts';
import { GAIN_TOO_GREAT, TOP_TOO_STRONG } from './engineCases.ts';

const ratings = once(standRatings);
/** A rating is good for 4 to 6 %, the median of eight for half of that. */
const row = { value: 1, unit: '', decimals: 3, within: 0.03, aim: true } as const;

export const standCases: PublishedSource = {
  title: 'Eights rated on a stand',
  source:
    'catalogues of makers, the first engine read (cartipsdaily.com, 602 Crate Engine Specs; itstillruns.com, 602 Crate Engine Specifications), the others from memory; tests/data/stand-eights.md; the single plane, about 15 hp on top: M. Davis, Single-Plane vs. Dual-Plane (hotrod.com)',
  note: 'From bore, stroke, compression, valves and cam alone, at the speeds of the ratings. Of the eight two have heads of published flow. Two estimates were moved by these engines, the length of collectors and the loss of dual planes: what is left is no proof of the rest.',
  cases: [
    {
      ...row,
      what: 'torque over rated torque, at its speed, median of eight engines',
      cause:
        'carbureted two-valve eights read up to 7 % high in this report, with mufflers and on stands, and neither wall heat nor friction nor the burn is known to be wrong by so much. Since compression quickens a burn less than it was thought to, eights of 8 to 9:1 burn sooner and stand 1.3 % higher; ratings of 4 to 6 % are no proof against that',
      compute: () => median(ratings().map(({ torque }) => torque)),
    },
    {
      ...row,
      what: 'power over rated power, at its speed, median',
      cause: TOP_TOO_STRONG,
      compute: () => median(ratings().map(({ power }) => power)),
    },
    {
      ...row,
      what: 'the second over the first, engine by engine, median: one where the curve falls as rated',
      cause: TOP_TOO_STRONG,
      compute: () => median(ratings().map(({ torque, power }) => power / torque)),
    },
    {
      what: 'gain of peak power by a single plane, the engine rated at 385 hp',
      value: 3.9,
      unit: '%',
      decimals: 1,
      within: 3,
      aim: true,
      cause: GAIN_TOO_GREAT,
      compute: () => 100 * (singlePlaneGain() - 1),
    },
    {
      what: 'torque or power farthest from its rating, either way',
      value: 15,
      unit: '%',
      decimals: 0,
      within: 0,
      relation: 'at most',
      compute: () =>
        100 *
        Math.max(
          ...ratings()
            .flatMap((r) => [r.torque, r.power])
            .map((x) => Math.abs(x - 1)),
        ),
    },
  ],
};
