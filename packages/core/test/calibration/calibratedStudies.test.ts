import { describe, expect, it } from 'vitest';
import { calibrate } from '../../src/calibration/calibrate.ts';
import { sheetTarget } from '../../src/calibration/sheetTarget.ts';
import { pinBaseline } from '../../src/changes/baseline.ts';
import type { Change } from '../../src/changes/change.ts';
import { rank } from '../../src/ranking/rank.ts';
import type { RankingResult } from '../../src/ranking/rankingResult.ts';
import type { CombinationDocument } from '../../src/reading/combinationDocument.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import { runnerOf } from '../studies/fakeCurves.ts';
import {
  INVENTED,
  type Knobs,
  knobsIn,
  minimumCombination,
  minimumDocument,
  runResponse,
  sheetOf,
} from '../support/knobResponse.ts';

const SPEEDS = [2500, 3000, 3500, 4000, 4500, 5000, 5500, 6000];
/** An engine that breathes 10 % worse than the file's estimate says, and whose walls take a little more. */
const TRUTH: Knobs = [-0.1, 0.02, 0, 0];
/** What is fitted, by its place among the invented engine's knobs: not friction, of which a ranking knows without a forecast. */
const FITTED = { flow: 0, heat: 1, length: 3 } as const;
const BAND = { fromRpm: 3000, toRpm: 6000 };
const HEAD: Change = {
  name: 'head',
  edits: [{ kind: 'scale', path: 'heads.intake.flowMultiplier', factor: 1.1 }],
  cost: null,
  hours: null,
  reversible: true,
  insteadOf: null,
};

/** With a runner that was measured, so that the length knob stands in for no estimate. */
function measuredRunner(): CombinationDocument {
  return editDocument(minimumDocument(), 'induction.runner.length', '12 in');
}

async function ranked(document: CombinationDocument): Promise<RankingResult> {
  const base = minimumCombination();
  const pinned = pinBaseline(document);
  if (!pinned.ok) throw new Error('not sound');
  const run = runnerOf((combination, rpm) => INVENTED(rpm, knobsIn(combination, base)));
  const result = await rank(pinned.value, [HEAD], { band: BAND, run });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

describe('a ranking on a calibrated combination', () => {
  it('starts from the engine that was measured, and is surer of it and of gains', async () => {
    const sheet = sheetOf([1, 2, 3].map(() => SPEEDS.map((rpm) => [rpm, INVENTED(rpm, TRUTH)] as const)));
    const baseline = pinBaseline(measuredRunner());
    if (!baseline.ok) throw new Error('the example is not sound');
    const done = await calibrate(baseline.value, sheetTarget(sheet), {
      run: runResponse(INVENTED, minimumCombination()),
      knobs: ['flow', 'heat', 'length'],
    });
    if (!done.ok || done.value.document === null) throw new Error('not fitted');
    const before = await ranked(measuredRunner());
    const after = await ranked(done.value.document);
    const powerOf = (knobs: Knobs): number => {
      const mean = [3000, 3500, 4000, 4500, 5000, 5500, 6000].map(
        (rpm, i) => ((INVENTED(rpm, knobs) * rpm * Math.PI) / 30_000) * (i === 0 || i === 6 ? 0.5 : 1),
      );
      return mean.reduce((sum, power) => sum + power, 0) / 6;
    };
    // Anchored: the power of the engine as it is, and the gain from there, are those of the measured engine.
    const measured = powerOf(TRUTH);
    expect(after.baseline?.bandPowerKw).toBeGreaterThan(0.99 * measured);
    expect(after.baseline?.bandPowerKw).toBeLessThan(1.01 * measured);
    expect((before.baseline?.bandPowerKw ?? 0) / measured).toBeGreaterThan(1.02);
    const places = done.value.result.knobs.map(({ name }) => FITTED[name as keyof typeof FITTED]);
    const from: [number, number, number, number] = [0, 0, 0, 0];
    done.value.result.knobs.forEach(({ after: value }, k) => {
      from[places[k]] = value - 1;
    });
    const to: Knobs = [1.1 * (1 + from[0]) - 1, from[1], from[2], from[3]];
    expect(after.changes[0].bandGainPct).toBeCloseTo(100 * (powerOf(to) / powerOf(from) - 1), 1);
    // Shrunk: the variance loses what the fit took from the knobs, g' (C before - C after) g with g the slopes of ln power;
    // what other estimates bring, stays.
    const slopes = done.value.result.knobs.map((_, k) => {
      const at = (step: number): Knobs => {
        const moved: number[] = [from[0], from[1], from[2], from[3]];
        moved[places[k]] += step;
        return [moved[0], moved[1], moved[2], moved[3]];
      };
      return (Math.log(powerOf(at(0.01))) - Math.log(powerOf(at(-0.01)))) / 0.02;
    });
    const { knobs, correlation } = done.value.result;
    // Of the knobs' own fields; what they stand in for besides, this response does not answer to.
    const ownSpread = (path: string | null): number =>
      minimumCombination().assumed.find((entry) => entry.path === path)?.spread ?? Number.NaN;
    const learnt = slopes.reduce(
      (sum, a, m) =>
        slopes.reduce((s, b, n) => {
          const prior = m === n ? ownSpread(knobs[m].path) ** 2 : 0;
          return s + a * b * (prior - correlation[m][n] * knobs[m].spread * knobs[n].spread);
        }, sum),
      0,
    );
    const sigmaOf = ({ baseline }: RankingResult): number => (baseline?.sigmaPct ?? Number.NaN) / 100;
    const left = Math.sqrt(sigmaOf(before) ** 2 - learnt);
    expect(sigmaOf(after)).toBeLessThan(0.75 * sigmaOf(before));
    expect(sigmaOf(after) / left).toBeGreaterThan(0.9);
    expect(sigmaOf(after) / left).toBeLessThan(1.1);
    expect(after.changes[0].sigmaPct ?? 1).toBeLessThan(before.changes[0].sigmaPct ?? 0);
  });
});
