import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { compare } from '../../src/studies/compare.ts';
import type { ComparisonResult } from '../../src/studies/comparisonResult.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import type { StudyOptions } from '../../src/studies/studyOptions.ts';
import { readExample } from '../reading/files.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { losing, runnerOf } from './fakeCurves.ts';

interface Named {
  readonly name: string;
  readonly combination: Combination;
}

/** The name of the combination stands for its torque. */
const candidate = (name: string, change: Partial<Combination> = {}): Named => ({
  name,
  combination: bigBlock({ name, ...change }),
});

/** `flat` has 400 N m everywhere, `tilted` from 390 at 2000 to 430 at 4000. */
const invented = (): ReturnType<typeof runnerOf> =>
  runnerOf(({ name }, rpm) => (name === 'flat' ? 400 : 390 + (rpm - 2000) / 50));

const RPM = [2000, 3000, 4000];

/** The first is the baseline of the others. */
async function compared(
  [baseline, ...others]: readonly Named[],
  options: StudyOptions,
  run?: RunJobs,
): Promise<ComparisonResult> {
  const result = await compare(baseline, others, { ...options, ...(run === undefined ? {} : { run }) });
  if (!result.ok) throw new Error(result.problems[0].message);
  return result.value;
}

describe('a comparison', () => {
  it('sets each combination against the first, speed by speed and over the band', async () => {
    const { entries, best, reference } = await compared(
      [candidate('flat'), candidate('tilted')],
      { rpm: RPM },
      invented(),
    );
    const gain = entries[1].gain;
    expect(gain?.byRpm.map(({ torqueNm }) => torqueNm)).toEqual([-10, 10, 30]);
    expect(gain?.byRpm[2].torquePct).toBeCloseTo(7.5, 9);
    // 10 N m at 3000 rpm are pi kW.
    expect(gain?.byRpm[1].powerKw).toBeCloseTo(Math.PI, 9);
    expect(gain?.band.torqueNm).toBeCloseTo(10, 9);
    expect(gain?.worstLoss).toMatchObject({ rpm: 2000, torqueNm: -10, torquePct: -2.5 });
    expect(gain?.largestGain?.rpm).toBe(4000);
    expect(gain?.peakTorquePct).toBeCloseTo(7.5, 9);
    expect(entries[0].gain).toMatchObject({ worstLoss: null, largestGain: null, band: { powerKw: 0 } });
    expect([reference, best]).toEqual(['flat', 'tilted']);
  });

  it('says of two engines whose heads were flowed on two benches that they were', async () => {
    const on = (inchesOfWater: number): Partial<Combination> => ({
      bench: { name: null, depression: inchesOfWater * 249.089 },
    });
    const remarks = async (first: number, second: number): Promise<readonly string[]> =>
      (
        await compared(
          [candidate('flat', on(first)), candidate('tilted', on(second))],
          { rpm: RPM },
          invented(),
        )
      ).remarks;
    expect(await remarks(28, 28)).toEqual([]);
    expect((await remarks(28, 10)).join()).toContain('tilted were flowed at 10 inH2O, in place of 28 inH2O');
  });

  it('has a best where none makes power, and more is more below zero too', async () => {
    const dragged = runnerOf(({ name }) => (name === 'less bad' ? -50 : -100));
    const { entries, best } = await compared(
      [candidate('bad'), candidate('less bad')],
      { rpm: RPM, weighting: 'time' },
      dragged,
    );
    expect(best).toBe('less bad');
    expect(entries[1].gain?.band.torqueNm).toBeCloseTo(50, 9);
    expect(entries[1].gain?.band.torquePct).toBeCloseTo(50, 9);
    expect(entries[1].gain?.band.powerPct).toBeCloseTo(50, 9);
  });

  it('takes a lost speed for no loss of torque, and says what it left out', async () => {
    const lossy = losing(invented(), RPM[1], ({ name }) => name === 'tilted');
    const asked = [candidate('flat'), candidate('tilted')];
    const { entries, best, leftOut } = await compared(asked, { rpm: RPM }, lossy);
    expect(entries[1]).toMatchObject({ band: null, area: null, gain: null });
    expect(entries[1].curve?.points).toHaveLength(3);
    expect(best).toBe('flat');
    expect(leftOut).toEqual([{ curve: 'tilted', rpm: RPM[1], reason: 'too fast to follow' }]);
  });

  it('gives the area under the curve within the band', async () => {
    const band = { fromRpm: 2500, toRpm: 3500 };
    const { entries } = await compared(
      [candidate('flat'), candidate('tilted')],
      { rpm: RPM, band },
      invented(),
    );
    expect(entries[0].area?.torqueNmRpm).toBeCloseTo(400 * 1000, 6);
    expect(entries[1].area?.torqueNmRpm).toBeCloseTo(410 * 1000, 6);
    expect(entries[1].gain?.band.torqueNm).toBeCloseTo(10, 9);
  });

  it('weighted by time counts low torque for longer', async () => {
    const asked = [candidate('flat'), candidate('tilted')];
    const bySpeed = await compared(asked, { rpm: RPM }, invented());
    const byTime = await compared(asked, { rpm: RPM, weighting: 'time' }, invented());
    const mean = ({ entries }: typeof bySpeed): number => entries[1].band?.torqueNm ?? Number.NaN;
    expect(mean(byTime)).toBeLessThan(mean(bySpeed));
    expect(byTime.weighting).toBe('time');
  });

  it('in mirrored order gives mirrored differences', async () => {
    const there = await compared([candidate('flat'), candidate('tilted')], { rpm: RPM }, invented());
    const back = await compared([candidate('tilted'), candidate('flat')], { rpm: RPM }, invented());
    const steps = (entry: (typeof there.entries)[number]): readonly number[] =>
      entry.gain?.byRpm.map(({ torqueNm }) => torqueNm) ?? [];
    expect(steps(back.entries[1])).toEqual(steps(there.entries[1]).map((step) => -step));
    expect(back.entries[0].curve).toEqual(there.entries[1].curve);
    expect(back.best).toBe(there.best);
  });

  it('shows every curve by the standard of the first, and says so', async () => {
    const run = invented();
    const { remarks, correction } = await compared(
      [candidate('flat'), candidate('tilted', { correction: 'J1349' })],
      { rpm: RPM },
      run,
    );
    expect(run.asked.map(({ combination }) => combination.correction)).toEqual(['J607', 'J607']);
    expect(correction).toBe('J607');
    expect(remarks).toEqual(['tilted asks for J1349, and is shown by J607 as flat is']);
  });

  it('remarks on a change that gains nothing where the model holds a part of it alone', async () => {
    const change = { edits: [{ kind: 'set', path: 'induction.spacer.height', value: '1 in' }] } as const;
    const spaced = { ...candidate('flat with spacer'), change };
    const run = runnerOf(() => 400);
    const result = await compare(candidate('flat'), [spaced], { rpm: RPM, run });
    expect(result.ok && result.value.remarks).toEqual([
      expect.stringMatching(/^flat with spacer is not modelled: of a spacer /),
    ]);
    const gaining = await compare(candidate('flat'), [{ ...spaced, name: 'tilted' }], {
      rpm: RPM,
      run: runnerOf(({ name }, rpm) => (name === 'flat' ? 400 : rpm / 5)),
    });
    expect(gaining.ok && gaining.value.remarks).toEqual([]);
  });

  it('that was interrupted gives what there is', async () => {
    const run = runnerOf(() => 400, 1);
    const { complete, entries, best } = await compared([candidate('a'), candidate('b')], { rpm: RPM }, run);
    expect(complete).toBe(false);
    expect(entries[0].band?.torqueNm).toBeCloseTo(400, 9);
    expect(entries[1]).toMatchObject({ curve: null, band: null, gain: null });
    expect(best).toBe('a');
  });

  it('refuses two of one name, and a band beside the speeds', async () => {
    const twice = [candidate('a'), candidate('a')];
    await expect(compared(twice, { rpm: RPM }, invented())).rejects.toThrow(DomainError);
    await expect(
      compared([candidate('a')], { rpm: RPM, band: { fromRpm: 5000, toRpm: 6000 } }, invented()),
    ).rejects.toThrow('band must be a band that the speeds reach into');
  });

  it('of real forecasts: the same engine twice differs by exactly nothing, a higher ratio gains', async () => {
    const combination = readExample('minimum');
    const ratio = { ...combination.chamber, compressionRatio: 10.5 };
    const swept = combination.chamber.clearanceVolume * (combination.chamber.compressionRatio - 1);
    const higher = { ...combination, chamber: { ...ratio, clearanceVolume: swept / 9.5 } };
    const { entries } = await compared(
      [
        { name: 'as it is', combination },
        { name: 'once more', combination },
        {
          name: 'higher',
          combination: { ...higher, burn: { ...higher.burn, timing: { mode: 'best-torque' } } },
        },
      ],
      { rpm: [4000] },
    );
    expect(entries[1].gain?.band).toEqual({ torqueNm: 0, torquePct: 0, powerKw: 0, powerPct: 0 });
    expect(entries[1].gain?.worstLoss).toBeNull();
    expect(entries[2].gain?.band.powerPct).toBeGreaterThan(0.5);
    expect(entries[2].gain?.band.powerPct).toBeLessThan(5);
  });
});
