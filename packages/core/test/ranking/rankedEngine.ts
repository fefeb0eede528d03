import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { Change, FieldEdit } from '../../src/changes/change.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { rank } from '../../src/ranking/rank.ts';
import type { RankingResult } from '../../src/ranking/rankingResult.ts';
import type { RankOptions } from '../../src/ranking/rankOptions.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { exampleText } from '../reading/files.ts';
import { runnerOf } from '../studies/fakeCurves.ts';

export const BAND = { fromRpm: 3000, toRpm: 6000 };

/** The smallest example with its estimates written into the file: few unknowns, those of what a file states. */
export function sureBaseline(): Baseline {
  const read = readDocument(exampleText('minimum'));
  const first = read.ok ? pinBaseline(read.value) : read;
  const second = first.ok ? pinBaseline(first.value.document) : first;
  if (!second.ok) throw new Error('the example can not be read');
  return second.value;
}

export function change(name: string, edits: readonly FieldEdit[], more: Partial<Change> = {}): Change {
  return { name, edits, cost: 100, hours: 1, reversible: true, insteadOf: null, ...more };
}

export const scale = (path: string, factor: number): FieldEdit => ({ kind: 'scale', path, factor });
export const set = (path: string, value: number | string): FieldEdit => ({ kind: 'set', path, value });

/** An engine invented for these tests, with answers that can be worked out on paper: every part adds torque of its own. */
export function additive({ chamber, exhaustSystem, burn, walls }: Combination): number {
  return (
    200 +
    6 * (chamber.compressionRatio - 9.5) +
    20 * (exhaustSystem.primary.length / 0.8636 - 1) +
    100 * (burn.efficiency / 0.97 - 1) -
    10 * (walls.multiplier - 1)
  );
}

export const HEADER = change('header', [scale('exhaust.primary.length', 1.2)]);
export const COATING = change('thermal coating', [scale('heat.multiplier', 0.8)], {
  cost: 300,
  hours: 20,
  reversible: false,
});
export const MILL = change('mill', [{ kind: 'add', path: 'chamber.compression', amount: 0.5 }], {
  cost: 200,
});

export async function ranked(
  changes: readonly Change[],
  options: RankOptions = {},
  run: RunJobs = runnerOf(additive),
): Promise<RankingResult> {
  const result = await rank(sureBaseline(), changes, { band: BAND, run, ...options });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

export function place({ changes }: RankingResult, name: string): number {
  return changes.findIndex((c) => c.name === name);
}
