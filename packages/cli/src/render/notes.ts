/** What stands under every result: the assumed ledger, the warnings and the cautions. */
import type { Assumed, Warning } from '@valvetide/core';
import { assumedIn } from './assumedUnits.ts';
import { plain } from './plain.ts';
import { table } from './table.ts';
import type { UnitSystem } from './units.ts';
import { wrap } from './wrap.ts';

/** The values the file left out, in the order of the file. */
export function assumedTable(listed: readonly Assumed[], units: UnitSystem): string {
  const columns = [
    { name: 'field', unit: '', cell: (item: Assumed) => plain(item.path), align: 'left' as const },
    { name: 'assumed', unit: '', cell: assumedValue, align: 'left' as const },
    { name: '+/-', unit: '', cell: assumedSpread, align: 'left' as const },
  ];
  return (
    assumedHeading(listed) +
    (listed.length === 0 ? '' : table(columns, assumedIn(listed, units), Number.POSITIVE_INFINITY))
  );
}

/** The same, each with its reason. */
export function assumedReasons(listed: readonly Assumed[], units: UnitSystem, width: number): string {
  const entries = assumedIn(listed, units).flatMap((item) => {
    const spread = assumedSpread(item);
    return [
      `  ${plain(item.path)}: ${assumedValue(item)}${spread === '' ? '' : ` +/- ${spread}`}\n`,
      ...wrap(plain(item.reason), width - 4).map((line) => `    ${line}\n`),
    ];
  });
  return assumedHeading(listed) + entries.join('');
}

function assumedHeading({ length }: readonly Assumed[]): string {
  return length === 0
    ? 'Assumed: nothing, the file gives every value.\n'
    : `Assumed, because the file leaves it out (${length}):\n`;
}

export function assumedValue(item: Assumed): string {
  const value = typeof item.value === 'number' ? shortNumber(item.value, 4) : item.value;
  return plain(item.unit === '' ? value : `${value} ${item.unit}`);
}

export function assumedSpread(item: Assumed): string {
  if (item.spread === null || item.spread === 0) return '';
  const spread = shortNumber(item.spread, 2);
  return plain(item.unit === '' ? spread : `${spread} ${item.unit}`);
}

/** Significant digits, written out. */
function shortNumber(value: number, digits: number): string {
  return String(Number(value.toPrecision(digits)));
}

/** Says how speeds were computed, and doubts nothing: it stands with the speeds. */
const NO_DOUBT = 'every-cylinder-marched';

/** What may be wrong, or be done better. */
export function doubtsOf(warnings: readonly Warning[]): readonly Warning[] {
  return warnings.filter(({ code }) => code !== NO_DOUBT);
}

/** At which speeds every cylinder was computed, though one was asked for; empty where none. */
export function wholeSpeedsLine(warnings: readonly Warning[]): string {
  const [whole] = warnings.filter(({ code }) => code === NO_DOUBT);
  return whole === undefined ? '' : `${whole.message.replace(/^a/u, 'A')}.`;
}

export function warningLines(warnings: readonly Warning[]): string[] {
  return doubtsOf(warnings).map((warning) => {
    const path = warning.path === '' ? '' : `${warning.path}: `;
    return plain(`warning: ${path}${warning.message}`);
  });
}

export function warningsText(warnings: readonly Warning[], width: number): string {
  return linesText(warningLines(warnings), width);
}

/** What a study notes of itself, a line each. */
export function noteLines(notes: readonly string[]): readonly string[] {
  return notes.map((note) => `note: ${plain(note)}`);
}

/** A paragraph; nothing for nothing. */
export function wrapped(text: string, width: number): string {
  return text === '' ? '' : `${wrap(text, width).join('\n')}\n`;
}

/** Each on lines of its own. */
export function linesText(lines: readonly string[], width: number): string {
  return lines
    .flatMap((line) => wrap(line, width, '  '))
    .map((line) => `${line}\n`)
    .join('');
}

const CAUTIONS = [
  'A forecast is not a clearance: check piston to valve, piston to head, coil bind and retainer to seal by hand before the engine turns.',
  'Set the limiter 200 to 300 rpm above the planned limit and never past the weakest part.',
  'Start rich and 4 to 6 degrees retarded; back off at the first sign of detonation.',
  'Nobody in the dyno cell or in the plane of rotation at load. Local codes and licensed practice decide.',
];

export function cautionsText(width: number): string {
  const lines = CAUTIONS.flatMap((caution) => wrap(`- ${caution}`, width, '  '));
  return `Cautions\n${lines.map((line) => `${line}\n`).join('')}`;
}
