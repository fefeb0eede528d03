/** Units in words, which take prefixes in words, by their symbols: `millimetre`, `kilopascal`. */
export const UNIT_WORDS: Readonly<Record<string, string>> = {
  metre: 'm',
  meter: 'm',
  gram: 'g',
  second: 's',
  litre: 'l',
  liter: 'l',
  newton: 'N',
  pascal: 'Pa',
  bar: 'bar',
  joule: 'J',
  watt: 'W',
  hertz: 'Hz',
};
