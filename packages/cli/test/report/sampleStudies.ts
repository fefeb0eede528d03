/** Made-up results of studies, for their reports. */
import type {
  BacktestResult,
  CalibrationResult,
  ComparisonResult,
  PullComparison,
  RestrictionsResult,
  SweepPoint,
  SweepResult,
} from '@valvetide/core';
import { sampleCurve, samplePoint } from '../sampleCurve.ts';
import { BASIS, PROGRAM, RPM } from './sampleBasis.ts';

/** The first as it is; each other gains `i` percent at the top and loses as much at the bottom. */
export function sampleComparison(names: readonly string[]): ComparisonResult {
  const entries = names.map((name, i) => {
    const factor = (rpm: number): number => 1 + (i * (rpm - 4500)) / 150_000;
    const points = RPM.map((rpm) => {
      const point = samplePoint(rpm);
      return { ...point, torqueNm: point.torqueNm * factor(rpm), powerKw: point.powerKw * factor(rpm) };
    });
    const curve = sampleCurve(RPM, { combination: name, points });
    const byRpm = points.map(({ rpm, torqueNm, powerKw }) => {
      const was = samplePoint(rpm);
      const pct = 100 * (factor(rpm) - 1);
      return {
        rpm,
        torqueNm: torqueNm - was.torqueNm,
        torquePct: pct,
        powerKw: powerKw - was.powerKw,
        powerPct: pct,
      };
    });
    return {
      name,
      curve,
      band: { torqueNm: 800, powerKw: 420 + i },
      area: { torqueNmRpm: 1.6e6, powerKwRpm: 8.4e5 },
      gain: {
        band: { torqueNm: i, torquePct: i / 8, powerKw: i, powerPct: i / 4.2 },
        peakTorquePct: i / 4,
        peakPowerPct: i,
        byRpm,
        worstLoss: i === 0 ? null : byRpm[0],
        largestGain: i === 0 ? null : byRpm[3],
      },
      cautions: i === 1 ? [`${name} asks for more octane`] : [],
      breaches: [],
    };
  });
  const best = names[names.length - 1];
  return { ...BASIS, reference: names[0], entries, best, highest: best, remarks: [], leftOut: [] };
}

export function sampleSweep(
  variables: SweepResult['variables'],
  change: Partial<SweepResult> = {},
): SweepResult {
  const grid = variables.reduce<(string | number)[][]>(
    (rows, { values }) => rows.flatMap((row) => values.map((value) => [...row, value])),
    [[]],
  );
  const figures = (i: number) => ({
    band: { torqueNm: 800, powerKw: 420 + i },
    peak: { torque: { rpm: 5000, torqueNm: 830 }, power: { rpm: 6000, powerKw: 500 + i } },
    torqueNm: RPM.map((rpm) => 780 + i + rpm / 1000),
  });
  const points = grid.map(
    (values, i): SweepPoint => ({
      name: variables.map(({ path }, v) => `${path} ${values[v]}`).join(', '),
      values,
      figures: figures(i),
      bandGainPct: (i - 2) / 4.2,
      worstLoss: null,
      refused: null,
      cautions: [],
      breaches: [],
    }),
  );
  const last = points.length - 1;
  return {
    ...BASIS,
    combination: 'sample',
    variables,
    baseline: figures(2),
    points,
    best: {
      index: last,
      values: points[last].values,
      bandGainPct: points[last].bandGainPct,
      atEdge: [],
      flatness: [],
    },
    highest: last,
    warnings: [],
    leftOut: [],
    ...change,
  };
}

