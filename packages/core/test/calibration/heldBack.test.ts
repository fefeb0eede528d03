/** What pulls hold back, through a calibration and a back-test: sheets of an engine's own torque, less what 0.3 kg m2 take at a rate. */
import { describe, expect, it } from 'vitest';
import { backtest } from '../../src/calibration/backtest.ts';
import { calibrate } from '../../src/calibration/calibrate.ts';
import type { CalibrationResult } from '../../src/calibration/calibrationResult.ts';
import type { CalibrationTarget } from '../../src/calibration/calibrationTarget.ts';
import { peakTarget } from '../../src/calibration/peakTarget.ts';
import { sheetTarget } from '../../src/calibration/sheetTarget.ts';
import { heldByUnsaidRate, steadyTarget } from '../../src/calibration/steadyTarget.ts';
import type { Baseline } from '../../src/changes/baseline.ts';
import { pinBaseline } from '../../src/changes/baseline.ts';
import type { DynoSheet } from '../../src/dyno/dynoSheet.ts';
import { heldTorque, steadySheet } from '../../src/dyno/steadySheet.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { marchedPoints } from '../../src/forecast/wholeCurve.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import {
  INVENTED,
  minimumCombination,
  minimumDocument,
  runResponse,
  sheetOf,
} from '../support/knobResponse.ts';

const INERTIA = 0.3;
const SPEEDS = [2500, 3000, 3500, 4000, 4500, 5000, 5500, 6000];
const HELD = heldTorque(INERTIA, 300);

/** The minimum example with what turns stated, and more of the file. */
function baselineWith(fields: Readonly<Record<string, string | number>> = {}): Baseline {
  const stated = Object.entries({ 'engine.inertia': `${INERTIA} kg m2`, ...fields }).reduce(
    (document, [path, value]) => editDocument(document, path, value),
    minimumDocument(),
  );
  const pinned = pinBaseline(stated);
  if (!pinned.ok) throw new Error('the example is not sound');
  return pinned.value;
}

/** The invented engine, as the example is. */
const torqueAt = (rpm: number): number => INVENTED(rpm, [0, 0, 0, 0]);
const run: RunJobs = (jobs, control) => runResponse(INVENTED, minimumCombination())(jobs, control);

/** A sheet of an engine's torque, less `heldNm`. */
function sheetLess(heldNm: number, rate?: number, name = 'pull.csv', torque = torqueAt): DynoSheet {
  const sheet = sheetOf([SPEEDS.map((rpm) => [rpm, torque(rpm) - heldNm] as const)]);
  return {
    ...sheet,
    name,
    pulls: sheet.pulls.map((pull) => (rate === undefined ? pull : { ...pull, rate })),
  };
}

async function fitted(target: CalibrationTarget, baseline = baselineWith()): Promise<CalibrationResult> {
  const done = await calibrate(baseline, target, { run, knobs: ['length', 'dyno'] });
  if (!done.ok) throw new Error(done.problems[0].message);
  return done.value.result;
}

const levelOf = ({ knobs }: CalibrationResult) =>
  knobs.find(({ name }) => name === 'dyno')?.after ?? Number.NaN;

describe('a sheet made of the own forecast less what a pull of 300 rpm/s holds back', () => {
  it('is of a dyno that reads right where it says its rate, and the result says what was added', async () => {
    const result = await fitted(sheetTarget(sheetLess(HELD, 300)));
    expect(levelOf(result)).toBeCloseTo(1, 4);
    expect(result.error.after).toBeLessThan(1e-4);
    expect(result.heldBack).toMatchObject({ rates: [300], inertia: INERTIA, inertiaSpread: null });
    expect(result.heldBack?.torqueNm).toBeCloseTo(9.4248, 4);
  });

  it('is of one that reads right where the file says the rate', async () => {
    const target = sheetTarget(sheetLess(HELD));
    expect(levelOf(await fitted(target, baselineWith({ pullRate: '300 rpm/s' })))).toBeCloseTo(1, 4);
  });

  it('is of one that reads low by what is missing where nobody says it', async () => {
    const sheet = sheetLess(HELD);
    const result = await fitted(sheetTarget(sheet));
    const [{ points }] = sheet.pulls;
    const missing = points.reduce((sum, { torqueNm }) => sum + HELD / (torqueNm + HELD), 0) / points.length;
    expect(missing).toBeGreaterThan(0.04);
    // What is believed of a dyno, 3 % either way, holds it back by a tenth.
    expect((1 - levelOf(result)) / missing).toBeGreaterThan(0.85);
    expect((1 - levelOf(result)) / missing).toBeLessThan(1.02);
    expect(result.heldBack).toBeNull();
  });
});

