import { describe, expect, it } from 'vitest';
import { calibrate, withoutCalibration } from '../../src/calibration/calibrate.ts';
import type { CalibrationResult } from '../../src/calibration/calibrationResult.ts';
import { MODEL_ERROR } from '../../src/calibration/calibrationTarget.ts';
import { DYNO_SPREAD, type KnobName } from '../../src/calibration/knobs.ts';
import { peakTarget } from '../../src/calibration/peakTarget.ts';
import { sheetTarget } from '../../src/calibration/sheetTarget.ts';
import type { Combination } from '../../src/combination/combination.ts';
import type { Random } from '../../src/numerics/random.ts';
import { randomFrom } from '../../src/numerics/random.ts';
import { resolveDocument } from '../../src/reading/resolveDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { losing } from '../studies/fakeCurves.ts';
import {
  INVENTED,
  type Knobs,
  minimumBaseline,
  minimumCombination,
  minimumDocument,
  type Response,
  runResponse,
  sheetOf,
} from '../support/knobResponse.ts';

const SPEEDS = [2500, 3000, 3500, 4000, 4500, 5000, 5500, 6000];
/** Spreads believed of an engine without a flow sheet. */
const BELIEVED = [0.08, 0.15, 0.12, 0.04, 0.15] as const;
const ORDER: readonly KnobName[] = ['flow', 'heat', 'friction', 'length', 'metering'];

/** Three pulls of the invented engine, with scatter from pull to pull and an error the model can't follow. */
function measured(truth: Knobs, random: Random | null, reads = 1) {
  const error = SPEEDS.map(() => (random === null ? 0 : MODEL_ERROR * random.normal()));
  return sheetOf(
    [1, 2, 3].map(() =>
      SPEEDS.map((rpm, i) => {
        const scatter = random === null ? 0 : 0.005 * random.normal();
        return [rpm, reads * INVENTED(rpm, truth) * (1 + error[i] + scatter)] as const;
      }),
    ),
  );
}

async function fitted(
  sheet: ReturnType<typeof sheetOf>,
  knobs?: readonly KnobName[],
  accept?: boolean,
): Promise<CalibrationResult> {
  const done = await calibrate(minimumBaseline(), sheetTarget(sheet), {
    run: runResponse(INVENTED, minimumCombination()),
    knobs,
    accept,
  });
  if (!done.ok) throw new Error(done.problems[0].message);
  return done.value.result;
}

/** As {@link fitted}, with figures lost at a speed. */
async function fittedLosing(
  rpm: number,
  where: (combination: Combination) => boolean = () => true,
): Promise<CalibrationResult> {
  const done = await calibrate(minimumBaseline(), sheetTarget(measured([0.05, 0, 0, 0], null)), {
    run: losing(runResponse(INVENTED, minimumCombination()), rpm, where),
  });
  if (!done.ok) throw new Error(done.problems[0].message);
  return done.value.result;
}

/** Drawn from what is believed, none of them past 20 %. */
function drawn(random: Random): Knobs {
  const draw = (spread: number): number => {
    for (;;) {
      const value = spread * random.normal();
      if (Math.abs(value) < 0.19) return value;
    }
  };
  return [draw(BELIEVED[0]), draw(BELIEVED[1]), draw(BELIEVED[2]), draw(BELIEVED[3]), draw(BELIEVED[4])];
}

