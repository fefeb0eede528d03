/** What a forecast looks at singly, held against looking at everything singly. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { pinBaseline } from '../../packages/core/src/changes/baseline.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { marchedPoints } from '../../packages/core/src/forecast/wholeCurve.ts';
import { readDocument } from '../../packages/core/src/reading/readDocument.ts';
import { runJob } from '../../packages/core/src/studies/job.ts';
import { perturbed } from '../../packages/core/src/uncertainty/perturbed.ts';
import { COARSE } from '../../packages/core/src/uncertainty/responseWorld.ts';
import { unknownsOf } from '../../packages/core/src/uncertainty/unknowns.ts';
import { usualRank } from '../../packages/core/src/uncertainty/usualWorth.ts';

/** As many as `forecastSpread` looks at. */
const SINGLY = 16;

it('the sixteen unknowns looked at singly bring most of what is not known of the smallest file', () => {
  const text = readFileSync(new URL('../../examples/minimum/engine.yaml', import.meta.url), 'utf8');
  const read = readDocument(text);
  const pinned = read.ok ? pinBaseline(read.value) : read;
  if (!pinned.ok) throw new Error('the example can not be read');
  const baseline = pinned.value;
  const powerOf = (combination: Combination): number =>
    marchedPoints(runJob({ combination, rpm: [3500, 5500], ...COARSE })).reduce(
      (sum, p) => sum + p.powerKw,
      0,
    );
  const reference = powerOf(baseline.combination);
  const { all } = unknownsOf(baseline, []);
  const worths = all
    .flatMap((unknown) => {
      const moved = [1, -1]
        .map((z) => perturbed(baseline, [], [{ unknown, z }], undefined))
        .find((combination) => combination !== null);
      return moved === undefined ? [] : [{ id: unknown.id, worth: Math.abs(powerOf(moved) / reference - 1) }];
    })
    .sort((a, b) => usualRank(a.id) - usualRank(b.id) || (a.id < b.id ? -1 : 1));
  expect(worths.length).toBeGreaterThan(40);
  const variance = (of: typeof worths): number => of.reduce((sum, { worth }) => sum + worth ** 2, 0);
  const [singly, others] = [worths.slice(0, SINGLY), worths.slice(SINGLY)];
  expect(variance(singly) / variance(worths)).toBeGreaterThan(0.6);
  // None is left among the many that is worth two thirds of what stands first.
  const largest = Math.max(...singly.map(({ worth }) => worth));
  for (const { id, worth } of others) expect(worth, id).toBeLessThan(0.67 * largest);
}, 300_000);