it('the own forecast of an engine less what a pull holds back is fitted with nothing moved', async () => {
  const { combination } = baselineWith();
  const rpm = [3000, 5000];
  const curve = forecast({ ...combination, correction: 'none' }, { rpm, onlyCompared: true });
  const torques = new Map(marchedPoints(curve).map((point) => [point.rpm, point.torqueNm]));
  const own = sheetOf([rpm.map((n) => [n, (torques.get(n) ?? Number.NaN) - HELD] as const)]);
  const said = { ...own, pulls: own.pulls.map((pull) => ({ ...pull, rate: 300 })) };
  const done = await calibrate(baselineWith(), sheetTarget(said), { knobs: ['friction', 'dyno'] });
  if (!done.ok) throw new Error(done.problems[0].message);
  for (const { after, before } of done.value.result.knobs) expect(after / before).toBeCloseTo(1, 4);
});

describe('a target', () => {
  it('comes to the same as the sheet that was brought to steady running', () => {
    const { combination } = baselineWith();
    const sheet = sheetLess(HELD, 300);
    const { paces: _, ...byTarget } = steadyTarget(sheetTarget(sheet), combination);
    const { paces: __, ...bySheet } = sheetTarget(steadySheet(sheet, combination).sheet);
    expect(byTarget.aims.map(({ measured }) => measured)).toEqual(
      bySheet.aims.map(({ measured }) => expect.closeTo(measured, 9)),
    );
    expect(byTarget.aims.map(({ sigma }) => sigma)).toEqual(
      bySheet.aims.map(({ sigma }) => expect.closeTo(sigma, 9)),
    );
  });

  it('of peaks is raised by the rate of the file: 9.425 N m, and at 6000 rpm 5.922 kW; their speeds stay', () => {
    const { combination } = baselineWith({ pullRate: '300 rpm/s' });
    const peaks = {
      torque: { torqueNm: 300, rpm: 4000 },
      power: { powerKw: 150, rpm: 6000 },
      standard: 'J607',
    } as const;
    const { aims } = steadyTarget(peakTarget(peaks, { fromRpm: 2000, toRpm: 6000 }), combination);
    const of = (kind: string) => aims.find((aim) => aim.kind === kind)?.measured;
    expect(of('torque peak')).toBeCloseTo(309.4248, 4);
    expect(of('power peak')).toBeCloseTo(155.9218, 4);
    expect([of('torque peak speed'), of('power peak speed')]).toEqual([4000, 6000]);
  });

  it('at the wheels stays as it is, and so does one that is steady already', async () => {
    const { combination } = baselineWith({ pullRate: '300 rpm/s' });
    const target = sheetTarget(sheetLess(HELD, 300));
    const atWheels = { ...target, atWheels: true as const };
    expect(steadyTarget(atWheels, combination)).toBe(atWheels);
    const steady = steadyTarget(target, combination);
    expect(steadyTarget(steady, combination)).toBe(steady);
  });

  it('has a rate to suspect only where nobody states one', async () => {
    const { combination } = baselineWith();
    const silent = sheetTarget(sheetLess(HELD));
    expect(heldByUnsaidRate(silent, combination)).toBeCloseTo(HELD / 300, 9);
    expect(heldByUnsaidRate({ ...silent, atWheels: true }, combination)).toBeNull();
    expect(heldByUnsaidRate(silent, baselineWith({ pullRate: '0 rpm/s' }).combination)).toBeNull();
    const said = sheetTarget(sheetLess(HELD, 300));
    expect(heldByUnsaidRate(said, combination)).toBeNull();
    expect(heldByUnsaidRate(steadyTarget(said, combination), combination)).toBeNull();
  });
});

describe('a back-test of two sheets pulled at different rates', () => {
  const unchanged = {
    name: 'nothing of the cycle',
    edits: [{ kind: 'set' as const, path: 'heat.head', value: '471 K' }],
    cost: null,
    hours: null,
    reversible: false,
    insteadOf: null,
  };
  const tried = async (after: DynoSheet, change = unchanged) => {
    const done = await backtest(
      baselineWith(),
      { changes: [change], before: sheetLess(HELD, 300, 'before.csv'), after },
      { run, knobs: ['length', 'dyno'] },
    );
    if (!done.ok) throw new Error(done.problems.map(({ message }) => message).join());
    return done.value;
  };

  it('measures no loss in a faster pull of the same engine', async () => {
    const { measured, heldBack } = await tried(sheetLess(2 * HELD, 600, 'after.csv'));
    expect(Math.abs(measured.powerKw.gain)).toBeLessThan(1e-9);
    expect(heldBack.before?.torqueNm).toBeCloseTo(9.4248, 4);
    expect(heldBack.after?.torqueNm).toBeCloseTo(18.8496, 4);
    const silent = await tried(sheetLess(2 * HELD, undefined, 'after.csv'));
    expect(silent.measured.powerKw.gain).toBeLessThan(-0.05);
  });

  it('reads each side with what turns there: a lighter flywheel is no gain of torque', async () => {
    const lighter = {
      ...unchanged,
      edits: [...unchanged.edits, { kind: 'set' as const, path: 'engine.inertia', value: '0.2 kg m2' }],
    };
    const { measured, heldBack } = await tried(sheetLess(heldTorque(0.2, 300), 300, 'after.csv'), lighter);
    expect(heldBack.after?.torqueNm).toBeCloseTo(heldTorque(0.2, 300), 6);
    expect(Math.abs(measured.powerKw.gain)).toBeLessThan(1e-9);
  });
});