describe('calibrate(baseline, target) with a lost speed', () => {
  it('fits the other speeds as if that one had not been measured, and says so', async () => {
    const { outcome, points, knobs, leftOut, disagreement } = await fittedLosing(4000);
    expect([outcome, disagreement]).toEqual(['fitted', null]);
    expect(points.map(({ rpm }) => rpm)).toEqual(SPEEDS.filter((rpm) => rpm !== 4000));
    expect(leftOut).toEqual([{ curve: minimumCombination().name, rpm: 4000, reason: 'too fast to follow' }]);
    expect(knobs.find(({ name }) => name === 'flow')?.after).toBeCloseTo(1.04, 1);
  });

  it('fits again where the speed is lost only once a knob has moved', async () => {
    const base = minimumCombination();
    const moved = ({ walls }: Combination): boolean => walls.multiplier !== base.walls.multiplier;
    const { outcome, points, leftOut } = await fittedLosing(5000, moved);
    expect(outcome).toBe('fitted');
    expect(points.map(({ rpm }) => rpm)).not.toContain(5000);
    expect(leftOut.map(({ rpm }) => rpm)).toEqual([5000]);
  });

  it('names the speeds that were lost in rising order, whichever was lost first', async () => {
    const base = minimumCombination();
    const moved = ({ walls }: Combination): boolean => walls.multiplier !== base.walls.multiplier;
    const run = losing(losing(runResponse(INVENTED, base), 5000), 3500, moved);
    const done = await calibrate(minimumBaseline(), sheetTarget(measured([0.05, 0, 0, 0], null)), { run });
    expect(done.ok && done.value.result.leftOut.map(({ rpm }) => rpm)).toEqual([3500, 5000]);
  });

  it('comes to nothing where no two speeds are left', async () => {
    const plain = runResponse(INVENTED, minimumCombination());
    const run: RunJobs = SPEEDS.slice(1).reduce((before, rpm) => losing(before, rpm), plain);
    const sheet = sheetTarget(measured([0.05, 0, 0, 0], null));
    const done = await calibrate(minimumBaseline(), sheet, { run });
    expect(done.ok && done.value.document).toBe(null);
    expect(done.ok && done.value.result).toMatchObject({ outcome: 'lost', points: [], calibration: null });
    expect(done.ok && done.value.result.leftOut.map(({ rpm }) => rpm)).toEqual(SPEEDS.slice(1));
  });
});

