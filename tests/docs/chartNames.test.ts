/** The page of reports has every page and, in its row, every chart by the name that `--chart` takes. */
import { describe, expect, it } from 'vitest';
import { BACKTEST_CHARTS } from '../../packages/cli/src/report/backtestReport.ts';
import { CALIBRATION_CHARTS } from '../../packages/cli/src/report/calibrationReport.ts';
import { CHOOSE_CHARTS } from '../../packages/cli/src/report/chooseReport.ts';
import { COMPARE_CHARTS } from '../../packages/cli/src/report/compareReport.ts';
import { FORECAST_CHARTS } from '../../packages/cli/src/report/forecastReport.ts';
import { PRESSURE_CHARTS } from '../../packages/cli/src/report/pressuresReport.ts';
import { PULLS_CHARTS } from '../../packages/cli/src/report/pullsReport.ts';
import { RANK_CHARTS } from '../../packages/cli/src/report/rankReport.ts';
import { RESTRICTION_CHARTS } from '../../packages/cli/src/report/restrictionsReport.ts';
import { SWEEP_CHARTS } from '../../packages/cli/src/report/sweepReport.ts';
import { readGuide } from './guides.ts';

const PAGES: readonly (readonly [command: string, charts: readonly string[]])[] = [
  ['forecast', FORECAST_CHARTS],
  ['compare', COMPARE_CHARTS],
  ['sweep', SWEEP_CHARTS],
  ['rank', RANK_CHARTS],
  ['choose', CHOOSE_CHARTS],
  ['restrictions', RESTRICTION_CHARTS],
  ['calibrate', CALIBRATION_CHARTS],
  ['backtest', BACKTEST_CHARTS],
  ['pulls', PULLS_CHARTS],
  ['pressures', PRESSURE_CHARTS],
];

/** Lines of the table by their first cell. */
const row = (command: string): string =>
  readGuide('docs/guide/report.md')
    .split('\n')
    .find((line) => new RegExp(`^\\| ${command} +\\|`).test(line)) ?? '';

describe('the page of reports', () => {
  it.each(PAGES)('names the charts of %s', (command, charts) => {
    expect(charts.filter((chart) => !row(command).includes(`\`${chart}\``))).toEqual([]);
  });
});
