/** Made-up results of studies, for their reports. */
import type {
  BacktestResult,
  CalibrationResult,
  ChoiceResult,
  ComparisonResult,
  PricedBuild,
  PullComparison,
  RankingResult,
  RestrictionsResult,
  SweepPoint,
  SweepResult,
} from '@valvetide/core';
import { sampleCurve, samplePoint } from '../sampleCurve.ts';

const PROGRAM = { name: 'valvetide', version: '0.1.0' } as const;
const RPM = [3000, 4000, 5000, 6000];
const BASIS = {
  schemaVersion: 1,
  program: PROGRAM,
  complete: true,
  rpm: RPM,
  band: { fromRpm: 4000, toRpm: 6000 },
  weighting: 'speed',
  fidelity: 'representative',
  correction: 'J607',
} as const;

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

/** Gains fall from 2 %; the errors grow; every pair of neighbours helps, all others are independent. */
export function sampleRanking(names: readonly string[]): RankingResult {
  return {
    schemaVersion: 1,
    program: PROGRAM,
    combination: 'sample',
    seed: 1,
    complete: true,
    band: BASIS.band,
    rpm: RPM,
    dyno: { repeatabilityPct: 0.5, pulls: 3, resolvablePct: 0.82 },
    baseline: {
      bandPowerKw: 420,
      bandTorqueNm: 800,
      breaches: [],
      sigmaPct: 3.1,
      bySpeed: RPM.map((rpm, k) => ({ rpm, torqueNm: 800, sigmaNm: k === 0 ? null : 24 })),
    },
    spreadRpm: RPM.slice(1),
    changes: names.map((name, i) => ({
      name,
      bandGainPct: 2 - 1.1 * i,
      bandGainKw: 4.2 * (2 - 1.1 * i),
      sigmaPct: 0.4 + 0.2 * i,
      chanceOfGain: 0.9 - 0.2 * i,
      chanceResolvable: 0.8 - 0.2 * i,
      peakPowerGainPct: 2.2 - i,
      peakTorqueGainPct: 1.2 - i,
      worstLossPct: i,
      worstLossRpm: i === 0 ? null : 3000,
      tieGroup: i < 2 ? 1 : i,
      cautions: [],
      breaches: [],
      notModelled: null,
      gainKwPerHour: i < 2 ? 0.5 : null,
      gainKwPerCost: i < 2 ? 0.02 : null,
      pullsNeeded: i < 2 ? 3 : null,
      mattersMost: { path: 'heads.intake.flow', what: 'the sheet', share: 0.6, perSigmaPct: 0.3 },
      cost: 400,
      hours: 6,
      reversible: true,
      bySpeed: RPM.map((rpm, k) => ({
        rpm,
        gainNm: 16 - 9 * i,
        gainPct: 2 - 1.1 * i,
        sigmaNm: k === 0 ? null : 3 + 2 * i,
        sigmaPct: k === 0 ? null : 0.4 + 0.2 * i,
      })),
    })),
    pairs: names.flatMap((a, i) =>
      names.slice(i + 1).map((b, k) => ({
        a,
        b,
        togetherPct: 3,
        interactionPct: k === 0 ? 0.6 : -0.05,
        verdict: k === 0 ? ('helps' as const) : ('independent' as const),
        breaches: [],
      })),
    ),
    together: null,
    best: {
      changes: names.slice(0, 2),
      bandGainPct: 3.2,
      bandGainKw: 13,
      addedUpPct: 3.1,
      cost: 800,
      hours: 12,
      cautions: [],
      breaches: [],
    },
    measureFirst: {
      path: 'heads.intake.flow',
      what: 'the sheet',
      by: 'measuring',
      settles: 'order',
      changes: names.slice(0, 2),
      sigmaPct: 0.5,
      leftPct: 0.2,
    },
    order: {
      steps: [
        {
          action: 'baseline',
          change: null,
          pulls: 3,
          expectedGainPct: null,
          inBestSet: false,
          why: 'the level of the day',
        },
        {
          action: 'test',
          change: names[0],
          pulls: 3,
          expectedGainPct: 2,
          inBestSet: true,
          why: 'quick, and comes off again',
        },
      ],
      stop: names.length < 2 ? null : 'what else gains is too small',
      beyond: names.slice(1, 2).map((change) => ({
        action: 'test',
        change,
        pulls: 9,
        expectedGainPct: 0.4,
        inBestSet: false,
        why: '9 pulls a side would tell it',
      })),
      leave: names.slice(2).map((change) => ({
        action: 'leave',
        change,
        pulls: null,
        expectedGainPct: -1,
        inBestSet: false,
        why: 'more likely to lose than to gain',
      })),
      bill: { pulls: 6, fittingHours: 6, cellHours: 7, cost: 400 },
    },
    assumed: [{ path: 'engine.rod', value: 6.385, unit: 'in', spread: 0.1, reason: '1.65 times the stroke' }],
    warnings: [],
    leftOut: [],
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

/** Five builds of a shelf of three groups, along a curve of money. */
export function sampleChosen(): ChoiceResult {
  const price = (names: readonly (string | null)[], gainPct: number, cost: number): PricedBuild => ({
    choices: ['Cam', 'Headers', 'Compression'].map((group, i) => ({ group, choice: names[i] })),
    gainPct,
    cost,
    hours: cost / 50,
  });
  const builds = [
    price(['Longer cam', 'Headers of 1-7/8 in and longer collectors', 'Domed pistons'], 6.2, 2140),
    price(['Longer cam', 'Headers of 1-7/8 in and longer collectors', 'Milled heads'], 5.9, 1490),
    price(['Longer cam', null, 'Domed pistons'], 4.1, 1290),
    price([null, null, 'Milled heads'], 1.2, 300),
    price([null, null, null], 0, 0),
  ];
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: '0.1.0' },
    combination: 'As it is',
    seed: 1,
    complete: true,
    aims: [{ band: { fromRpm: 4000, toRpm: 6500 }, of: 'power', weighting: 'speed', weight: 1 }],
    limits: { cost: 2500, hours: null, largest: {} },
    band: { fromRpm: 4000, toRpm: 6500 },
    rpm: [4000, 4625, 5250, 5875, 6500],
    baseline: { bandPowerKw: 240, bandTorqueNm: 440 },
    builds: builds.map((build, i) => ({
      ...build,
      byAim: [build.gainPct],
      bandGainKw: 2.4 * build.gainPct,
      sigmaPct: build.cost === 0 ? null : 0.8,
      chanceOfGain: build.cost === 0 ? null : 0.97,
      tieGroup: i < 2 ? 1 : i,
      octaneRequired: 91.5,
      pistonSpeedMs: 19.2,
      cautions: [],
    })),
    shared: [{ group: 'Cam', choice: 'Longer cam' }],
    frontier: [...builds].reverse(),
    effects: [
      {
        group: 'Cam',
        effects: [
          { choice: null, effectPct: -1.6 },
          { choice: 'Longer cam', effectPct: 1.6 },
        ],
        rangePct: 3.2,
      },
      {
        group: 'Headers',
        effects: [
          { choice: null, effectPct: -0.9 },
          { choice: 'Headers of 1-7/8 in and longer collectors', effectPct: 0.9 },
        ],
        rangePct: 1.8,
      },
    ],
    search: {
      builds: 240,
      withinLimits: 188,
      forecast: 61,
      refused: 3,
      impossible: 0,
      forUncertainty: 74,
      enumerated: false,
      missing: 0.02,
      modelErrorPct: 0.12,
    },
    assumed: [],
    warnings: [],
    leftOut: [],
  };
}
