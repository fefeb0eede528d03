import { describe, expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import type { NamedCombination } from '../../src/studies/compare.ts';
import type { RestrictionElement } from '../../src/studies/freeing.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { restrictions } from '../../src/studies/restrictions.ts';
import type { RestrictionState, RestrictionsResult } from '../../src/studies/restrictionsResult.ts';
import type { StudyOptions } from '../../src/studies/studyOptions.ts';
import { wholeForecast } from '../forecast/wholeForecast.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { losing, runnerOf } from './fakeCurves.ts';

const RPM = [3000, 6000];
const engine = (change: Partial<Combination> = {}): Combination => bigBlock(change);

/**
 * 500 N m less 32 (n / 6000)^2 (A0 / A)^2 for a carburetor of area A, less 20 for warm runner walls and 10 for a loss at the
 * runner's mouth.
 */
function invented({ induction }: Combination, rpm: number): number {
  const { meteringArea, runner } = induction;
  const carburetor = 32 * (rpm / 6000) ** 2 * (engine().induction.meteringArea / meteringArea) ** 2;
  const warm = runner.wallTemperature > 300 ? 20 : 0;
  return 500 - carburetor - warm - (runner.mouthArea < runner.entryArea ? 10 : 0);
}

const gainsOf = (state: RestrictionState, element: RestrictionElement) =>
  state.elements.find((entry) => entry.element === element);

/** With a loss at the mouth, so that the manifold has something to gain. */
function lossy(): Combination {
  const { induction } = engine();
  const { runner } = induction;
  return engine({ induction: { ...induction, runner: { ...runner, mouthArea: 0.9 * runner.entryArea } } });
}

const base = () => ({ name: 'as it is', combination: lossy() });

async function restricted(
  baseline: NamedCombination,
  { changed = [], ...options }: StudyOptions & { readonly changed?: readonly NamedCombination[] },
  run?: RunJobs,
): Promise<RestrictionsResult> {
  const result = await restrictions(baseline, changed, { ...options, ...(run === undefined ? {} : { run }) });
  if (!result.ok) throw new Error(result.problems[0].message);
  return result.value;
}

describe('a study of restrictions with a lost speed', () => {
  it('of a freed engine, has no mean over the band for that element, and the gain at the other speed', async () => {
    const isFreed = ({ induction: { runner } }: Combination): boolean => runner.mouthArea >= runner.entryArea;
    const study = await restricted(base(), { rpm: RPM }, losing(runnerOf(invented), 6000, isFreed));
    const manifold = gainsOf(study.states[0], 'manifold');
    expect(manifold).toMatchObject({ alreadyFree: false, band: null });
    expect(manifold?.byRpm?.map(({ rpm, torqueNm }) => [rpm, torqueNm])).toEqual([[3000, 10]]);
    expect(study.leftOut).toEqual([
      { curve: 'as it is with manifold free', rpm: 6000, reason: 'too fast to follow' },
    ]);
    // What is lost is no restriction: the next best governs where the manifold has no figure.
    expect(study.states[0].bandGoverning).toMatchObject({ element: 'metering', second: null });
    expect(study.complete).toBe(true);
  });

  it('of the engine as it is, has no mean over the band at all, under either weighting', async () => {
    for (const weighting of ['speed', 'time'] as const) {
      const run = losing(runnerOf(invented), 6000, ({ name }) => name === base().combination.name);
      const { states, leftOut } = await restricted(base(), { rpm: RPM, weighting }, run);
      const [now] = states;
      expect(now).toMatchObject({ bandTorqueNm: null, bandGoverning: null });
      expect(now.points?.map(({ rpm }) => rpm)).toEqual([3000]);
      expect(now.governing.map(({ rpm, element }) => [rpm, element])).toEqual([[3000, 'manifold']]);
      for (const { byRpm, band } of now.elements) {
        expect(byRpm?.map(({ rpm }) => rpm)).toEqual([3000]);
        expect(band).toBe(null);
      }
      expect(leftOut.map(({ rpm }) => rpm)).toContain(6000);
    }
  });
});

describe('a study of restrictions', () => {
  it('frees each element alone: a carburetor of four times the area keeps a sixteenth of its loss', async () => {
    const { states } = await restricted(base(), { rpm: RPM }, runnerOf(invented));
    const metering = gainsOf(states[0], 'metering');
    expect(metering?.byRpm?.map(({ torqueNm }) => torqueNm)).toEqual([7.5, 30]);
    // 438 N m as it is at 6000 rpm.
    expect(metering?.byRpm?.[1].torquePct).toBeCloseTo((100 * 30) / 438, 9);
    expect(gainsOf(states[0], 'manifold')?.byRpm?.map(({ torqueNm }) => torqueNm)).toEqual([10, 10]);
    expect(gainsOf(states[0], 'primary')?.band?.torqueNm).toBeCloseTo(0, 12);
  });

  it('names the element that gains most at each speed, and over the band', async () => {
    const { states } = await restricted(base(), { rpm: RPM }, runnerOf(invented));
    expect(states[0].governing.map(({ rpm, element }) => [rpm, element])).toEqual([
      [3000, 'manifold'],
      [6000, 'metering'],
    ]);
    expect(states[0].governing[0]).toMatchObject({ second: 'metering' });
    expect(states[0].bandGoverning).toMatchObject({ rpm: null, element: 'metering', second: 'manifold' });
    const narrow = await restricted(
      base(),
      { rpm: RPM, band: { fromRpm: 2500, toRpm: 3500 } },
      runnerOf(invented),
    );
    expect(narrow.states[0].bandGoverning?.element).toBe('manifold');
  });

  it('does not let warmth, pumping or friction govern, large as they may be', async () => {
    const { states } = await restricted(base(), { rpm: [1000] }, runnerOf(invented));
    const warmth = gainsOf(states[0], 'charge-heating');
    expect(warmth?.byRpm?.[0].torqueNm).toBeCloseTo(20, 9);
    expect(states[0].governing[0].element).toBe('manifold');
  });

  it('names nothing where nothing gains 0.3 %', async () => {
    const flat = runnerOf(({ induction }) => (induction.meteringArea > 0.02 ? 401 : 400));
    const { states } = await restricted(base(), { rpm: RPM }, flat);
    expect(states[0].governing[0]).toMatchObject({ element: null, second: null });
    expect(states[0].bandGoverning?.element).toBeNull();
  });

  it('shows how what governs changes with a change', async () => {
    const { induction } = lossy();
    const larger = { ...induction, meteringArea: 4 * induction.meteringArea };
    const changed = [{ name: 'larger carburetor', combination: engine({ induction: larger }) }];
    const { states } = await restricted(base(), { rpm: RPM, changed }, runnerOf(invented));
    expect(states.map(({ name }) => name)).toEqual(['as it is', 'larger carburetor']);
    expect(states[1].governing.map(({ element }) => element)).toEqual(['manifold', 'manifold']);
    expect(gainsOf(states[1], 'metering')?.byRpm?.[1].torqueNm).toBeCloseTo((2 * 15) / 16, 9);
  });

  it('takes pumping and friction off by their mean pressures, without a run', async () => {
    const run = runnerOf(() => 440);
    const { states } = await restricted(base(), { rpm: [4000] }, run);
    // bmep 11, pumping 0.4 and friction 1.6 bar: 440 N m are 11 bar.
    expect(gainsOf(states[0], 'pumping')?.byRpm?.[0].torqueNm).toBeCloseTo(16, 9);
    expect(gainsOf(states[0], 'friction')?.byRpm?.[0].torqueNm).toBeCloseTo(64, 9);
    expect(run.asked.length).toBe(8);
  });

  it('asks no run for what is free already, and says so', async () => {
    const { exhaustSystem } = engine();
    const open = { ...exhaustSystem, collectors: null, outletArea: exhaustSystem.primary.area };
    const run = runnerOf(invented);
    const { states } = await restricted(
      { name: 'open', combination: engine({ exhaustSystem: open }) },
      { rpm: RPM },
      run,
    );
    expect(run.asked.length).toBe(7);
    expect(states[0].elements.filter(({ alreadyFree }) => alreadyFree).map(({ element }) => element)).toEqual(
      ['air-cleaner', 'restrictor', 'collector-and-muffler'],
    );
    expect(gainsOf(states[0], 'air-cleaner')?.band).toEqual({ torqueNm: 0, torquePct: 0 });
  });

  it('says what takes of the air that a cylinder could hold', async () => {
    const { states } = await restricted(
      base(),
      { rpm: [4000] },
      runnerOf(() => 440),
    );
    const outside = lossy().weather;
    const loss = states[0].points?.[0].fillingLoss;
    // The invented point: 98 kPa in the plenum, 310 K past the valve, 4 % burned gas.
    expect(loss?.depressionPct).toBeCloseTo(100 * (1 - 98_000 / outside.pressure), 9);
    expect(loss?.warmthPct).toBeCloseTo(100 * (1 - outside.temperature / 310), 9);
    expect(loss?.residualPct).toBeCloseTo(4, 9);
  });

  it('after an abort gives what it has and says that it is not complete', async () => {
    const changed = [{ name: 'same again', combination: lossy() }];
    const cut = await restricted(base(), { rpm: RPM, changed }, runnerOf(invented, 2));
    expect(cut.complete).toBe(false);
    expect(gainsOf(cut.states[0], 'metering')?.band).not.toBeNull();
    expect(gainsOf(cut.states[0], 'manifold')).toMatchObject({ byRpm: null, band: null, alreadyFree: false });
    expect(cut.states[1]).toMatchObject({ points: null, governing: [], bandGoverning: null });
    expect(gainsOf(cut.states[1], 'friction')?.byRpm).toBeNull();
    expect(JSON.parse(JSON.stringify(cut))).toEqual(cut);
  });

  it('counts its jobs for progress', async () => {
    const seen: string[] = [];
    const onProgress = (done: number, total: number): void => {
      seen.push(`${done}/${total}`);
    };
    await restricted(base(), { rpm: RPM, onProgress }, runnerOf(invented));
    expect(seen[0]).toBe('1/8');
    expect(seen[7]).toBe('8/8');
  });

  it('refuses a band that no speed reaches into', async () => {
    await expect(restricted(base(), { rpm: RPM, band: { fromRpm: 7000, toRpm: 8000 } })).rejects.toThrow(
      'band must be a band that the speeds reach into',
    );
  });

  it('agrees with forecasts of the freed engine', async () => {
    const mesh = { intakeCell: 0, exhaustCell: 0 };
    const rpm = [6500];
    const { states } = await restricted({ name: 'big', combination: engine() }, { rpm, mesh });
    const { induction } = engine();
    const larger = engine({ induction: { ...induction, meteringArea: 4 * induction.meteringArea } });
    const [now, after] = [engine(), larger].map((c) => wholeForecast(c, { rpm, mesh }).points[0].torqueNm);
    expect(gainsOf(states[0], 'metering')?.byRpm?.[0].torqueNm).toBeCloseTo(after - now, 9);
  }, 60_000);
});