/** The intake port gains a percent more each speed, the muffler ever less, friction stays; nothing to free before that. */
export function sampleRestrictions(name: string, changed: readonly string[] = []): RestrictionsResult {
  const state = (of: string): RestrictionsResult['states'][number] => {
    const gains = (pct: (i: number) => number) => ({
      alreadyFree: false,
      byRpm: RPM.map((rpm, i) => ({
        rpm,
        torqueNm: 8 * pct(i),
        torquePct: pct(i),
        status: 'settled' as const,
      })),
      band: { torqueNm: 8 * pct(2), torquePct: pct(2) },
    });
    const none = RPM.map((rpm) => ({ rpm, torqueNm: 0, torquePct: 0, status: 'settled' as const }));
    return {
      name: of,
      metering: 'carburetor',
      points: RPM.map((rpm) => ({
        rpm,
        torqueNm: 800,
        powerKw: rpm / 12,
        status: 'settled' as const,
        fillingLoss: { depressionPct: rpm / 2000, warmthPct: 2, residualPct: -0.5 },
      })),
      bandTorqueNm: 800,
      elements: [
        {
          element: 'air-cleaner',
          alreadyFree: true,
          byRpm: none,
          band: { torqueNm: 0, torquePct: 0 },
        },
        { element: 'metering', ...gains((i) => 0.4 + 0.2 * i) },
        { element: 'intake-port', ...gains((i) => 1 + i) },
        { element: 'collector-and-muffler', ...gains((i) => 1.5 - i) },
        { element: 'friction', ...gains(() => 8) },
      ],
      governing: RPM.map((rpm) => ({
        rpm,
        element: 'intake-port',
        torquePct: 2,
        second: 'metering',
        secondPct: 0.6,
      })),
      bandGoverning: {
        rpm: null,
        element: 'intake-port',
        torquePct: 3,
        second: 'metering',
        secondPct: 0.8,
      },
      cautions: [],
    };
  };
  return {
    ...BASIS,
    meanings: [
      { element: 'metering', meaning: 'four times the area' },
      { element: 'intake-port', meaning: 'no loss at the valve' },
    ],
    states: [name, ...changed].map(state),
    assumed: [],
    warnings: [],
    leftOut: [],
  };
}

export function sampleCalibration(change: Partial<CalibrationResult> = {}): CalibrationResult {
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: '0.0.0' },
    outcome: 'fitted',
    combination: 'sample',
    sheets: ['pulls.csv'],
    standard: 'J607',
    knobs: [
      {
        name: 'friction',
        path: 'friction.multiplier',
        what: 'friction',
        unit: '',
        before: 1,
        spreadBefore: 0.12,
        after: 0.94,
        spread: 0.05,
        told: 'yes',
        atLimit: false,
      },
    ],
    correlation: [[1]],
    confusions: [],
    measureFirst: null,
    points: RPM.map((rpm) => ({
      kind: 'torque',
      rpm,
      measured: 800,
      before: 780,
      after: 798,
      sigma: 12,
    })),
    error: { before: 0.025, after: 0.004 },
    repeatability: { deviation: 0.005, assumed: false, pulls: 3 },
    modelError: 0.015,
    heldBack: null,
    disagreement: null,
    forecasts: 12,
    notes: [],
    leftOut: [],
    calibration: null,
    ...change,
  };
}

/** Measured at the speeds of the others: gained 2 %, resolved by three pulls a side. */
export function samplePullComparison(before: string, after: string): PullComparison {
  return {
    before,
    after,
    band: BASIS.band,
    weighting: 'speed',
    points: RPM.map((rpm) => ({ rpm, beforeNm: 800, afterNm: 816, gain: 0.02 })),
    torqueNm: { before: 800, after: 816, gain: 0.02 },
    powerKw: { before: 420, after: 428.4, gain: 0.02 },
    repeatability: 0.004,
    repeatabilityAssumed: false,
    pulls: { before: 3, after: 3 },
    rates: { before: null, after: null },
    resolvable: 0.0065,
    resolved: true,
  };
}

/** Forecast to gain 2.5 %, measured 2 %. */
export function sampleBacktest(change: Partial<BacktestResult> = {}): BacktestResult {
  return {
    schemaVersion: 1,
    program: PROGRAM,
    outcome: 'forecast',
    combination: 'sample',
    changes: ['milled heads'],
    calibration: sampleCalibration(),
    heldBack: { before: null, after: null },
    measured: samplePullComparison('before.csv', 'after.csv'),
    points: RPM.map((rpm) => ({
      rpm,
      before: { measuredNm: 800, forecastNm: 802 },
      after: { measuredNm: 816, forecastNm: 822 },
      measuredGain: 0.02,
      forecastGain: 0.025,
      spread: rpm < 6000 ? 0.002 : null,
    })),
    gain: {
      measured: 0.02,
      forecast: 0.025,
      spread: 0.002,
      error: 0.005,
      verdict: 'within',
      rightSign: true,
    },
    notes: [],
    leftOut: [],
    ...change,
  };
}
