/** The standard octane-rating engine: the number the program asks for where a reference fuel just knocks. */
import { INCH_OF_MERCURY } from '../../../packages/core/src/base/constants.ts';
import { GUIDE, RAISED, rated } from '../../physics/ratingEngine.ts';
import type { PublishedCase, PublishedSource } from '../publishedCase.ts';

/** Above it the reference fuels hold lead. */
const SET_TO = 100;

/** Counter of iso-octane by the research method, and sparks at which the knockmeter was read there [deg]. */
const ISO_OCTANE = 919;
const SPARKS = [13, 8] as const;

function askedAt(spark: number): number {
  return rated('research', ISO_OCTANE, undefined, spark).octane;
}

/** Counter of the reference fuel of 90 by the motor method. */
const PRF_90 = 749;

function cases(method: 'research' | 'motor'): PublishedCase[] {
  return GUIDE[method].map(([octane, counter]) => ({
    what: `${method} method, reference fuel of ${octane}`,
    value: octane,
    unit: '',
    decimals: 1,
    within: 3,
    aim: octane > SET_TO,
    cause:
      'the fuel holds lead, which the law of the delay does not know: by the motor method the same fuel comes out right, so that no one continuation of the law beyond 100 does both. That by performance numbers, which define the scale there, would make 120 and 106 of it',
    compute: () => rated(method, counter).octane,
  }));
}

export const ratingCases: PublishedSource = {
  title: 'Standard octane-rating engine',
  source:
    'ASTM D2699-15a and D2700-14, tables A4.1, digits noted once and not compared with the print since; compression ratio by Choi et al., SAE 2018-01-0848; burn, airflow and work by Kolodziej and Wallner, Combustion Engines 171 (2017) 164; a degree of spark: Pal et al., SAE 2018-01-0187, fig. 1, with 12 to 15 units of the knockmeter a number (ASTM D2699)',
  note: 'The one constant of knock is set here, on both methods from 80 to 100.',
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
    {
      what: 'octane that a degree of spark is worth from 13 to 8 deg, at the height for iso-octane',
      value: 0.75,
      unit: '',
      decimals: 2,
      within: 0.1,
      aim: true,
      cause:
        'walls that cool as the spark is set back count in it: with walls as warm at both sparks it is 0.84; 0.65 to 0.85 is what the reading and the units of the meter leave open',
      compute: () => (askedAt(SPARKS[0]) - askedAt(SPARKS[1])) / (SPARKS[0] - SPARKS[1]),
    },
  ],
};
