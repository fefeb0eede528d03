/** An example's engine with differences that its file doesn't know of: what example sheets are measured on. */
import { readFileSync } from 'node:fs';
import type { FieldEdit } from '../../packages/core/src/changes/change.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { applyChanges, pinBaseline, readDocument } from '../../packages/core/src/index.ts';

/** @param name - folder of the example */
export function alteredExample(name: string, edits: readonly FieldEdit[]): Combination {
  const sheet = (file: string): string =>
    readFileSync(new URL(`../../examples/${name}/${file}`, import.meta.url), 'utf8');
  const read = readDocument(sheet('engine.yaml'));
  if (!read.ok) throw new Error('the example does not read');
  const pinned = pinBaseline(read.value, { sheet });
  if (!pinned.ok) throw new Error('the example does not resolve');
  const hidden = {
    name: 'as it stands',
    edits,
    cost: null,
    hours: null,
    reversible: true,
    insteadOf: null,
  };
  const applied = applyChanges(pinned.value, [hidden], { sheet });
  if (!applied.ok) throw new Error(applied.problems.map(({ message }) => message).join('\n'));
  return applied.value;
}
