import { describe, expect, it } from 'vitest';
import { backtest } from '../../src/calibration/backtest.ts';
import type { BacktestResult } from '../../src/calibration/backtestResult.ts';
import type { Change } from '../../src/changes/change.ts';
import type { DynoSheet } from '../../src/dyno/dynoSheet.ts';
import { seriesArea } from '../../src/geometry/flowSheet.ts';
import { randomFrom } from '../../src/numerics/random.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { gainVariance } from '../../src/uncertainty/gainError.ts';
import { altered, losing } from '../studies/fakeCurves.ts';
import {
  INVENTED,
  type Knobs,
  minimumBaseline,
  minimumCombination,
  runResponse,
  sheetOf,
} from '../support/knobResponse.ts';

const SPEEDS = [2500, 3000, 3500, 4000, 4500, 5000, 5500, 6000];
const TRUTH: Knobs = [-0.06, 0.05, 0.06, 0.02];
/** Torque a point of compression is worth to the stand-in for forecasts [-]. */
const PER_POINT = 0.03;

const milled: Change = {
  name: 'mill the head',
  edits: [{ kind: 'set', path: 'chamber.compression', value: 10.5 }],
  cost: null,
  hours: null,
  reversible: false,
  insteadOf: null,
};

function runner(): RunJobs {
  const base = minimumCombination();
  const plain = runResponse(INVENTED, base);
  return async (jobs, control) =>
    (await plain(jobs, control)).map((curve, i) => {
      if (curve === null) return null;
      const gain =
        1 + PER_POINT * (jobs[i].combination.chamber.compressionRatio - base.chamber.compressionRatio);
      return altered(curve, ({ torqueNm, powerKw }) => ({
        torqueNm: gain * torqueNm,
        powerKw: gain * powerKw,
      }));
    });
}

/** A muffler is known to 4 % of its rating; torque that goes with half the logarithm of its area is then known to 2 %. */
const muffler: Change = {
  ...milled,
  name: 'quiet muffler',
  edits: [
    { kind: 'set', path: 'exhaust.muffler', value: { flow: '120 cfm', at: '1.5 inHg' } },
    // Measured, so that nothing but its rating is unsure.
    { kind: 'set', path: 'exhaust.box.pipe.inside', value: '48 mm' },
  ],
};

/** Area of the muffler as rated over that without one [-]. */
const QUIET = 0.24;

/** As {@link runner}, with torque by the area of the muffler: 5 % more than without one, as rated. */
function throttled(): RunJobs {
  const open = minimumCombination().exhaustSystem.outletArea;
  const plain = runner();
  return async (jobs, control) =>
    (await plain(jobs, control)).map((curve, i) => {
      if (curve === null) return null;
      const { outletArea, muffler: box } = jobs[i].combination.exhaustSystem;
      // The passage and the tail-pipe behind it together are what was rated.
      const area = box === undefined ? outletArea : seriesArea(box.passage, outletArea);
      const share = area / open;
      const factor = share < 0.5 ? 1.05 + 0.5 * Math.log(share / QUIET) : 1;
      return altered(curve, ({ torqueNm, powerKw }) => ({
        torqueNm: factor * torqueNm,
        powerKw: factor * powerKw,
      }));
    });
}

/** Three pulls of the invented engine, its torque times `factor`. */
function pulls(name: string, seed: number, factor: number): DynoSheet {
  const { normal } = randomFrom(seed);
  const three = [1, 2, 3].map(() =>
    SPEEDS.map((rpm) => [rpm, factor * INVENTED(rpm, TRUTH) * (1 + 0.004 * normal())] as const),
  );
  return { ...sheetOf(three), name };
}

async function tested(
  after: DynoSheet,
  changes: readonly Change[] = [milled],
  run = runner(),
): Promise<BacktestResult> {
  const done = await backtest(
    minimumBaseline(),
    { changes, before: pulls('before.csv', 1, 1), after },
    { run },
  );
  if (!done.ok) throw new Error(done.problems.map((problem) => problem.message).join());
  return done.value;
}

