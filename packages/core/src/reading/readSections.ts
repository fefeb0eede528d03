/** A document's sections through their schemas: every complaint as a problem, every sound section as values. */
import type { Problem } from '../combination/problem.ts';
import type { CombinationDocument } from './combinationDocument.ts';
import { fieldNames } from './fieldNames.ts';
import { issueProblems } from './issueProblems.ts';
import { problemOf } from './problemOf.ts';
import { type PartialFile, SECTIONS } from './schema/combinationFile.ts';
import { type FieldShape, fileShape } from './schema/fieldShape.ts';
import { unknownFields } from './unknownFields.ts';

export interface SectionsResult {
  /** The sections that could be read. */
  readonly file: PartialFile;
  readonly problems: readonly Problem[];
}

/** A section that was read: under which name, what stood in it, and its values. */
interface ReadSection {
  readonly name: string;
  readonly text: string;
  readonly values: unknown;
}

/**
 * Sound sections by the objects they were read from. An edited document shares those it leaves alone, and a study reads thousands that
 * differ in one field.
 */
const READ = new WeakMap<object, ReadSection>();

/** The values of this very section, as long as nobody has written into it since. */
function readBefore(name: string, written: unknown): unknown {
  if (written === null || typeof written !== 'object') return undefined;
  const known = READ.get(written);
  return known?.name === name && known.text === JSON.stringify(written) ? known.values : undefined;
}

function kept(name: string, written: unknown, values: unknown): unknown {
  if (written !== null && typeof written === 'object')
    READ.set(written, { name, text: JSON.stringify(written), values });
  return values;
}

/** Reads every section on its own, so that a slip in one doesn't hide those in the others. */
export function readSections(document: CombinationDocument): SectionsResult {
  const problems: Problem[] = [];
  const file: Record<string, unknown> = {};
  const names = Object.keys(SECTIONS);
  const unknown = Object.keys(document.data).filter((name) => !names.includes(name));
  problems.push(...unknownFields(document, [], unknown));
  for (const [name, schema] of Object.entries(SECTIONS)) {
    const written = Object.hasOwn(document.data, name) ? document.data[name] : undefined;
    if (written === undefined || written === null) {
      if (name === 'engine')
        problems.push(
          problemOf(document, 'engine', 'missing', 'is missing: bore, stroke and cylinders at least'),
        );
      continue;
    }
    const known = readBefore(name, written);
    if (known !== undefined) {
      file[name] = known;
      continue;
    }
    const result = schema.safeParse(withoutEmpty(written, [name]), { reportInput: true });
    if (result.success) file[name] = kept(name, written, result.data);
    else for (const issue of result.error.issues) problems.push(...issueProblems(issue, [name], document));
  }
  return { file, problems: withoutMisspelt(problems) };
}

/** Without those that only repeat that a field is misspelt. */
export function withoutMisspelt(problems: readonly Problem[]): readonly Problem[] {
  return problems.filter((problem) => !isMisspelt(problem, problems));
}

/** A field is not missing when it stands there misspelt: one slip, one problem. */
function isMisspelt(missing: Problem, problems: readonly Problem[]): boolean {
  if (missing.code !== 'missing') return false;
  const at = missing.path.lastIndexOf('.');
  return problems.some(
    (other) =>
      other.code === 'unknown-field' &&
      other.path.lastIndexOf('.') === at &&
      other.path.slice(0, at + 1) === missing.path.slice(0, at + 1) &&
      other.nearest === missing.path.slice(at + 1),
  );
}

/**
 * The value without fields that have nothing after their colon: a field left out. One that the schema doesn't know is kept, so
 * that it is refused like any other unknown field.
 */
function withoutEmpty(
  value: unknown,
  path: readonly PropertyKey[],
  schema: FieldShape = fileShape(),
): unknown {
  if (Array.isArray(value)) return value.map((inner, index) => withoutEmpty(inner, [...path, index], schema));
  if (value === null || typeof value !== 'object') return value;
  const fields = Object.entries(value);
  const known = fields.some(([, inner]) => inner === null) ? fieldNames(path, schema) : [];
  const kept = fields.filter(([name, inner]) => inner !== null || !known.includes(name));
  return Object.fromEntries(
    kept.map(([name, inner]) => [name, withoutEmpty(inner, [...path, name], schema)]),
  );
}
