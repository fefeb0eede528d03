/** What stands under a head of CSV is what the head says, in every table. */
import { describe, expect, it } from 'vitest';
import { backtestCsv, calibrationCsv } from '../../packages/cli/src/render/calibrationCsv.ts';
import { chosenCsv } from '../../packages/cli/src/render/chosenCsv.ts';
import { restrictionsCsv } from '../../packages/cli/src/render/restrictionsCsv.ts';
import { comparisonCsv, rankingCsv, sweepCsv } from '../../packages/cli/src/render/studyCsv.ts';
import { distinct } from '../../packages/cli/test/distinct.ts';
import { sampleChosen, sampleRanking } from '../../packages/cli/test/report/sampleRankings.ts';
import {
  sampleBacktest,
  sampleCalibration,
  sampleComparison,
  sampleRestrictions,
  sampleSweep,
} from '../../packages/cli/test/report/sampleStudies.ts';
import { csvCells } from '../../packages/core/src/reading/sheet/csvCells.ts';

const NAMES = ['as it is', 'headers', 'cam'];

/** The lines of a table, each by its heads. */
function linesOf(text: string): readonly Readonly<Record<string, string>>[] {
  const [heads, ...lines] = text
    .trimEnd()
    .split('\r\n')
    .map((line) => csvCells(line, ',') ?? []);
  return lines.map((cells) => Object.fromEntries(heads.map((head, i) => [head, cells[i]])));
}

/** Cells of a line under heads that are fields of an object by name, held to them; how many were. */
function heldByName(line: Readonly<Record<string, string>>, fields: object): number {
  const held = Object.entries(fields).filter(([name, value]) => name in line && typeof value === 'number');
  for (const [name, value] of held) expect(line[name], name).toBe(String(value));
  return held.length;
}

