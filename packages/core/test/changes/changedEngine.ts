/** Baselines to change in tests, and what comes of changing them. */
import { applyChanges } from '../../src/changes/applyChanges.ts';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { Change, FieldEdit } from '../../src/changes/change.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import type { Plain } from '../../src/reading/combinationDocument.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { SheetSource } from '../../src/reading/sheet/readSheets.ts';
import { exampleSheet, exampleText, fileWith } from '../reading/files.ts';

export function baselineOf(text: string, sheet?: SheetSource): Baseline {
  const read = readDocument(text);
  const pinned = read.ok ? pinBaseline(read.value, { sheet }) : read;
  if (!pinned.ok) throw new Error(pinned.problems.map(problemLine).join('\n'));
  return pinned.value;
}

export function change(name: string, ...edits: readonly FieldEdit[]): Change {
  return { name, edits, cost: null, hours: null, reversible: true, insteadOf: null };
}

export const round = (angle: number): number => Number(angle.toPrecision(12));
export const set = (path: string, value: Plain): FieldEdit => ({ kind: 'set', path, value });
export const scale = (path: string, factor: number): FieldEdit => ({ kind: 'scale', path, factor });
export const add = (path: string, amount: Plain): FieldEdit => ({ kind: 'add', path, amount });

/** With one change made of these edits. */
export function changed(base: Baseline, edits: readonly FieldEdit[], sheet?: SheetSource): Combination {
  const result = applyChanges(base, [change('it', ...edits)], { sheet });
  if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
  return result.value;
}

export function refusal(base: Baseline, ...changes: readonly Change[]): string {
  const result = applyChanges(base, changes);
  return result.ok ? 'no problem' : result.problems.map(problemLine).join('\n');
}

/** Paths of everything a document states; lists count as one. */
export function leaves(data: Plain, path = ''): readonly string[] {
  if (data === null || typeof data !== 'object' || Array.isArray(data)) return [path];
  return Object.entries(data).flatMap(([name, value]) =>
    leaves(value, path === '' ? name : `${path}.${name}`),
  );
}

export const smallest = (): Baseline => baselineOf(fileWith({}));
export const hillClimb = (): Baseline => baselineOf(exampleText('hill-climb'), exampleSheet('hill-climb'));
