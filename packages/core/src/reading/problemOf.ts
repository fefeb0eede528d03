/** Problems of a document, each with the place where its field stands. */
import type { MisspeltCode, MisspeltProblem, PlainCode, PlainProblem } from '../combination/problem.ts';
import type { CombinationDocument } from './combinationDocument.ts';

/** A problem at a field, placed where the field stands or else where the nearest field around it does. */
export function problemOf(
  document: CombinationDocument,
  path: string,
  code: PlainCode,
  message: string,
  hint: string | null = null,
): PlainProblem {
  return { ...placeOf(document, path), code, message, hint };
}

/** A name that is not known, and the nearest there is. */
export function misspeltAt(
  document: CombinationDocument,
  path: string,
  code: MisspeltCode,
  message: string,
  { hint = null, nearest = null }: Partial<Pick<MisspeltProblem, 'hint' | 'nearest'>> = {},
): MisspeltProblem {
  return { ...placeOf(document, path), code, message, hint, nearest };
}

function placeOf(
  document: CombinationDocument,
  path: string,
): Pick<PlainProblem, 'file' | 'line' | 'column' | 'path'> {
  const place = positionOf(document, path);
  return {
    file: document.file,
    line: place?.line ?? null,
    column: place?.column ?? null,
    path,
  };
}

function positionOf(document: CombinationDocument, path: string): { line: number; column: number } | null {
  for (let here = path; here !== ''; here = here.slice(0, Math.max(0, here.lastIndexOf('.')))) {
    if (Object.hasOwn(document.positions, here)) return document.positions[here];
  }
  return null;
}
