/** Sizes of units by mathjs, with the trade's units and spellings added. */

import { INCH_OF_MERCURY, INCH_OF_WATER, STANDARD_ATMOSPHERE } from './constants.ts';
import type { UnitClass } from './unitClass.ts';
import type { UnitSize, UnitSizes } from './unitSize.ts';
import { UNIT_WORDS } from './unitWords.ts';

/** Where a scale of temperature has its zero, in its own degrees above absolute zero, and one of them [K]. */
const SCALES: Readonly<Record<string, readonly [zero: number, degree: number]>> = {
  degC: [273.15, 1],
  degF: [459.67, 5 / 9],
};

/** Units by their names in lower case, as shop software shouts them, where mathjs has another spelling. */
const SPELLINGS: Readonly<Record<string, string>> = {
  pa: 'Pa',
  kpa: 'kPa',
  hpa: 'hPa',
  kj: 'kJ',
  btu: 'BTU',
  inhg: 'inHg',
  inh2o: 'inH2O',
  mmhg: 'mmHg',
  mmh2o: 'mmH2O',
  cmh2o: 'cmH2O',
  k: 'K',
  degc: 'degC',
  celsius: 'degC',
  degf: 'degF',
  fahrenheit: 'degF',
  degr: 'degR',
};

const PREFIXES = {
  micro: 'u',
  milli: 'm',
  centi: 'c',
  deci: 'd',
  hecto: 'h',
  kilo: 'k',
  mega: 'M',
  giga: 'G',
};

/** What is handed to the library at all: names with powers, their products and quotients. */
const NAMES = /^[a-z]+\d?[a-z]*(?:\^-?\d+)?(?:[*/][a-z]+\d?[a-z]*(?:\^-?\d+)?)*$/iu;
const NAME = /[a-z]+\d?[a-z]*/giu;
/** Longest name of a unit worth a look. */
const MAX_NAME = 24;

/** @param Unit - a class of units that nothing else uses: the trade's units are added to it */
export function unitsOfMathjs(Unit: UnitClass): UnitSizes {
  addUnits(Unit);
  // The library reads a name afresh each time, and a file repeats a few of them. What is no unit is not kept: there is no end of it.
  const met = new Map<string, UnitSize>();
  return (name) => {
    const before = met.get(name);
    if (before !== undefined) return before;
    if (name.length > MAX_NAME || !NAMES.test(name)) return null;
    const size = sizeOf(
      Unit,
      name.replace(NAME, (one) => usualName(Unit, one)),
    );
    if (size !== null) met.set(name, size);
    return size;
  };
}

function sizeOf(Unit: UnitClass, name: string): UnitSize | null {
  const unit = unitNamed(Unit, name);
  if (unit === null) return null;
  const powers = unit.dimensions;
  if (!Object.hasOwn(SCALES, name)) return { size: Number(unit.value), zero: 0, powers };
  const [zero, size] = SCALES[name];
  return { size, zero, powers };
}

/** A unit's name as the library has it. Case counts where it tells `mPa` from `MPa`. */
function usualName(Unit: UnitClass, name: string): string {
  const lower = name.toLowerCase();
  if (Object.hasOwn(SPELLINGS, lower) && unitNamed(Unit, name) === null) return SPELLINGS[lower];
  return (
    [name, inWords(lower.replace(/s$/u, '')), lower].find((other) => unitNamed(Unit, other) !== null) ?? name
  );
}

function inWords(name: string): string {
  for (const [word, prefix] of Object.entries(PREFIXES))
    if (name.startsWith(word) && Object.hasOwn(UNIT_WORDS, name.slice(word.length)))
      return prefix + UNIT_WORDS[name.slice(word.length)];
  return Object.hasOwn(UNIT_WORDS, name) ? UNIT_WORDS[name] : name;
}

function unitNamed(Unit: UnitClass, name: string): InstanceType<UnitClass> | null {
  try {
    return new Unit(1, name);
  } catch {
    return null;
  }
}

/** Adds the trade's units, and gives two all their digits. */
function addUnits(Unit: UnitClass): void {
  Unit.createUnit(
    {
      thou: '0.001 in',
      micron: '0.001 mm',
      cfm: '1 ft^3/min',
      inHg: `${INCH_OF_MERCURY} Pa`,
      inH2O: `${INCH_OF_WATER} Pa`,
      mmHg: `${INCH_OF_MERCURY / 25.4} Pa`,
      torr: `${STANDARD_ATMOSPHERE / 760} Pa`,
      rpm: '1 / min',
    },
    { override: true },
  );
}
