/** Made-up rankings and choices, for their reports. */
import type { ChoiceResult, PricedBuild, RankingResult } from '@valvetide/core';

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
        why: '9 pulls a side would show it',
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
