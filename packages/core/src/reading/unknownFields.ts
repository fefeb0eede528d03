/** Fields that the schema doesn't know. */
import type { Problem } from '../combination/problem.ts';
import { type CombinationDocument, join } from './combinationDocument.ts';
import { fieldNames } from './fieldNames.ts';
import { wordForMisplaced } from './misplaced.ts';
import { foldedName, nearestName } from './nearestName.ts';
import { notForecast, notForecastMessage } from './notForecast.ts';
import { newFieldFor } from './oldNames.ts';
import { misspeltAt } from './problemOf.ts';
import { type FieldShape, fileShape } from './schema/fieldShape.ts';
import { wordForField } from './tradeWords.ts';
import { valueAt } from './valueAt.ts';

/** Unknown fields of one section told singly; of many, that there are more. */
const MOST_UNKNOWN = 20;

/** Names that are no fields at a path, each with what was probably meant by it; `schema` says which fields there are. */
export function unknownFields(
  document: CombinationDocument,
  path: readonly PropertyKey[],
  unknown: readonly string[],
  schema: FieldShape = fileShape(),
): readonly Problem[] {
  const told = unknown.slice(0, MOST_UNKNOWN).map((name) => unknownField(document, path, name, schema));
  if (unknown.length <= MOST_UNKNOWN) return told;
  const message = `has ${unknown.length - MOST_UNKNOWN} more fields that are not fields of this file`;
  return [...told, misspeltAt(document, path.map(String).join('.'), 'unknown-field', message)];
}

function unknownField(
  document: CombinationDocument,
  path: readonly PropertyKey[],
  name: string,
  schema: FieldShape,
): Problem {
  const section = path.map(String).join('.');
  const at = join(section, name);
  const value = name.includes('.') ? undefined : valueAt(document.data, at);
  const now = newFieldFor(at, value);
  if (now !== null)
    return misspeltAt(document, at, 'unknown-field', 'has another name now', { hint: `write ${now}` });
  const matter = notForecast(name, value);
  if (matter !== null) {
    const { message, hint } = notForecastMessage(matter);
    return misspeltAt(document, at, 'unknown-field', message, { hint });
  }
  const names = fieldNames(path, schema);
  const isOwn = names.some((known) => foldedName(known) === foldedName(name));
  const other = wordForField(at) ?? (isOwn ? null : wordForMisplaced({ name, section, value }, schema));
  const nearest = other === null ? nearestName(name, names) : null;
  const spelling = nearest === null ? `known here: ${names.join(', ')}` : `did you mean ${nearest}?`;
  const hint = other ?? spelling;
  const short = name.length > 60 ? `${name.slice(0, 57)}...` : name;
  const field = join(section, short);
  return misspeltAt(document, field, 'unknown-field', 'is not a field of this file', { hint, nearest });
}
