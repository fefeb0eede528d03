/** How often what the program says of its own error holds the published engines. */
import { MODEL_ERRORS } from '../../../packages/core/src/forecast/modelError.ts';
import { coverage, gainCoverage, ownError, ratedWithSpread } from '../modelErrors.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';

const rated = once(ratedWithSpread);
const { power } = MODEL_ERRORS.estimates;

const share = (deviations: number) => async () => 100 * coverage(await rated(), power, deviations);

function between(what: string, [from, to]: readonly [number, number], compute: PublishedCase['compute']) {
  const row = { unit: '%', decimals: 0, within: 0, compute };
  return [
    { ...row, what: `${what}, lower end`, value: from, relation: 'at least' as const },
    { ...row, what: `${what}, upper end`, value: to, relation: 'at most' as const },
  ];
}

export const coverageCases: PublishedSource = {
  title: 'What is said of the own error',
  source:
    'the engines of 1985 and 1993 of this page, every third; gains of peak power and torque by a carburetor and by rockers, common practice, no source',
  note: 'One standard deviation holds 68 % of normal errors, two 95 %. Production engines: the model and what is not known of them together. Gains: the model alone.',
  cases: [
    ...between('production engines within one standard deviation of their rating', [55, 80], share(1)),
    {
      what: 'production engines within two',
      value: 85,
      unit: '%',
      decimals: 0,
      within: 0,
      relation: 'at least',
      compute: share(2),
    },
    {
      what: 'what they leave to the model itself beside what is not known of them, no more than is said of engines with sheets',
      value: 100 * MODEL_ERRORS.sheets.power,
      unit: '%',
      decimals: 1,
      within: 0,
      relation: 'at most',
      compute: async () => 100 * ownError(await rated()),
    },
    ...between(
      'gains of one eight within one standard deviation of the model',
      [50, 80],
      () => 100 * gainCoverage(1),
    ),
    {
      what: 'gains of one eight within two',
      value: 75,
      unit: '%',
      decimals: 0,
      within: 0,
      relation: 'at least',
      compute: () => 100 * gainCoverage(2),
    },
  ],
};