describe('calibrate(baseline, target)', () => {
  it('recovers each knob within two of its standard deviations in at least 90 % of 50 seeded cases, all six at once in 80 %', async () => {
    const names = [...ORDER, 'dyno' as const];
    const within = names.map(() => 0);
    let together = 0;
    let squares = 0;
    for (let seed = 1; seed <= 50; seed += 1) {
      const random = randomFrom(seed);
      const truth = drawn(random);
      const reads = 1 + DYNO_SPREAD * random.normal();
      const { knobs } = await fitted(measured(truth, random, reads));
      const errors = names.map((name, i) => {
        const knob = knobs.find((k) => k.name === name);
        return ((knob?.after ?? 0) - (name === 'dyno' ? reads : 1 + (truth[i] ?? 0))) / (knob?.spread ?? 1);
      });
      errors.forEach((error, i) => {
        if (Math.abs(error) <= 2) within[i] += 1;
      });
      if (errors.every((error) => Math.abs(error) <= 2)) together += 1;
      squares += errors.reduce((sum, error) => sum + error * error, 0);
    }
    for (const cases of within) expect(cases).toBeGreaterThanOrEqual(45);
    // Six independent knobs with exact deviations would all be within in 0.954^6 = 75 % of cases.
    expect(together).toBeGreaterThanOrEqual(40);
    // Neither braver nor much more timid than it should be: errors over stated deviations scatter by about one, or by
    // somewhat less since no truth is drawn from beyond the limit.
    expect(Math.sqrt(squares / 300)).toBeGreaterThan(0.65);
    expect(Math.sqrt(squares / 300)).toBeLessThan(1.25);
  });

  it('halves what is not known of the flow, and makes the forecast fit', async () => {
    const { error, knobs, outcome } = await fitted(measured([-0.08, 0.05, 0.08, 0.02], null));
    expect(outcome).toBe('fitted');
    expect(error.before).toBeGreaterThan(0.03);
    expect(error.after).toBeLessThan(0.006);
    const flow = knobs.find((knob) => knob.name === 'flow');
    expect(flow?.spread).toBeLessThan(0.5 * (flow?.spreadBefore ?? 0));
    expect(flow?.told).toBe('yes');
  });

  it('leaves the knobs alone where the forecast already fits', async () => {
    const { knobs } = await fitted(measured([0, 0, 0, 0], null));
    for (const knob of knobs) expect(knob.after).toBeCloseTo(knob.before, 3);
  });

  it('says which knobs pull alike, so that a curve cannot tell them apart', async () => {
    const alike: Response = (rpm, [, heat, friction]) => INVENTED(rpm, [0, 0, heat + friction, 0]);
    const done = await calibrate(minimumBaseline(), sheetTarget(measured([0, 0, 0, 0], null)), {
      knobs: ['heat', 'friction', 'efficiency'],
      run: runResponse(alike, minimumCombination()),
    });
    if (!done.ok) throw new Error('not sound');
    const { confusions, knobs } = done.value.result;
    expect(confusions.map((confusion) => confusion.knobs)).toEqual([['heat', 'friction']]);
    expect(confusions[0].correlation).toBeLessThan(-0.7);
    // The response doesn't answer to the share burned at all: it stays as it was believed.
    expect(knobs[2]).toMatchObject({ unit: '%', before: 97, after: 97, told: 'hardly' });
    // In percent as the value is, and hardly less than before.
    expect(knobs[2].spreadBefore).toBeCloseTo(1, 9);
    expect(knobs[2].spread).toBeGreaterThan(0.8);
    expect(knobs[2].spread).toBeLessThanOrEqual(1.0001);
  });

  it('takes what a dyno reads too much for the dyno, and leaves the engine alone', async () => {
    const level = await fitted(measured([0, 0, 0, 0], null, 1.02), ['length', 'dyno']);
    const dyno = level.knobs.find(({ name }) => name === 'dyno');
    expect(dyno?.path).toBeNull();
    expect(dyno?.after).toBeCloseTo(1.02, 2);
    expect(level.calibration?.dyno?.reads).toBe(dyno?.after);
    // The dyno is no field of the engine, so that nothing of it moves a forecast.
    expect(level.calibration?.knobs.map(({ path }) => path)).toEqual(['induction.runner.lengthMultiplier']);
    expect(level.calibration?.correlation).toEqual([[1]]);
  });

  it('leaves a pull at the wheels to the driveline, and does not bend the engine to it', async () => {
    const at = { ...measured([0, 0, 0, 0], null, 0.88), atWheels: true as const };
    const known = await fitted(at);
    expect(known.outcome).toBe('fitted');
    expect(known.knobs.find(({ name }) => name === 'dyno')).toMatchObject({
      before: 0.87,
      what: 'what this dyno reads at the wheels',
    });
    for (const { name, before, after } of known.knobs)
      expect(Math.abs(after / (name === 'dyno' ? 0.88 : before) - 1), name).toBeLessThan(0.03);
    // A list of knobs without the dyno has it all the same: nothing else may take the driveline's share.
    const named = await fitted(at, ['length']);
    expect(named.knobs.map(({ name }) => name)).toEqual(['length', 'dyno']);
    expect(named.calibration?.dyno?.reads).toBeCloseTo(0.88, 2);
    // Taken for the engine's own, the same figures move it.
    const taken = await fitted(measured([0, 0, 0, 0], null, 0.88), undefined, true);
    const most = Math.max(...taken.knobs.map(({ before, after }) => Math.abs(after / before - 1)));
    expect(most).toBeGreaterThan(0.08);
  });

  it('says that a level may be the dyno, the walls or friction together', async () => {
    const { confusions } = await fitted(measured([0, 0, 0, 0], null, 1.03));
    const together = confusions.find(({ knobs }) => knobs.includes('dyno'));
    expect(together?.knobs).toEqual(expect.arrayContaining(['dyno', 'heat']));
  });

  it('stops at 20 % and names what was tried and explains it', async () => {
    const sheet = measured([-0.2, 0, 0, 0, -0.5], null);
    const { outcome, disagreement, knobs, calibration } = await fitted(sheet, ['flow', 'length']);
    expect(outcome).toBe('sheets disagree');
    expect(knobs.find((knob) => knob.name === 'flow')).toMatchObject({ after: 0.8, atLimit: true });
    expect(disagreement?.message).toContain('intake flow below -20 %');
    // Made with 50 % less.
    expect(disagreement?.culprits[0]).toMatch(/^carburetor or throttle: (4[5-9]|5[0-5]) % less flow/);
    expect(calibration).toBeNull();
  });

  it('gives what it has where a doubt is accepted, with the doubt in the file and a warning when it is read', async () => {
    const done = await calibrate(minimumBaseline(), sheetTarget(measured([-0.4, 0, 0, 0], null)), {
      run: runResponse(INVENTED, minimumCombination()),
      knobs: ['flow', 'length'],
      accept: true,
    });
    if (!done.ok || done.value.document === null) throw new Error('nothing was given');
    expect(done.value.result.outcome).toBe('sheets disagree');
    expect(done.value.result.calibration?.doubt).toContain('intake flow below -20 %');
    const read = resolveDocument(done.value.document);
    if (!read.ok) throw new Error(read.problems[0].message);
    const warning = read.value.warnings.find(({ code }) => code === 'calibration-doubtful');
    expect(warning?.message).toContain('intake flow below -20 %');
  });

  it('finds the standard where the miss is of one size at all speeds', async () => {
    const high = measured([0, 0, 0, 0], null, 1 / 0.9546);
    const { disagreement } = await fitted({ ...high, standard: 'J1349' }, ['friction', 'length']);
    expect(disagreement?.tried[0].what).toBe('correction standard: the figures are SAE J607, not SAE J1349');
    expect(disagreement?.tried[0].error).toBeLessThan(0.005);
  });

  it('does not bend to a hole no knob has the shape of', async () => {
    const hole = sheetOf([
      SPEEDS.map(
        (rpm) => [rpm, INVENTED(rpm, [0, 0, 0, 0]) * (rpm === 4000 || rpm === 4500 ? 0.88 : 1)] as const,
      ),
    ]);
    const { outcome, disagreement } = await fitted(hole);
    expect(outcome).toBe('sheets disagree');
    expect(disagreement?.message).toContain('No knob bends the curve that way');
  });

  it('takes few forecasts: two or three rounds of six, and none for the dyno', async () => {
    expect((await fitted(measured([-0.05, 0.05, 0.05, 0.02], null))).forecasts).toBeLessThanOrEqual(18);
  });

  it('gives a document that holds the knobs and the calibration, and fits when read again', async () => {
    const done = await calibrate(minimumBaseline(), sheetTarget(measured([-0.08, 0.05, 0.08, 0.02], null)), {
      run: runResponse(INVENTED, minimumCombination()),
    });
    if (!done.ok || done.value.document === null) throw new Error('not fitted');
    const read = resolveDocument(done.value.document);
    if (!read.ok) throw new Error(read.problems[0].message);
    const { calibration, friction, assumed, warnings } = read.value;
    expect(calibration?.sheets).toEqual(['pull.csv']);
    expect(calibration?.knobs.map((knob) => knob.path)).toContain('friction.multiplier');
    expect(friction.multiplier).toBe(done.value.result.knobs.find((knob) => knob.name === 'friction')?.after);
    expect(assumed.map((entry) => entry.path)).not.toContain('friction.multiplier');
    expect(warnings.map((warning) => warning.code)).not.toContain('calibration-moved');
    const again = resolveDocument(withoutCalibration(done.value.document));
    expect(again).toEqual(resolveDocument(minimumDocument()));
  });

  it('reports what there is where it is stopped', async () => {
    const done = await calibrate(minimumBaseline(), sheetTarget(measured([0, 0, 0, 0], null)), {
      run: async (jobs) => jobs.map(() => null),
    });
    expect(done).toMatchObject({ ok: true, value: { document: null, result: { outcome: 'incomplete' } } });
  });

  it('refuses no knob, none but the dyno, and one twice', async () => {
    for (const knobs of [[], ['dyno'], ['flow', 'flow']] as const) {
      await expect(fitted(measured([0, 0, 0, 0], null), knobs)).rejects.toThrow('one or more different ones');
    }
  });
});

