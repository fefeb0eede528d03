/** What stands in a table or a sentence for people is what its head or its words say. */
import { describe, expect, it } from 'vitest';
import { bandLine } from '../src/render/besideCurve.ts';
import { calibrationFindings, knobColumns } from '../src/render/calibrationText.ts';
import { buildColumns, numbered, searchLines } from '../src/render/chosenText.ts';
import { worstOf } from '../src/render/marched.ts';
import { NO_PAINT } from '../src/render/paint.ts';
import { rankedColumns } from '../src/render/rankingText.ts';
import { restrictionsText } from '../src/render/restrictionsText.ts';
import { sweepText } from '../src/render/sweepText.ts';
import type { Column } from '../src/render/table.ts';
import { distinct } from './distinct.ts';
import { sampleChosen, sampleRanking } from './report/sampleRankings.ts';
import { sampleCalibration, sampleRestrictions, sampleSweep } from './report/sampleStudies.ts';

const TEXT = { width: 200, units: 'trade', paint: NO_PAINT, detail: 'normal' } as const;
/** Mechanical horsepower [kW]: 550 ft lbf/s. */
const HP = 0.745699872;

/** Heads and cells of one row, `name [unit]: cell` each. */
function rowOf<Row>(columns: readonly Column<Row>[], row: Row): readonly string[] {
  return columns.map(({ name, unit, cell }) => `${name}${unit === '' ? '' : ` [${unit}]`}: ${cell(row)}`);
}

describe('a table of a ranking', () => {
  it('has the figures of each change under their heads', () => {
    const [change] = distinct(sampleRanking(['headers'])).changes;
    const of = {
      ...change,
      chanceOfGain: 0.93,
      chanceResolvable: 0.64,
      gainKwPerHour: 0.5,
      gainKwPerCost: 0.02,
      worstLossRpm: 3000,
    };
    expect(rowOf(rankedColumns('trade', 1), of)).toEqual([
      'change: headers',
      `tie [group]: ${of.tieGroup.toFixed(0)}`,
      `gain [hp]: +${(of.bandGainKw / HP).toFixed(1)}`,
      `gain [%]: +${of.bandGainPct.toFixed(1)}`,
      `+/- [%]: ${of.sigmaPct?.toFixed(1)}`,
      'gains [% sure]: 93',
      'seen [% sure]: 64',
      // By hand: 0.5 kW are 0.67 hp, and 100 times 0.02 kW 2.68.
      'an hour [hp]: 0.67',
      'for 100 [hp]: 2.68',
      `pulls [a side]: ${of.pullsNeeded?.toFixed(0)}`,
      `worst loss [%]: ${of.worstLossPct.toFixed(1)}`,
      'at [rpm]: 3000',
      `peak [power %]: +${of.peakPowerGainPct.toFixed(1)}`,
      `peak [torque %]: +${of.peakTorqueGainPct.toFixed(1)}`,
      `cost: ${of.cost?.toFixed(0)}`,
      `hours: ${of.hours}`,
      'comes [off]: yes',
    ]);
  });
});

describe('a table of builds', () => {
  it('has the figures of each under their heads', () => {
    const [build] = distinct(sampleChosen()).builds;
    const of = { ...build, chanceOfGain: 0.97 };
    expect(rowOf(buildColumns('si'), numbered(of, 2))).toEqual([
      'build: 3',
      `tie [group]: ${of.tieGroup.toFixed(0)}`,
      `gain [%]: +${of.gainPct.toFixed(2)}`,
      `+/- [%]: ${of.sigmaPct?.toFixed(2)}`,
      `power [kW]: +${of.bandGainKw.toFixed(1)}`,
      'gains [% sure]: 97',
      `cost: ${of.cost?.toFixed(0)}`,
      `hours: ${of.hours?.toFixed(1)}`,
      `octane: ${of.octaneRequired.toFixed(1)}`,
      `piston [m/s]: ${of.pistonSpeedMs.toFixed(1)}`,
    ]);
  });

  it('says how many of the others may still be among the best, in whole builds from ten on', () => {
    const { search, ...rest } = sampleChosen();
    const said = (missing: number): string => searchLines({ ...rest, search: { ...search, missing } })[0];
    expect(said(0.09)).toContain('hardly any of the others');
    expect(said(5.44)).toContain('5.4 of the others');
    expect(said(14.4)).toContain('14 of the others');
  });
});

