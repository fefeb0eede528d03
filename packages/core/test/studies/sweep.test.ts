import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { sweep } from '../../src/studies/sweep.ts';
import type { SweepResult, Variable } from '../../src/studies/sweepResult.ts';
import { type Example, exampleSheet, exampleText } from '../reading/files.ts';
import { altered, losing, runnerOf } from './fakeCurves.ts';

const RPM = [3000, 4000];
const IN = 0.0254;

function baselineOf(name: Example): Baseline {
  const read = readDocument(exampleText(name));
  const pinned = read.ok ? pinBaseline(read.value, { sheet: exampleSheet(name) }) : read;
  if (!pinned.ok) throw new Error(pinned.problems.map(problemLine).join('\n'));
  return pinned.value;
}

/** Torque falls off 1 N m for each square tenth of an inch of primary length from 28 in, and of an advance from 3 deg. */
const hill = (): ReturnType<typeof runnerOf> =>
  runnerOf(({ exhaustSystem, intake }) => {
    const tenths = (exhaustSystem.primary.length / IN - 28) * 10;
    return 500 - tenths ** 2 / 100 - (104 - intake.centreline) ** 2;
  });

async function swept(variables: readonly Variable[], run: RunJobs = hill()): Promise<SweepResult> {
  const result = await sweep(baselineOf('hill-climb'), variables, { rpm: RPM, run });
  if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
  return result.value;
}

async function refusal(variables: readonly Variable[]): Promise<string> {
  const result = await sweep(baselineOf('hill-climb'), variables, { rpm: RPM, run: hill() });
  return result.ok ? 'none' : result.problems.map(problemLine).join('\n');
}

const LENGTHS: Variable = {
  path: 'exhaust.primary.length',
  values: ['24 in', '26 in', '28 in', '30 in', '32 in'],
};

