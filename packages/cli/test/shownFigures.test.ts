/** What stands in a table or a sentence for people is what its head or its words say. */
import { describe, expect, it } from 'vitest';
import { backtestPoints } from '../src/render/backtestText.ts';
import { bandLine, measuredColumns } from '../src/render/besideCurve.ts';
import { calibrationFindings, calibrationPoints, knobColumns } from '../src/render/calibrationText.ts';
import { buildColumns, numbered, searchLines } from '../src/render/chosenText.ts';
import { comparisonSummary } from '../src/render/comparisonText.ts';
import { worstOf } from '../src/render/marched.ts';
import { NO_PAINT } from '../src/render/paint.ts';
import { pointColumns } from '../src/render/pointColumns.ts';
import { differenceColumns, meanColumns } from '../src/render/pullsText.ts';
import { rankedColumns } from '../src/render/rankingText.ts';
import { changedStates, restrictionsText } from '../src/render/restrictionsText.ts';
import { sweepText } from '../src/render/sweepText.ts';
import type { Column } from '../src/render/table.ts';
import { distinct } from './distinct.ts';
import { sampleChosen, sampleRanking } from './report/sampleRankings.ts';
import {
  sampleCalibration,
  sampleComparison,
  sampleRestrictions,
  sampleSweep,
} from './report/sampleStudies.ts';
import { samplePoint } from './sampleCurve.ts';

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

/** Figures of a point by hand: factors of NIST SP 811, B.8. */
const PSI_BAR = 0.0689475729;
const INHG_KPA = 3.386389;
const POUND_KG = 0.45359237;

describe('the table of a forecast', () => {
  const point = {
    ...distinct(samplePoint(3000)),
    chargeTemperatureK: 305,
    exhaustTemperatureK: 1050,
    volumetricEfficiency: 0.981,
    residualFraction: 0.031,
    heatLossFraction: 0.172,
  };
  const shown = (units: 'trade' | 'si'): Readonly<Record<string, string>> =>
    Object.fromEntries(
      pointColumns(units).map(({ name, unit, cell }) => [`${name} ${unit}`.trim(), cell(point)]),
    );
  const same = {
    'speed rpm': point.rpm.toFixed(0),
    'filling %': '98.1',
    'inlet Mach -': point.inletMachIndex.toFixed(2),
    'spark deg': point.sparkDegBtdc.toFixed(1),
    'octane needed': point.octaneRequired.toFixed(1),
    'spark given deg back': point.sparkGivenBackDeg.toFixed(1),
    'residual %': '3.1',
    'best-spark octane needed': point.octaneAtBestTiming.toFixed(1),
    'torque given % back': point.torqueGivenBackPct.toFixed(1),
    'half burned deg ATDC': point.ca50DegAtdc.toFixed(1),
    'burn 10-90 deg': point.burnDurationDeg.toFixed(1),
    'peak at deg ATDC': point.peakPressureDegAtdc.toFixed(1),
    'wall heat % of fuel': '17.2',
    cycles: point.cycles.toFixed(0),
    'mass error': point.massClosure.toExponential(0),
    'energy error': point.energyClosure.toExponential(0),
  };

  it('has the figures of each speed under their heads, in SI', () => {
    expect(shown('si')).toEqual({
      ...same,
      'torque Nm': point.torqueNm.toFixed(1),
      'power kW': point.powerKw.toFixed(1),
      'vacuum kPa': (point.manifoldVacuumInHg * INHG_KPA).toFixed(2),
      'bmep bar': point.bmepBar.toFixed(2),
      'bsfc g/kWh': point.bsfcGPerKwh.toFixed(0),
      'piston m/s': point.meanPistonSpeedMs.toFixed(1),
      'peak press bar': point.peakPressureBar.toFixed(1),
      'pumping bar': point.pmepBar.toFixed(2),
      'friction bar': point.fmepBar.toFixed(2),
      'imep bar': point.imepBar.toFixed(2),
      'air kg/h': point.airflowKgPerH.toFixed(1),
      'fuel kg/h': point.fuelKgPerH.toFixed(2),
      'plenum kPa': point.manifoldPressureKpa.toFixed(2),
      'charge C': '32',
      'exhaust C': '777',
    });
  });

  it('has them in the units of the trade', () => {
    expect(shown('trade')).toEqual({
      ...same,
      'torque lb-ft': point.torqueLbFt.toFixed(1),
      'power hp': point.powerHp.toFixed(1),
      'vacuum inHg': point.manifoldVacuumInHg.toFixed(2),
      'bmep psi': (point.bmepBar / PSI_BAR).toFixed(1),
      'bsfc lb/hp-h': (((point.bsfcGPerKwh / 1000) * HP) / POUND_KG).toFixed(3),
      'piston ft/min': ((point.meanPistonSpeedMs * 60) / 0.3048).toFixed(0),
      'peak press psi': (point.peakPressureBar / PSI_BAR).toFixed(0),
      'pumping psi': (point.pmepBar / PSI_BAR).toFixed(1),
      'friction psi': (point.fmepBar / PSI_BAR).toFixed(1),
      'imep psi': (point.imepBar / PSI_BAR).toFixed(1),
      'air lb/h': (point.airflowKgPerH / POUND_KG).toFixed(0),
      'fuel lb/h': (point.fuelKgPerH / POUND_KG).toFixed(1),
      'plenum inHg': (point.manifoldPressureKpa / INHG_KPA).toFixed(2),
      'charge F': '89',
      'exhaust F': '1430',
    });
  });
});