describe('a calibration in words', () => {
  it('has each knob before and after, with its spreads', () => {
    const [knob] = distinct(sampleCalibration().knobs);
    expect(rowOf(knobColumns(), { ...knob, unit: '%' })).toEqual([
      'knob: friction',
      `before: ${knob.before.toFixed(2)} %`,
      `+/-: ${knob.spreadBefore.toFixed(2)}`,
      `after: ${knob.after.toFixed(2)} %`,
      `+/-: ${knob.spread.toFixed(2)}`,
    ]);
  });

  it('says what measuring a knob leaves open, in place of what is open', () => {
    const measureFirst = {
      knob: 'friction',
      path: 'friction.multiplier',
      sigmaPct: 0.51,
      leftPct: 0.22,
    } as const;
    expect(calibrationFindings(sampleCalibration({ measureFirst })).join(' ')).toContain(
      'Measure this first: friction. What the fit leaves open of mean power is then +/- 0.22 % in place of 0.51 %.',
    );
  });
});

describe('a band beside a curve', () => {
  it('compares power with power', () => {
    const counted = {
      band: { fromRpm: 4000, toRpm: 6000 },
      mean: { torqueNm: 700, powerKw: 412 },
      measured: { torqueNm: 800, powerKw: 400 },
    };
    expect(bandLine(counted, 'si')).toBe(
      'Mean over 4000 to 6000 rpm: 700.0 Nm, 412.0 kW; measured 800.0 Nm, 400.0 kW, the forecast +3.0 % of power.',
    );
  });
});

describe('a study of restrictions in words', () => {
  it('has what takes of the air under its heads, and marks the worst that became of a speed', () => {
    const sample = sampleRestrictions('as it is');
    const [state] = sample.states;
    const points = (state.points ?? []).map((point, i) => ({
      ...point,
      status: i === 0 ? ('unsettled' as const) : point.status,
      fillingLoss: { depressionPct: 1.5 + i, warmthPct: 11.5 + i, residualPct: 21.5 + i },
    }));
    // Of one element the first speed was lost: that is worse than one that did not settle.
    const elements = state.elements.map((one) =>
      one.element === 'metering' ? { ...one, byRpm: one.byRpm?.slice(1) ?? null } : one,
    );
    const text = restrictionsText({ ...sample, states: [{ ...state, points, elements }] }, '', TEXT);
    expect(text).toMatch(/^ *3000 x /m);
    expect(text).toMatch(/^speed +depression +warmth +residual$/m);
    expect(text).toMatch(/^ *4000 +2\.5 +12\.5 +22\.5$/m);
  });

  it.each([
    [['settled', 'unsettled', 'lost'], 'lost'],
    [['settled', 'unsettled'], 'unsettled'],
    [['settled'], 'settled'],
  ] as const)('of %j has %s as the worst', (statuses, worst) => expect(worstOf(statuses)).toBe(worst));
});

describe('a grid of a sweep', () => {
  it('marks the best, and what breaks a limit', () => {
    const variables = [
      { path: 'chamber.compression', values: [9, 10], current: 9 },
      { path: 'cam.advance', values: ['0 deg', '4 deg'], current: '4 deg' },
    ];
    const sweep = sampleSweep(variables);
    const breach = { limit: 'octane', message: 'it asks for more octane than the fuel has' };
    const points = sweep.points.map((point, i) =>
      i === 1 ? { ...point, breaches: [breach as (typeof point.breaches)[number]] } : point,
    );
    const text = sweepText({ ...sweep, points }, '', TEXT);
    expect(text).toMatch(/^9 +-0\.48 +-0\.24!$/m);
    expect(text).toMatch(/^10 +0\.00 +\+0\.24\*$/m);
  });
});