describe('calibration on peak figures', () => {
  it('brings both peaks within 1 % and the speed of the torque peak nearer', async () => {
    const truth: Knobs = [-0.08, 0.05, 0.08, 0.05];
    const fine = Array.from({ length: 71 }, (_, i) => 2500 + 50 * i).map((rpm) => ({
      rpm,
      torque: INVENTED(rpm, truth),
    }));
    const top = fine.reduce((a, b) => (b.torque > a.torque ? b : a));
    const power = fine.reduce((a, b) => (b.torque * b.rpm > a.torque * a.rpm ? b : a));
    const target = peakTarget(
      {
        torque: { torqueNm: top.torque, rpm: top.rpm },
        power: { powerKw: (power.torque * power.rpm * Math.PI) / 30_000, rpm: power.rpm },
        standard: 'J607',
      },
      { fromRpm: 2500, toRpm: 6500 },
    );
    const done = await calibrate(minimumBaseline(), target, {
      run: runResponse(INVENTED, minimumCombination()),
    });
    if (!done.ok) throw new Error('not sound');
    const { points, outcome, error } = done.value.result;
    expect(outcome).toBe('fitted');
    expect(error.after).toBeLessThan(0.01);
    expect(error.after).toBeLessThan(0.4 * error.before);
    expect(points.map((point) => point.kind)).toEqual([
      'torque peak',
      'torque peak speed',
      'power peak',
      'power peak speed',
    ]);
  });

  it('needs a figure, and a power peak above the torque peak', () => {
    const band = { fromRpm: 2500, toRpm: 6500 };
    expect(() => peakTarget({ torque: null, power: null, standard: 'J607' }, band)).toThrow('a torque peak');
    expect(() =>
      peakTarget(
        { torque: { torqueNm: 500, rpm: 5300 }, power: { powerKw: 250, rpm: 3800 }, standard: 'J607' },
        band,
      ),
    ).toThrow('above the torque peak');
  });
});
