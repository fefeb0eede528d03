/** Sound files made unsound: seeded, shrinking mutants of texts and of command lines. */
import fc from 'fast-check';

/** Bits of text that have broken readers before. */
const BITS: readonly string[] = [
  '\u0000',
  '\u001b[2J',
  '\u202e',
  '\u2028',
  '\uFEFF',
  '\uD800',
  '\uFFFD',
  '\u0085',
  'é',
  '漢字',
  '🔧',
  ',',
  ';',
  '\t',
  ':',
  ': ',
  '#',
  '- ',
  '? ',
  '|',
  '>',
  '&a ',
  '*a',
  '!!js/function ',
  '!x ',
  '%YAML 1.1\n',
  '---\n',
  '...\n',
  '{',
  '}',
  '[',
  ']',
  '"',
  "'",
  '`',
  '\\',
  '<<: *a',
  '\n',
  '\r',
  '\r\n',
  '  ',
  '<script>alert(1)</script>',
  '$' + '{1}',
  '{{x}}',
  '=1+1',
  '=HYPERLINK("http://x")',
  '+1',
  '@x',
  '9,5',
  '1.000,5',
  '1e999',
  '-',
  '../../x',
  '/etc/passwd',
  'null',
  '~',
  'yes',
  'NaN',
];

/** Numbers at every edge, and expressions that a units library might work out. */
const NUMBERS: readonly string[] = [
  '0',
  '-0',
  '-1',
  '1e308',
  '1e-308',
  '1e999',
  '-1e999',
  '.nan',
  '.inf',
  '-.inf',
  'NaN',
  'Infinity',
  '0x10',
  '0o17',
  '0b1',
  '1_000',
  '9,5',
  '1,234.5',
  '1.234,5',
  '٣',
  '１２',
  '9'.repeat(400),
  `0.${'0'.repeat(400)}1`,
  '1/0',
  '0/0',
  '4-1/0',
  '1 2',
  '--1',
  '+1',
  '1.',
  '.5',
  '5 in + 3 in',
  'sqrt(2)',
  '2^99',
  'unit("5 in")',
  'import("fs")',
  '1;2',
  '(1)',
  '[1]',
  'true',
  'pi',
  'e',
  '1 e',
];
const UNITS: readonly string[] = [
  'in',
  'mm',
  'cm',
  'kg',
  'in^9',
  'in/s',
  '1/in',
  'in in',
  'm*m',
  '%',
  '°',
  '"',
  'lightyear',
  'constructor',
  '__proto__',
  'toString',
  '',
  'deg',
  'cfm',
];
const KEYS: readonly string[] = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'valueOf',
  'length',
  '0',
  '5',
  '9,5',
  '',
  'a.b',
  'engine',
  'x'.repeat(300),
];

const place = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const at = (text: string, share: number): number => Math.floor(share * (text.length + 1));

/** One change of a text. */
type Edit = (text: string) => string;

const edits: readonly fc.Arbitrary<Edit>[] = [
  fc.tuple(place, fc.constantFrom(...BITS)).map(
    ([p, bit]) =>
      (t) =>
        t.slice(0, at(t, p)) + bit + t.slice(at(t, p)),
  ),
  fc.tuple(place, fc.integer({ min: 1, max: 30 })).map(
    ([p, n]) =>
      (t) =>
        t.slice(0, at(t, p)) + t.slice(at(t, p) + n),
  ),
  place.map((p) => (t) => t.slice(0, at(t, p))),
  fc.tuple(place, fc.integer({ min: 0, max: 0x1ff })).map(
    ([p, code]) =>
      (t) =>
        t.slice(0, at(t, p)) + String.fromCharCode(code) + t.slice(at(t, p) + 1),
  ),
  // A number for another.
  fc.tuple(place, fc.constantFrom(...NUMBERS)).map(
    ([p, number]) =>
      (t) =>
        swap(t, /-?\d+(?:\.\d+)?/gu, p, number),
  ),
  // A unit or word for another.
  fc.tuple(place, fc.constantFrom(...UNITS)).map(
    ([p, unit]) =>
      (t) =>
        swap(t, /(?<=\d )[a-z%]+/giu, p, unit),
  ),
  // A name for another, and one more of it.
  fc.tuple(place, fc.constantFrom(...KEYS)).map(
    ([p, key]) =>
      (t) =>
        swap(t, /[a-z][\w$]*(?=:)/giu, p, key),
  ),
  fc.tuple(place, fc.constantFrom(...KEYS)).map(
    ([p, key]) =>
      (t) =>
        swap(t, /[a-z][\w$]*(?=:)/giu, p, `${key}: 1\n$&`),
  ),
  // Lines twice, out of order, further in.
  fc.tuple(place, place, fc.constantFrom('twice', 'moved', 'indented', 'gone')).map(
    ([p, q, what]) =>
      (t) =>
        relined(t, p, q, what),
  ),
  // Much of the same.
  fc.tuple(place, place, fc.integer({ min: 2, max: 300 })).map(
    ([p, q, n]) =>
      (t) =>
        repeated(t, p, q, n),
  ),
  fc
    .tuple(place, fc.constantFrom('[', '{', '- ', '"', '(', ' ', '\n'), fc.integer({ min: 1, max: 3000 }))
    .map(
      ([p, bit, n]) =>
        (t) =>
          t.slice(0, at(t, p)) + bit.repeat(n) + t.slice(at(t, p)),
    ),
  // Other encodings, read as if they were this one.
  fc.constantFrom<Edit>(
    (t) => Buffer.from(t, 'utf16le').toString('utf8'),
    (t) => Buffer.from(`${t}é`, 'latin1').toString('utf8'),
    (t) => t.replaceAll('\n', '\r'),
    (t) => `\uFEFF${t}`,
    (t) => t.toUpperCase(),
    (t) => t.replaceAll('.', ','),
    (t) => t.replaceAll(',', ';'),
  ),
];

