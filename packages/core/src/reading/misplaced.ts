/** Where a name belongs that is a field of another section, or says section and field in one word. */
import * as z from 'zod/mini';
import { join, type Plain } from './combinationDocument.ts';
import { fieldNames, shapesAt } from './fieldNames.ts';
import { foldedName, nearestName } from './nearestName.ts';
import { pathsOf } from './schema/fieldPaths.ts';
import type { FieldShape } from './schema/fieldShape.ts';
import { wordForField } from './tradeWords.ts';

/** Most sections named as the place of a field. */
const MOST_NAMED = 5;
/** Longest value repeated in a hint [characters]. */
const LONGEST_VALUE = 30;

/** A field that a section doesn't have. */
export interface UnknownField {
  readonly name: string;
  /** Path of the section it stands in; empty for the file. */
  readonly section: string;
  readonly value: Plain | undefined;
}

/** What to write in place of a field; null where no other section has one of that name that takes such a value. */
export function wordForMisplaced(field: UnknownField, root: FieldShape): string | null {
  const { name, section } = field;
  return (
    joinedWord(field, section, foldedName(name), root) ??
    wordForOther(field, root) ??
    joinedWord(field, '', foldedName(name), root) ??
    wordsForFields(field, root)
  );
}

/** Where the fields belong that stand in a section that is none; null where one of them belongs nowhere, or its name is a slip of one that is. */
function wordsForFields({ name, section, value }: UnknownField, root: FieldShape): string | null {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return null;
  if (nearestName(name, namesIn(section, root)) !== null) return null;
  const fields = Object.entries(value as Readonly<Record<string, Plain>>).slice(0, MOST_NAMED);
  const words = fields.map(([inner, within]) => {
    const word = wordForOther({ name: inner, section: join(section, name), value: within }, root);
    return word === null ? null : `${inner}: ${word}`;
  });
  return words.length === 0 || words.includes(null) ? null : words.join('; ');
}

/** `intakeValve` as `intake: { valve: 2.02 in }`: the name of a section within `around`, before or behind that of a field of it. */
function joinedWord(field: UnknownField, around: string, written: string, root: FieldShape): string | null {
  for (const sub of namesIn(around, root)) {
    const at = join(around, sub);
    const names = namesIn(at, root);
    const rest = withoutEnd(written, foldedName(sub));
    if (names.length === 0 || rest === null) continue;
    const trade = wordForField(join(at, rest));
    if (trade !== null) return `in ${at}: ${trade}`;
    const nearest = nearestName(rest, names);
    if (nearest !== null) return placeWord(join(at, nearest), field);
    const deeper = joinedWord(field, at, rest, root);
    if (deeper !== null) return deeper;
  }
  return null;
}

/** The sections that have a field of this very name: those nearest below, else the least deep of all. */
function wordForOther(field: UnknownField, root: FieldShape): string | null {
  const written = foldedName(field.name);
  const same = pathsOf(root).filter(
    (path) => foldedName(path.slice(path.lastIndexOf('.') + 1)) === written && takes(path, field.value, root),
  );
  const below = same.filter((path) => path.startsWith(`${field.section}.`));
  const found = leastDeep(below.length > 0 ? below : same);
  if (found.length === 1) return placeWord(found[0], field);
  if (found.length === 0 || found.length > MOST_NAMED) return null;
  const places = found.map((path) => path.slice(0, path.lastIndexOf('.')));
  return `it belongs in ${places.slice(0, -1).join(', ')} or ${places.at(-1)}`;
}

/** The field at its place, said from the section in which it stands now. */
function placeWord(path: string, { section, value }: UnknownField): string {
  if (section === '' || path.startsWith(`${section}.`)) return `write ${nested(path, section, value)}`;
  return path.includes('.')
    ? `it belongs in ${nested(path, '', value)}`
    : `it stands beside ${section.split('.')[0]}, not in it`;
}

/** Whether a field takes such a value: a section fields, another its units and its range. A number alone may lack its unit. */
function takes(path: string, value: Plain | undefined, root: FieldShape): boolean {
  if (typeof value === 'number') return true;
  return shapesAt(path.split('.'), root).some(({ properties, schema }) =>
    value !== null && typeof value === 'object'
      ? properties !== undefined
      : schema !== undefined && z.safeParse(schema, value).success,
  );
}

/** Names of the fields right within a section. */
function namesIn(section: string, root: FieldShape): readonly string[] {
  return fieldNames(section === '' ? [] : section.split('.'), root);
}

/** What is left of a word without another at its beginning or its end; null where it has it at neither, or is no longer. */
function withoutEnd(word: string, end: string): string | null {
  if (word.length <= end.length) return null;
  if (word.startsWith(end)) return word.slice(end.length);
  return word.endsWith(end) ? word.slice(0, -end.length) : null;
}

function leastDeep(paths: readonly string[]): readonly string[] {
  const depth = (path: string): number => path.split('.').length;
  const least = Math.min(...paths.map(depth));
  return paths.filter((path) => depth(path) === least);
}

/** A field as written within a section: `intake: { valve: 2.02 in }`. */
function nested(path: string, section: string, value: Plain | undefined): string {
  const names = path.slice(section === '' ? 0 : section.length + 1).split('.');
  const last = names.pop() ?? '';
  const inner = `${last}: ${shortValue(value)}`;
  return names.reduceRight((within, name) => `${name}: { ${within} }`, inner);
}

function shortValue(value: Plain | undefined): string {
  const plain = value === undefined || typeof value === 'object' ? '' : String(value);
  return plain === '' || plain.length > LONGEST_VALUE ? '…' : plain;
}
