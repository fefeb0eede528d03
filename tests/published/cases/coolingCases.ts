/** How much colder direct injection keeps the charge than injection at the port, told by knock. */
import { readCombination } from '../../../packages/core/src/reading/readCombination.ts';
import { wholeForecast } from '../../../packages/core/test/forecast/wholeForecast.ts';
import type { PublishedCase, PublishedSource } from '../publishedCase.ts';

const RPM = 2000;

/** Octane that a four of no one's make asks for in air of so many deg C, half burned at 12 deg. */
function asked(injection: 'port' | 'direct', fuel: string, celsius: number): number {
  const read = readCombination(`
name: a four with either injection
engine: { bore: 86 mm, stroke: 86 mm, cylinders: 4, ratedSpeed: 5600 rpm }
chamber: { compression: 9.2 }
heads: { valvesPerCylinder: 4 }
induction: { throttle: {}, injection: ${injection}, manifold: long-runner }
fuel: ${fuel}
burn: { ca50: 12 deg }
weather: { barometer: 100 kPa, temperature: ${celsius} degC, vapourPressure: 0 kPa }
correction: J1349
`);
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return wholeForecast(read.value, { rpm: [RPM] }).points[0].octaneRequired;
}

/** How much warmer the air may be with direct injection for the octane that injection at the port asks for [K]. */
function warmer(fuel: string, guess: number): number {
  const cold = asked('direct', fuel, 0);
  return (guess * (asked('port', fuel, 0) - cold)) / (asked('direct', fuel, guess) - cold);
}

const row = (
  name: string,
  fuel: string,
  value: number,
): Pick<PublishedCase, 'what' | 'value' | 'unit' | 'decimals' | 'compute'> => ({
  what: `${name}: warmer air that direct injection bears for the same octane`,
  value,
  unit: 'K',
  decimals: 0,
  compute: () => warmer(fuel, value),
});

export const coolingCases: PublishedSource = {
  title: 'Charge cooled by direct injection',
  source:
    'Kasseris and Heywood, SAE 2012-01-1275 (2012), abstract: the intake air of direct injection warmed until a supercharged engine knocked as with injection at the port, 14 K with gasoline and 49 K with E85, 70 % of what evaporation can do',
  note: `One four of the program's own at ${RPM} rpm, in air of 0 deg C and warmed by the published figure.`,
  cases: [
    { ...row('gasoline', 'pump-93', 14), within: 4 },
    {
      ...row('E85', 'e85', 49),
      within: 8,
      aim: true,
      cause:
        'at the port, too, some of an alcohol evaporates in the cylinder here: as much of it is taken to lie on walls and valve as of gasoline. Which of the two is off, that or the drops, the measurement does not tell',
    },
  ],
};
