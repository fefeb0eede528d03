import { describe, expect, it } from 'vitest';
import { pinBaseline } from '../../src/changes/baseline.ts';
import type { Combination } from '../../src/combination/combination.ts';
import type { Curve } from '../../src/forecast/curve.ts';
import { MODEL_ERRORS } from '../../src/forecast/modelError.ts';
import type { CombinationDocument } from '../../src/reading/combinationDocument.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { type ForecastSpread, forecastSpread } from '../../src/uncertainty/forecastSpread.ts';
import { exampleText } from '../reading/files.ts';
import { altered, curveOf, lostAt, runnerOf } from '../studies/fakeCurves.ts';

const SPEEDS = [3000, 4000, 5000, 6000];

/** What rubs, stated: a spread works out by itself what is not known of it, whatever an invented engine does. */
const RUBBING = `
friction: { multiplier: 1, mainDiameter: 50 mm, mainLength: 17 mm, rodDiameter: 43 mm, rodLength: 16 mm }
`;

/** The smallest example, and what else its file says. */
function documentWith(more: string): CombinationDocument {
  const read = readDocument(`${exampleText('minimum')}${RUBBING}${more}`);
  if (!read.ok) throw new Error('not readable');
  return read.value;
}

async function spreadOf(
  torque: (combination: Combination, rpm: number) => number,
  document = documentWith(''),
  run: RunJobs = runnerOf(torque),
): Promise<ForecastSpread | null> {
  const pinned = pinBaseline(document);
  if (!pinned.ok) throw new Error('not sound');
  const baseline = pinned.value;
  const curve = curveOf(SPEEDS, (rpm) => torque(baseline.combination, rpm));
  return forecastSpread(baseline, curve, { run });
}