describe('figures as CSV', () => {
  it('of a comparison are those of each curve, and its gain at that speed', () => {
    const comparison = distinct(sampleComparison(NAMES));
    const lines = linesOf(comparisonCsv(comparison));
    expect(lines).toHaveLength(12);
    for (const [i, line] of lines.entries()) {
      const { curve, gain } = comparison.entries[Math.floor(i / 4)];
      const point = curve?.points[i % 4] ?? {};
      const step = gain?.byRpm[i % 4];
      expect(heldByName(line, point)).toBe(5);
      expect(line).toMatchObject({
        torqueGainNm: String(step?.torqueNm),
        torqueGainPct: String(step?.torquePct),
        powerGainKw: String(step?.powerKw),
      });
    }
  });

  it('of a sweep are those of each point', () => {
    const length = { path: 'exhaust.primary.length', values: ['28 in', '32 in'], current: '32 in' };
    const sample = sampleSweep([length]);
    const points = distinct(
      sample.points.map((point) => ({
        ...point,
        worstLoss: { rpm: 1, torqueNm: 1, torquePct: 1, powerKw: 1, powerPct: 1 },
      })),
    );
    const sweep = { ...sample, points };
    for (const [i, line] of linesOf(sweepCsv(sweep)).entries()) {
      const { figures, bandGainPct, worstLoss } = sweep.points[i];
      expect(line).toMatchObject({
        'exhaust.primary.length [in]': ['28', '32'][i],
        bandTorqueNm: String(figures?.band.torqueNm),
        bandPowerKw: String(figures?.band.powerKw),
        bandGainPct: String(bandGainPct),
        peakTorqueNm: String(figures?.peak.torque.torqueNm),
        peakTorqueRpm: String(figures?.peak.torque.rpm),
        peakPowerKw: String(figures?.peak.power.powerKw),
        peakPowerRpm: String(figures?.peak.power.rpm),
        worstLossPct: String(worstLoss?.torquePct),
        worstLossRpm: String(worstLoss?.rpm),
        bandFromRpm: String(sweep.band.fromRpm),
        bandToRpm: String(sweep.band.toRpm),
      });
    }
  });

  it('of a ranking are those of each change, by their names', () => {
    const ranking = distinct(sampleRanking(NAMES));
    for (const [i, line] of linesOf(rankingCsv(ranking)).entries()) {
      expect(heldByName(line, ranking.changes[i])).toBeGreaterThan(11);
      expect(heldByName(line, ranking.band)).toBe(2);
      expect(line).toMatchObject({
        dynoRepeatabilityPct: String(ranking.dyno.repeatabilityPct),
        dynoPulls: String(ranking.dyno.pulls),
        seed: String(ranking.seed),
      });
    }
  });

  it('of a choice are those of each build, of the best and of those for the money', () => {
    const chosen = distinct(sampleChosen());
    const { builds, frontier } = chosen;
    const lines = linesOf(chosenCsv(chosen));
    expect(lines).toHaveLength(builds.length + frontier.length);
    for (const [i, build] of builds.entries()) expect(heldByName(lines[i], build)).toBeGreaterThan(6);
    for (const [i, build] of frontier.entries()) expect(heldByName(lines[builds.length + i], build)).toBe(3);
  });

  it('of restrictions are the gain of each element and the losses at that speed', () => {
    const sample = sampleRestrictions('as it is');
    const [state] = sample.states;
    const points = (state.points ?? []).map((point, i) => ({
      ...point,
      torqueNm: 800 + i,
      fillingLoss: { depressionPct: 1 + i, warmthPct: 11 + i, residualPct: 21 + i },
    }));
    const study = { ...sample, states: [{ ...state, points }] };
    const lines = linesOf(restrictionsCsv(study));
    expect(lines).toHaveLength(points.length * state.elements.length);
    for (const line of lines) {
      const point = points.find(({ rpm }) => String(rpm) === line['rpm']);
      const gain = state.elements
        .find(({ element }) => element === line['element'])
        ?.byRpm?.find(({ rpm }) => rpm === point?.rpm);
      expect(heldByName(line, point ?? {})).toBe(2);
      expect(heldByName(line, point?.fillingLoss ?? {})).toBe(3);
      expect(line).toMatchObject({
        torqueGainNm: String(gain?.torqueNm),
        torqueGainPct: String(gain?.torquePct),
        governing: String(line['element'] === 'intake-port'),
      });
    }
  });

  it('of a calibration are measured, before and after, with their errors of what was measured', () => {
    const points = distinct(sampleCalibration().points);
    for (const [i, line] of linesOf(calibrationCsv(sampleCalibration({ points }))).entries()) {
      const { rpm, measured, before, after, sigma } = points[i];
      expect(line).toMatchObject({
        rpm: String(rpm),
        measuredNm: String(measured),
        beforeNm: String(before),
        afterNm: String(after),
        allowedNm: String(sigma),
      });
      expect(Number(line['beforeErrorPct'])).toBeCloseTo((100 * (before - measured)) / measured, 9);
      expect(Number(line['afterErrorPct'])).toBeCloseTo((100 * (after - measured)) / measured, 9);
    }
  });

  it('of a back-test are both sides, and gains in percent', () => {
    const points = distinct(sampleBacktest().points);
    for (const [i, line] of linesOf(backtestCsv(sampleBacktest({ points }))).entries()) {
      const { rpm, before, after, measuredGain, forecastGain, spread } = points[i];
      expect(line).toMatchObject({
        rpm: String(rpm),
        beforeMeasuredNm: String(before.measuredNm),
        beforeForecastNm: String(before.forecastNm),
        afterMeasuredNm: String(after.measuredNm),
        afterForecastNm: String(after.forecastNm),
        measuredGainPct: String(100 * measuredGain),
        forecastGainPct: String(100 * forecastGain),
        forecastGainSpreadPct: spread === null ? '' : String(100 * spread),
        errorPoints: String(100 * (forecastGain - measuredGain)),
      });
    }
  });
});