function swap(text: string, pattern: RegExp, share: number, by: string): string {
  const found = [...text.matchAll(pattern)];
  if (found.length === 0) return text + by;
  const match = found[Math.floor(share * found.length)];
  return text.slice(0, match.index) + by.replace('$&', match[0]) + text.slice(match.index + match[0].length);
}

function relined(text: string, from: number, to: number, what: string): string {
  const lines = text.split('\n');
  const i = Math.floor(from * lines.length);
  const j = Math.floor(to * lines.length);
  const line = lines[i];
  if (what === 'indented') return lines.with(i, `  ${line}`).join('\n');
  if (what === 'gone') return lines.toSpliced(i, 1).join('\n');
  const rest = what === 'moved' ? lines.toSpliced(i, 1) : lines;
  return rest.toSpliced(j, 0, line).join('\n');
}

function repeated(text: string, from: number, to: number, count: number): string {
  const a = Math.min(at(text, from), at(text, to));
  const b = Math.max(at(text, from), at(text, to));
  return text.slice(0, b) + text.slice(a, b).repeat(count) + text.slice(b);
}

/** Mutants of some sound texts. */
export function mutantOf(seeds: readonly string[]): fc.Arbitrary<string> {
  return fc
    .tuple(fc.constantFrom(...seeds), fc.array(fc.oneof(...edits), { minLength: 1, maxLength: 5 }))
    .map(([seed, list]) => list.reduce((text, edit) => edit(text), seed).slice(0, 3_000_000));
}

/** Command lines from the words of all commands, files that are there and not, and hostile text, in any order. */
export function commandLine(
  commands: readonly string[],
  options: readonly string[],
  files: readonly string[],
): fc.Arbitrary<string[]> {
  const value = fc.oneof(
    fc.constantFrom(...files),
    fc.constantFrom(...BITS),
    fc.constantFrom(...NUMBERS),
    fc.constantFrom(
      '3000:5000:1000',
      '4000',
      '4000,5000',
      '5000:3000:100',
      '1:2',
      '::',
      '120 lb-ft @ 3000',
      '99 hp',
      'J607',
      'si',
      'cam.advance=1:3:1 deg',
      'engine.bore=4 in',
      'x=',
      '=',
      'a=b',
    ),
    fc.string({ unit: 'binary', maxLength: 20 }),
  );
  const word = fc.oneof(
    { weight: 3, arbitrary: fc.constantFrom(...options) },
    {
      weight: 2,
      arbitrary: fc.tuple(fc.constantFrom(...options), value).map(([option, text]) => `${option}=${text}`),
    },
    { weight: 4, arbitrary: value },
    {
      weight: 1,
      arbitrary: fc.constantFrom('--', '---', '-', '--__proto__', '--constructor', '--no-', '-hV', '-ooo'),
    },
  );
  return fc
    .tuple(
      fc.constantFrom(...commands, 'help', '', '__proto__', 'constructor'),
      fc.array(word, { maxLength: 8 }),
    )
    .map(([command, words]) => [command, ...words]);
}