describe('backtest(baseline, measured change)', () => {
  it('forecasts a known gain of 3 % within what three pulls a side resolve', async () => {
    const { gain, points, measured } = await tested(pulls('after.csv', 2, 1 + PER_POINT));
    expect(gain?.forecast).toBeCloseTo(0.03, 3);
    expect(gain?.measured).toBeCloseTo(0.03, 2);
    expect(gain).toMatchObject({ verdict: 'within', rightSign: true });
    expect(measured.resolvable).toBeGreaterThan(0.004);
    expect(measured.resolvable).toBeLessThan(0.011);
    expect(points.map((point) => point.rpm)).toEqual(SPEEDS);
    for (const point of points) expect(point.before.forecastNm / point.before.measuredNm).toBeCloseTo(1, 1);
  });

  it('calls a forecast of +3 % beyond the dyno where the engine lost 2 %', async () => {
    const { gain } = await tested(pulls('after.csv', 3, 0.98));
    expect(gain).toMatchObject({ verdict: 'beyond', rightSign: false });
    expect(gain?.error).toBeCloseTo(0.05, 2);
  });

  it('learns nothing from the sheet after: the calibration is the same whatever it says', async () => {
    const one = await tested(pulls('after.csv', 2, 1.03));
    const other = await tested(pulls('after.csv', 3, 0.98));
    expect(other.calibration).toEqual(one.calibration);
  });

  it('takes a sheet under another standard to that of the first', async () => {
    const after = pulls('after.csv', 2, 1 + PER_POINT);
    const printed: DynoSheet = {
      ...after,
      standard: 'J1349',
      pulls: after.pulls.map((pull) => ({
        ...pull,
        points: pull.points.map((p) => ({ ...p, torqueNm: p.torqueNm / 1.04005 })),
      })),
    };
    const { gain, notes } = await tested(printed);
    expect(gain?.measured).toBeCloseTo(0.03, 2);
    expect(notes.join()).toContain('from J1349 to J607');
  });

  it('says what is wrong with a change before any forecast is run', async () => {
    let jobs = 0;
    const counting: RunJobs = async (list) => {
      jobs += list.length;
      return list.map(() => null);
    };
    const wrong: Change = { ...milled, edits: [{ kind: 'set', path: 'chamber.compresion', value: 10.5 }] };
    await expect(tested(pulls('after.csv', 2, 1), [wrong], counting)).rejects.toThrow();
    expect(jobs).toBe(0);
  });

  it('forecasts nothing where the sheet before does not fit the file', async () => {
    const done = await backtest(
      minimumBaseline(),
      { changes: [milled], before: pulls('before.csv', 1, 0.6), after: pulls('after.csv', 2, 0.62) },
      { run: runner() },
    );
    expect(done).toMatchObject({ ok: true, value: { outcome: 'sheets disagree', gain: null, points: [] } });
  });

  it("spreads the gain by the error of the new part's rating, and by nothing that both sides share", async () => {
    const { gain, points } = await tested(pulls('after.csv', 2, 1.05), [muffler], throttled());
    // A rating of 4 %, a little of which the tail-pipe in series takes away, and what the model may miss of a gain of 5 %.
    const missed = Math.sqrt(gainVariance(0.05));
    expect(gain?.spread).toBeGreaterThan(Math.hypot(0.019, missed));
    expect(gain?.spread).toBeLessThan(Math.hypot(0.0205, missed));
    for (const { spread } of points) expect(spread).toBeCloseTo(gain?.spread ?? Number.NaN, 3);
    const alone = (await tested(pulls('after.csv', 2, 1.03))).gain?.spread;
    expect((alone ?? 0) / Math.sqrt(gainVariance(0.03))).toBeGreaterThan(0.97);
    expect((alone ?? 0) / Math.sqrt(gainVariance(0.03))).toBeLessThan(1.03);
  });

  it('spreads a gain of several changes made together by what each of them brings', async () => {
    const { gain, changes } = await tested(pulls('after.csv', 2, 0.3), [milled, muffler], throttled());
    expect(changes).toEqual(['mill the head', 'quiet muffler']);
    // A rating of 4 %, of torque that the other change made 3 % more of, and what the model may miss of a large gain.
    const missed = Math.sqrt(gainVariance(1.03 * 1.05 - 1));
    expect(gain?.spread).toBeGreaterThan(Math.hypot(1.03 * 0.019, missed));
    expect(gain?.spread).toBeLessThan(Math.hypot(1.03 * 0.0205, missed));
  });

  it('leaves a speed out whose march was lost, and says so', async () => {
    const lossy = losing(runner(), 4000, ({ chamber }) => chamber.compressionRatio >= 10);
    const { gain, points, leftOut } = await tested(pulls('after.csv', 2, 1.03), [milled], lossy);
    expect(points.map((point) => point.rpm)).toEqual(SPEEDS.filter((rpm) => rpm !== 4000));
    expect(gain?.forecast).toBeCloseTo(0.03, 3);
    expect(leftOut).toEqual([{ curve: 'after', rpm: 4000, reason: 'too fast to follow' }]);
  });

  it('keeps the calibration where it is stopped after it, before the two sides are forecast', async () => {
    const plain = runner();
    const only: RunJobs = async (jobs, control) => {
      // The two sides are the only jobs asked for as the engine is after the change.
      const isChanged = jobs.some(({ combination }) => combination.chamber.compressionRatio > 10);
      return isChanged ? jobs.map(() => null) : plain(jobs, control);
    };
    const done = await tested(pulls('after.csv', 2, 1.03), [milled], only);
    expect(done).toMatchObject({ outcome: 'incomplete', gain: null, points: [] });
    expect(done.calibration.outcome).toBe('fitted');
  });

  it('says that it was lost where no speed of the changed engine can be marched, and which', async () => {
    const lossy = SPEEDS.reduce(
      (run, rpm) => losing(run, rpm, ({ chamber }) => chamber.compressionRatio > 10),
      runner(),
    );
    const { outcome, gain, leftOut } = await tested(pulls('after.csv', 2, 1.03), [milled], lossy);
    expect([outcome, gain]).toEqual(['lost', null]);
    expect(leftOut.map(({ curve, rpm }) => `${curve} ${rpm}`)).toEqual(SPEEDS.map((rpm) => `after ${rpm}`));
  });

  it('reports what there is where it is stopped', async () => {
    const never: RunJobs = async (jobs) => jobs.map(() => null);
    expect(await tested(pulls('after.csv', 2, 1), [milled], never)).toMatchObject({
      outcome: 'incomplete',
      gain: null,
    });
  });
});
