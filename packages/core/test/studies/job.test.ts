import { describe, expect, it } from 'vitest';
import { forecast, forecastAsync, forecastPoints } from '../../src/forecast/forecast.ts';
import { runJob, runJobsHere } from '../../src/studies/job.ts';
import { splitJob } from '../../src/studies/splitJob.ts';
import { readExample } from '../reading/files.ts';

const RPM = [3000, 4000, 5000];
/** How a forecast is parted and stopped does not hang on how finely pipes are cut. */
const mesh = { intakeCell: 0, exhaustCell: 0 };
const combination = () => readExample('minimum');

/** Counts the turns that others get while `work` is under way. */
async function turnsDuring<Value>(work: () => Promise<Value>): Promise<{ value: Value; turns: number }> {
  let turns = 0;
  const timer = setInterval(() => {
    turns += 1;
  }, 0);
  try {
    return { value: await work(), turns };
  } finally {
    clearInterval(timer);
  }
}

describe('a forecast a point at a time', () => {
  it('gives the same bits as one in one go, and a turn to others between speeds', async () => {
    const { value, turns } = await turnsDuring(() => forecastAsync(combination(), { rpm: RPM, mesh }));
    expect(value).toEqual(forecast(combination(), { rpm: RPM, mesh }));
    expect(turns).toBeGreaterThanOrEqual(RPM.length - 1);
  });

  it('stops at its signal and keeps what it has', async () => {
    const stop = new AbortController();
    const onProgress = (done: number): void => {
      if (done === 2) stop.abort();
    };
    const curve = await forecastAsync(combination(), { rpm: RPM, mesh, onProgress, signal: stop.signal });
    expect([curve.complete, curve.points.map(({ rpm }) => rpm)]).toEqual([false, [3000, 4000]]);
    expect(curve.peak?.torque.rpm).toBeLessThanOrEqual(4000);
    const never = await forecastAsync(combination(), { rpm: RPM, mesh, signal: stop.signal });
    expect([never.complete, never.points, never.peak]).toEqual([false, [], null]);
  });

  it('hands over each point as soon as it is there', async () => {
    const seen: number[] = [];
    let pauses = 0;
    const pause = async (): Promise<void> => {
      pauses += 1;
    };
    for await (const { rpm } of forecastPoints(combination(), { rpm: RPM, mesh, pause })) {
      seen.push(rpm);
      if (rpm === 4000) break;
    }
    expect(seen).toEqual([3000, 4000]);
    expect(pauses).toBe(2);
  });
});

describe('runJobsHere(jobs, control)', () => {
  it('lets timers tick between speeds, and counts a curve that an abort cut short as not run', async () => {
    const stop = new AbortController();
    const jobs = [
      { combination: combination(), rpm: [3000], mesh },
      { combination: combination(), rpm: RPM, mesh },
      { combination: combination(), rpm: [3000], mesh },
    ];
    const seen: string[] = [];
    const onProgress = (done: number, total: number): void => {
      seen.push(`${done}/${total}`);
      // Seen after the first speed of the second job.
      setTimeout(() => stop.abort(), 0);
    };
    const { value, turns } = await turnsDuring(() => runJobsHere(jobs, { signal: stop.signal, onProgress }));
    expect(value.map((curve) => curve?.points.length ?? null)).toEqual([1, null, null]);
    expect(seen).toEqual(['1/3']);
    expect(turns).toBeGreaterThan(0);
  });
});

describe('splitJob(job)', () => {
  it('joins the curves of single speeds to the curve of all, and to none where one was not run', async () => {
    const job = { combination: combination(), rpm: [2000, 8000], mesh };
    const { pieces, join } = splitJob(job);
    expect(pieces.map(({ rpm }) => rpm)).toEqual([[2000], [8000]]);
    const curves = await runJobsHere(pieces);
    expect(JSON.stringify(join(curves))).toBe(JSON.stringify(runJob(job)));
    expect(join([curves[0], null])).toBeNull();
  });

  it('tells of every speed at which all cylinders had to march', () => {
    const job = { combination: combination(), rpm: [2000, 3000, 4000] };
    const { pieces, join } = splitJob(job);
    const marched = { code: 'every-cylinder-marched', path: '', message: '' };
    const curve = runJob({ ...pieces[0], mesh });
    const curves = pieces.map((_, i) => ({ ...curve, warnings: i === 1 ? [] : [marched] }));
    const told = join(curves)?.warnings.find(({ code }) => code === marched.code);
    expect(told?.message).toMatch(/^at 2000, 4000 rpm one cylinder/);
  });

  it('refuses speeds that no forecast would take', () => {
    expect(() => splitJob({ combination: combination(), rpm: [3000, 2000] })).toThrow('rpm[1]');
  });
});