describe('a sweep', () => {
  it('of one variable finds the best value, what it gains and how flat the top is', async () => {
    const { best, points, baseline, variables } = await swept([LENGTHS]);
    expect(variables[0].current).toBe('30 in');
    expect(baseline?.band.torqueNm).toBeCloseTo(500 - 4, 9);
    expect(points.map(({ figures }) => figures?.band.torqueNm)).toEqual(
      [484, 496, 500, 496, 484].map((torque) => expect.closeTo(torque, 6)),
    );
    expect(best).toMatchObject({ index: 2, values: ['28 in'], atEdge: [] });
    expect(best?.bandGainPct).toBeCloseTo(100 * (500 / 496 - 1), 9);
    // 2 in away 0.8 % are lost, more than half a percent.
    expect(best?.flatness).toEqual([
      { path: 'exhaust.primary.length', withinPct: 0.5, from: '28 in', to: '28 in' },
    ]);
  });

  it('calls a top flat as far as it loses less than asked', async () => {
    const result = await sweep(baselineOf('hill-climb'), [LENGTHS], {
      rpm: RPM,
      flatWithinPct: 1,
      run: hill(),
    });
    expect(result.ok && result.value.best?.flatness[0]).toMatchObject({ from: '26 in', to: '30 in' });
  });

  it('of two variables covers the grid, the second running fastest', async () => {
    const advance: Variable = { path: 'cam.advance', values: ['1 deg', '3 deg', '5 deg'] };
    const { points, best } = await swept([LENGTHS, advance]);
    expect(points).toHaveLength(15);
    expect(points[1].values).toEqual(['24 in', '3 deg']);
    expect(best?.values).toEqual(['28 in', '3 deg']);
    expect(best?.flatness[1]).toMatchObject({ path: 'cam.advance', from: '3 deg', to: '3 deg' });
  });

  it('stops at an abort, keeps what it has, and gives every other point its place without figures', async () => {
    const stop = new AbortController();
    const run: RunJobs = async (jobs, control) => {
      stop.abort();
      return hill()(jobs, control);
    };
    const values = Array.from({ length: 200 }, (_, i) => `${20 + i / 10} in`);
    const variable = { path: 'exhaust.primary.length', values };
    const result = await sweep(baselineOf('hill-climb'), [variable], { rpm: RPM, run, signal: stop.signal });
    if (!result.ok) throw new Error('no result');
    const { complete, points, baseline, best } = result.value;
    expect(complete).toBe(false);
    expect(points.map((point) => point.values[0])).toEqual(values);
    // The baseline and 127 points were asked for together.
    expect(points.map(({ figures }) => figures !== null)).toEqual(values.map((_, i) => i < 127));
    expect(points[199].name).toBe('exhaust.primary.length 39.9 in');
    expect(baseline).not.toBeNull();
    expect(best?.values).toEqual(['28 in']);
  });

  it('says where the best value is the last that was tried', async () => {
    const { best } = await swept([{ ...LENGTHS, values: ['22 in', '24 in', '26 in'] }]);
    expect(best).toMatchObject({ values: ['26 in'], atEdge: ['exhaust.primary.length'] });
  });

  it('of words says nothing of neighbours or of what lies beyond: they have no order', async () => {
    const manifolds: Variable = { path: 'induction.manifold', values: ['single-plane', 'dual-plane'] };
    const { best } = await swept([LENGTHS, manifolds]);
    expect(best).toMatchObject({ values: ['28 in', 'single-plane'], atEdge: [] });
    expect(best?.flatness.map(({ path }) => path)).toEqual(['exhaust.primary.length']);
  });

  it('names the best value that is allowed, keeps the flat part within what is, and says which gains most', async () => {
    // Eight octane numbers an inch: 29 and 30 in ask for 8 and 16 more than the fuel, 110, has.
    const asking: RunJobs = async (jobs, control) =>
      (await hill()(jobs, control)).map((curve, i) => {
        const tooMuch = jobs[i].combination.exhaustSystem.primary.length / IN - 27;
        const { researchOctane, motorOctane } = jobs[i].combination.fuel;
        const octane = (researchOctane + motorOctane) / 2 + 8 * tooMuch;
        return curve === null ? null : altered(curve, () => ({ octaneAtBestTiming: octane }));
      });
    const { best, highest, points } = await swept(
      [{ path: 'exhaust.primary.length', values: ['27.4 in', '27.6 in', '28 in', '29 in'] }],
      asking,
    );
    expect(points.map(({ breaches }) => breaches.length)).toEqual([0, 1, 1, 1]);
    expect(highest).toBe(2);
    expect(best?.index).toBe(0);
    expect(best?.flatness[0]).toMatchObject({ from: '27.4 in', to: '27.4 in' });
  });

  it('has no figures for a point of which a speed was lost, and looks for the best among the others', async () => {
    const isTheBest = ({ exhaustSystem }: Combination): boolean =>
      Math.abs(exhaustSystem.primary.length / IN - 28) < 0.01;
    const { points, best, leftOut } = await swept([LENGTHS], losing(hill(), 4000, isTheBest));
    expect(points[2]).toMatchObject({ figures: null, bandGainPct: null, refused: null });
    expect(leftOut.map(({ curve, rpm }) => [curve, rpm])).toContainEqual([points[2].name, 4000]);
    expect([1, 3]).toContain(best?.index);
  });

  it('leaves out values that no engine can have, and says why', async () => {
    const { points, best } = await swept([
      { path: 'heads.intake.valve', values: ['1.76 in', '1.80 in', '2.60 in'] },
    ]);
    expect(points[2].figures).toBeNull();
    expect(points[2].refused).toContain('does not fit');
    expect(points[1].refused).toBeNull();
    expect(best?.index).toBe(0);
  });

  it('gives problems where a path is unknown, no value fits, or nothing comes of any', async () => {
    expect(await refusal([{ path: 'exhaust.primary.lenght', values: ['30 in'] }])).toBe(
      "sweep to 'exhaust.primary.lenght 30 in' exhaust.primary.lenght is not a field of a combination (did you mean exhaust.primary.length?)",
    );
    expect(await refusal([{ path: 'exhaust.primary.length', values: [30, 32] }])).toContain(
      '30 alone could be anything',
    );
    expect(await refusal([{ path: 'engine.ratedSpeed', values: ['6000 rpm', '7000 rpm'] }])).toContain(
      'has no effect: the engine is the same with every value',
    );
  });

  it('that was interrupted gives what there is', async () => {
    const run = runnerOf(() => 400, 3);
    const { complete, points, best } = await swept([LENGTHS], run);
    expect(complete).toBe(false);
    expect(points.map(({ figures }) => figures !== null)).toEqual([true, true, false, false, false]);
    expect(best?.index).toBe(0);
  });

  it('refuses three variables, one twice, and grids nobody waits for', async () => {
    const base = baselineOf('minimum');
    const values = Array.from({ length: 21 }, (_, i) => i);
    const options = { rpm: RPM };
    await expect(sweep(base, [], options)).rejects.toThrow(DomainError);
    await expect(sweep(base, [LENGTHS, LENGTHS], options)).rejects.toThrow('different paths');
    await expect(
      sweep(
        base,
        [
          { path: 'a', values },
          { path: 'b', values },
        ],
        options,
      ),
    ).rejects.toThrow('at most 400');
  });

  it('of a real engine: the cam set back costs torque at low speed', async () => {
    const result = await sweep(baselineOf('minimum'), [{ path: 'cam.advance', values: ['-8 deg'] }], {
      rpm: [2500],
    });
    expect(result.ok && result.value.points[0].bandGainPct).toBeLessThan(-0.3);
  });
});
