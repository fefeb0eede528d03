/** How much colder direct injection keeps the charge than injection at the port, told by knock. */
import type { Combination } from '../../../packages/core/src/combination/combination.ts';
import { readCombination } from '../../../packages/core/src/reading/readCombination.ts';
import { wholeForecast } from '../../../packages/core/test/forecast/wholeForecast.ts';
import type { PublishedCase, PublishedSource } from '../publishedCase.ts';

const RPM = 2000;

/** Air behind the cooler of a supercharger [K]; common practice, no source. */
const COOLED = 303.15;

/** A four of no one's make, half burned at 12 deg. */
function four(injection: 'port' | 'direct', fuel: string): Combination {
  const read = readCombination(`
name: a four with either injection
engine: { bore: 86 mm, stroke: 86 mm, cylinders: 4, ratedSpeed: 5600 rpm }
chamber: { compression: 9.2 }
heads: { valvesPerCylinder: 4 }
induction: { throttle: {}, injection: ${injection}, manifold: long-runner }
fuel: ${fuel}
burn: { ca50: 12 deg }
weather: { barometer: 100 kPa, temperature: 30 degC, vapourPressure: 0 kPa }
correction: J1349
`);
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return read.value;
}

/** Octane that it asks for in air so much warmer than cooled [K]. */
function asked(injection: 'port' | 'direct', fuel: string, warmer: number): number {
  const engine = four(injection, fuel);
  const weather = { ...engine.weather, temperature: COOLED + warmer };
  return wholeForecast({ ...engine, weather }, { rpm: [RPM] }).points[0].octaneRequired;
}

/** Filling gained by direct injection over injection at the port, stoichiometric [%]. */
function filled(fuel: string): number {
  const [port, direct] = (['port', 'direct'] as const).map((injection) => {
    const engine = { ...four(injection, fuel), lambda: 1 };
    return wholeForecast(engine, { rpm: [RPM] }).points[0].volumetricEfficiency;
  });
  return 100 * (direct / port - 1);
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
    'Kasseris and Heywood, SAE 2012-01-1275 (2012), abstract: the intake air of direct injection warmed until a supercharged engine knocked as with injection at the port, 14 K with gasoline and 49 K with E85, 70 % of what evaporation can do; filling: Wyszynski, Stone and Kalghatgi, SAE 2002-01-0839, abstract: a single cylinder, stoichiometric',
  note: `One four of the program's own at ${RPM} rpm, in air of 30 deg C and warmed by the published figure. How much of the fuel hot walls of the port evaporate was set by the first two rows, one figure for both fuels.`,
  cases: [
    { ...row('gasoline', 'pump-93', 14), within: 4 },
    { ...row('E85', 'e85', 49), within: 8 },
    {
      what: 'gasoline: filling gained by direct injection over injection at the port',
      value: 9,
      unit: '%',
      decimals: 1,
      within: 3,
      aim: true,
      cause:
        'it is all that evaporation can do: 20 K of 300 are 6.7 %, and the room of the vapour is 1.7 %. Of that 70 % is left by the knock of the same four, and what is colder is warmed more by the walls of port and cylinder',
      compute: () => filled('pump-93'),
    },
  ],
};