describe('forecastSpread(baseline, curve)', () => {
  it('is the error of the model alone where nothing that is unknown moves torque', async () => {
    const spread = await spreadOf(() => 200);
    const { torque, power, torqueSpeed } = MODEL_ERRORS.estimates;
    expect(spread?.points.map(({ rpm }) => rpm)).toEqual(SPEEDS);
    expect(spread?.points[0]).toMatchObject({ assumed: 0, stated: 0, model: torque, total: torque });
    expect(spread?.points[0].torqueNm).toBeCloseTo(200 * torque, 12);
    expect(spread?.power.total).toBe(power);
    expect(spread?.peak?.torque.speedRpm).toBe(torqueSpeed);
  });

  it('adds the squares of what each unknown does, at each speed', async () => {
    // What burns is known to 1 %, walls to 15 %: 3.6 x 1 = 3.6 % and, at the top alone, 0.4 x 15 = 6 %.
    const spread = await spreadOf(
      ({ burn, walls }, rpm) =>
        200 * (1 + 3.6 * (burn.efficiency - 0.97) - (rpm > 5000 ? 0.4 * (walls.multiplier - 1) : 0)),
    );
    expect(spread?.points[0].assumed).toBeCloseTo(0.036, 6);
    expect(spread?.points[3].assumed).toBeCloseTo(Math.hypot(0.036, 0.06), 6);
    const [first, second, third] = spread?.worths ?? [];
    expect([first.name, second.name]).toEqual(['burn.efficiency', 'heat.multiplier']);
    expect([first.settledBy, second.settledBy]).toEqual(['pull', 'pull']);
    expect(first.powerPct).toBeCloseTo(3.6, 4);
    expect(third.powerPct).toBe(0);
  });

  it('finds what is only looked at together, to its last digit where it is one unknown', async () => {
    // The liner is known to 20 K and moved with all others at once: up or down, its square is the same.
    const at = ({ walls }: Combination): number => 200 * (1 - 0.001 * (walls.liner - 410));
    const spread = await spreadOf(at);
    expect(spread?.worths.map(({ name }) => name)).not.toContain('heat.liner');
    expect(spread?.rest.powerPct).toBeCloseTo(2, 6);
    expect(spread?.power.assumed).toBeCloseTo(0.02, 8);
  });

  it('keeps errors of what is stated apart from estimates', async () => {
    // A ratio from the catalogue is known to 0.25.
    const document = editDocument(documentWith(''), 'chamber.compression', 9);
    const spread = await spreadOf(
      ({ chamber }) => 200 * (1 + 0.04 * (chamber.compressionRatio - 9)),
      document,
    );
    expect(spread?.power.stated).toBeCloseTo(0.01, 6);
    expect(spread?.power.assumed).toBeCloseTo(0, 9);
    expect(spread?.worths[0]).toMatchObject({ name: 'compression', kind: 'stated', settledBy: 'measuring' });
  });

  it('counts the scatter of a speed that never settled, in squares, at that speed and by its share of power', async () => {
    const pinned = pinBaseline(documentWith(''));
    if (!pinned.ok) throw new Error('not sound');
    const curve = altered(
      curveOf(SPEEDS, () => 200),
      ({ rpm }) =>
        rpm === 6000 ? { status: 'unsettled', scatterPct: 5, imepBar: 9, pmepBar: -1, bmepBar: 8 } : {},
    );
    const spread = await forecastSpread(pinned.value, curve, { run: runnerOf(() => 200) });
    const { torque, power } = MODEL_ERRORS.estimates;
    const scatter = (0.05 * 10) / 8;
    expect(spread?.points[3].scatter).toBeCloseTo(scatter, 12);
    expect(spread?.points[3].total).toBeCloseTo(Math.hypot(torque, scatter), 12);
    expect(spread?.points[2].scatter).toBe(0);
    // Power at 6000 rpm is a third of that of 3000, 4000, 5000 and 6000 rpm together.
    expect(spread?.power.total).toBeCloseTo(Math.hypot(power, scatter / 3), 12);
  });

  it('gives torque and power off by so much more or less, never by less than nothing', async () => {
    const spread = await spreadOf(() => -20);
    const { torque } = MODEL_ERRORS.estimates;
    expect(spread?.points[0].torqueNm).toBeCloseTo(20 * torque, 12);
    expect(spread?.peak?.torque.torqueNm).toBeGreaterThan(0);
    expect(spread?.peak?.power.powerKw).toBeGreaterThan(0);
  });

  it('of a calibrated engine counts what the fit left open as it goes together', async () => {
    const calibrated = (correlation: number): CombinationDocument => {
      return documentWith(`
induction: { runner: { lengthMultiplier: 0.95 } }
heat: { multiplier: 1.1 }
calibration:
  sheets: [pull.csv]
  knobs:
    - { field: induction.runner.lengthMultiplier, value: 0.95, spread: 0.04 }
    - { field: heat.multiplier, value: 1.1, spread: 0.06 }
  correlation: [[1, ${correlation}], [${correlation}, 1]]
`);
    };
    // 0.3 x 4 = 1.2 % by length, 0.4 x 6 = 2.4 % by the walls' heat.
    const torque = ({ induction, walls }: Combination): number =>
      200 * (1 - 0.3 * (induction.runner.lengthMultiplier - 0.95) - 0.4 * (walls.multiplier - 1.1));
    const assumed = async (correlation: number) =>
      (await spreadOf(torque, calibrated(correlation)))?.power.assumed;
    expect(await assumed(0)).toBeCloseTo(Math.hypot(0.012, 0.024), 6);
    expect(await assumed(-0.5)).toBeCloseTo(Math.sqrt(0.012 ** 2 + 0.024 ** 2 - 0.012 * 0.024), 6);
    const spread = await spreadOf(torque, calibrated(-0.5));
    expect(spread?.worths.slice(0, 2).map(({ name, kind }) => `${name} ${kind}`)).toEqual([
      'heat.multiplier fitted',
      'induction.runner.lengthMultiplier fitted',
    ]);
    expect(spread?.worths[0].powerPct).toBeCloseTo(2.4, 4);
  });

  it('works out what friction is worth without a forecast of its own', async () => {
    const read = readDocument(exampleText('minimum'));
    if (!read.ok) throw new Error('not readable');
    const run = runnerOf(() => 200);
    const spread = await spreadOf(() => 200, read.value, run);
    // 12 % of some 1 bar, of the 15 bar of 200 N m from 1.6 litres.
    const worth = spread?.worths.find(({ name }) => name === 'friction.multiplier')?.powerPct;
    expect(worth).toBeGreaterThan(0.3);
    expect(worth).toBeLessThan(2);
    const singly = run.asked.filter(({ combination }) => combination.friction.multiplier !== 1);
    expect(singly).toHaveLength(0);
    expect(spread?.forecasts).toBe(run.asked.length);
  });

  it('is none where no speed has figures', async () => {
    const pinned = pinBaseline(documentWith(''));
    if (!pinned.ok) throw new Error('not sound');
    const lost = SPEEDS.reduce<Curve>(
      lostAt,
      curveOf(SPEEDS, () => 200),
    );
    expect(await forecastSpread(pinned.value, lost, { run: runnerOf(() => 200) })).toBeNull();
  });

  it('takes a fixed small number of forecasts, and nothing where an abort comes first', async () => {
    let jobs = 0;
    const counting: RunJobs = async (list, control) => {
      jobs += list.length;
      return runnerOf(() => 200)(list, control);
    };
    const spread = await spreadOf(() => 200, documentWith(''), counting);
    expect(jobs).toBeLessThanOrEqual(23);
    expect(spread?.forecasts).toBe(jobs);
    expect(
      await spreadOf(
        () => 200,
        documentWith(''),
        async (list) => list.map(() => null),
      ),
    ).toBeNull();
  });
});
