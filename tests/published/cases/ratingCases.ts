/** The standard octane-rating engine: the number the program asks for where a reference fuel just knocks. */
import { INCH_OF_MERCURY } from '../../../packages/core/src/base/constants.ts';
import { GUIDE, RAISED, rated } from '../../physics/ratingEngine.ts';
import type { PublishedCase, PublishedSource } from '../publishedCase.ts';

/** Fuels on which the one constant was set. */
const SET_FROM = 90;
const SET_TO = 100;

/** Counter of the reference fuel of 90 by the motor method. */
const PRF_90 = 749;

function cases(method: 'research' | 'motor'): PublishedCase[] {
  return GUIDE[method].map(([octane, counter]) => ({
    what: `${method} method, reference fuel of ${octane}`,
    value: octane,
    unit: '',
    decimals: 1,
    within: 3,
    aim: octane < SET_FROM || octane > SET_TO,
    cause:
      octane < SET_FROM
        ? 'the law of the delay falls more slowly with compression than the table of the standard'
        : 'the fuel holds lead, which the law of the delay does not know',
    compute: () => rated(method, counter).octane,
  }));
}

export const ratingCases: PublishedSource = {
  title: 'Standard octane-rating engine',
  source:
    'ASTM D2699-15a and D2700-14, tables A4.1, digits noted once and not compared with the print since; compression ratio by Choi et al., SAE 2018-01-0848; burn, airflow and work by Kolodziej and Wallner, Combustion Engines 171 (2017) 164',
  note: 'The one constant of knock is set here, on both methods from 90 to 100.',
  cases: [
    ...cases('research'),
    ...cases('motor'),
    ...RAISED.map(
      ([barometer, counts]): PublishedCase => ({
        what: `motor method, reference fuel of 90, raised by ${counts} counts for a barometer of ${barometer} inHg`,
        value: 90,
        unit: '',
        decimals: 1,
        within: 3,
        compute: () => rated('motor', PRF_90 + counts, barometer * INCH_OF_MERCURY).octane,
      }),
    ),
  ],
};