describe('a table of a comparison', () => {
  it('has each combination with what it gains under its heads', () => {
    const comparison = distinct(sampleComparison(['as it is', 'cam']));
    const { columns, rows } = comparisonSummary(comparison, 'si');
    const { band, gain, curve } = comparison.entries[1];
    expect(rowOf(columns, rows[1])).toEqual([
      ': cam',
      `mean [kW]: ${band?.powerKw.toFixed(1)}`,
      `gain [kW]: +${gain?.band.powerKw.toFixed(1)}`,
      `gain [%]: +${gain?.band.powerPct.toFixed(1)}`,
      `mean [Nm]: ${band?.torqueNm.toFixed(1)}`,
      `peak [Nm]: ${curve?.peak?.torque.torqueNm.toFixed(0)}`,
      `at [rpm]: ${curve?.peak?.torque.rpm.toFixed(0)}`,
      `peak [kW]: ${curve?.peak?.power.powerKw.toFixed(0)}`,
      `at [rpm]: ${curve?.peak?.power.rpm.toFixed(0)}`,
      `worst loss [%]: ${gain?.worstLoss?.torquePct.toFixed(1)}`,
      `at [rpm]: ${gain?.worstLoss?.rpm.toFixed(0)}`,
    ]);
  });
});

describe('tables of what was measured', () => {
  it('have a mean, a difference and a forecast beside it under their heads', () => {
    const mean = { rpm: 5000, torqueNm: 800, powerKw: 419, pulls: 3, deviation: 0.0042 };
    expect(rowOf(meanColumns('si'), mean)).toEqual([
      'speed [rpm]: 5000',
      'torque [Nm]: 800.0',
      'power [kW]: 419.0',
      'pulls: 3',
      'scatter [%]: 0.42',
    ]);
    // By hand: 12 N m at 5000 rpm are 6.28 kW.
    const difference = { rpm: 5000, beforeNm: 800, afterNm: 812, gain: 0.015 };
    expect(rowOf(differenceColumns('si'), difference)).toEqual([
      'speed [rpm]: 5000',
      'before [Nm]: 800.0',
      'after [Nm]: 812.0',
      'gain [Nm]: +12.0',
      'gain [kW]: +6.3',
      'gain [%]: +1.50',
    ]);
    const step = { rpm: 5000, measuredNm: 800, forecastNm: 812, differenceNm: 12, differencePct: 1.5 };
    expect(rowOf(measuredColumns('si'), step)).toEqual([
      'speed [rpm]: 5000',
      'measured [Nm]: 800.0',
      'forecast [Nm]: 812.0',
      'more [Nm]: +12.0',
      'more [%]: +1.5',
    ]);
  });

  it('have a fit and a back-test under their heads', () => {
    const fitted = { kind: 'torque', rpm: 5000, measured: 800, before: 780, after: 796, sigma: 12 } as const;
    const fit = sampleCalibration({ points: [fitted] });
    expect(rowOf(calibrationPoints(fit, 'si'), fitted)).toEqual([
      'speed [rpm]: 5000',
      'measured [Nm]: 800.0',
      'before [Nm]: 780.0',
      'off [%]: -2.5',
      'after [Nm]: 796.0',
      'off [%]: -0.5',
    ]);
    const peaks = [
      { ...fitted, kind: 'power peak' },
      { ...fitted, kind: 'power peak speed', measured: 5300, before: 5500, after: 5250 },
    ] as const;
    const ofPeaks = calibrationPoints(sampleCalibration({ points: peaks }), 'si');
    expect(rowOf(ofPeaks, peaks[0])[1]).toBe('measured: 800.0 kW');
    expect(rowOf(ofPeaks, peaks[1]).slice(1)).toEqual([
      'measured: 5300 rpm',
      'before: 5500 rpm',
      'off [%, rpm]: +200',
      'after: 5250 rpm',
      'off [%, rpm]: -50',
    ]);
    const point = {
      rpm: 5000,
      before: { measuredNm: 800, forecastNm: 802 },
      after: { measuredNm: 816, forecastNm: 822 },
      measuredGain: 0.02,
      forecastGain: 0.025,
      spread: 0.004,
    };
    expect(rowOf(backtestPoints('si'), point)).toEqual([
      'speed [rpm]: 5000',
      'before [Nm]: 800.0',
      'forecast [Nm]: 802.0',
      'after [Nm]: 816.0',
      'forecast [Nm]: 822.0',
      'gain [%]: +2.0',
      'forecast [%]: +2.5',
      '+/- [%]: 0.4',
      'off [points]: +0.5',
    ]);
  });
});

describe('a table of what is in the way after a change', () => {
  it('has the gain of torque, the first and the next under their heads', () => {
    const study = sampleRestrictions('as it is', ['cam']);
    const [now, after] = study.states;
    const changed = { ...after, bandTorqueNm: 812 };
    expect(rowOf(changedStates({ ...study, states: [now, changed] }, 'si'), changed)).toEqual([
      'after: cam',
      'torque [Nm]: +12.0',
      'in the way: intake port',
      'if free [%]: +3.0',
      'next: carburetor',
      'if free [%]: +0.8',
      'by speed: 3000-6000 intake port',
    ]);
  });
});
