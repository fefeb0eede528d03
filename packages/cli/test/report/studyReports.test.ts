import { comparePulls, readDynoSheet, summarisePulls } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { BACKTEST_CHARTS, backtestCharts, backtestReport } from '../../src/report/backtestReport.ts';
import {
  CALIBRATION_CHARTS,
  calibrationCharts,
  calibrationReport,
} from '../../src/report/calibrationReport.ts';
import { alongScale } from '../../src/report/charts/sweptValues.ts';
import { COMPARE_CHARTS, compareCharts, compareReport } from '../../src/report/compareReport.ts';
import { FORECAST_CHARTS, forecastCharts } from '../../src/report/forecastReport.ts';
import { PULLS_CHARTS, pullsCharts, pullsReport } from '../../src/report/pullsReport.ts';
import { RANK_CHARTS, rankCharts, rankReport } from '../../src/report/rankReport.ts';
import {
  RESTRICTION_CHARTS,
  restrictionsCharts,
  restrictionsReport,
} from '../../src/report/restrictionsReport.ts';
import { SWEEP_CHARTS, sweepCharts, sweepReport } from '../../src/report/sweepReport.ts';
import { sampleCurve } from '../sampleCurve.ts';
import { sampleRanking } from './sampleRankings.ts';
import {
  sampleBacktest,
  sampleCalibration,
  sampleComparison,
  sampleRestrictions,
  sampleSweep,
} from './sampleStudies.ts';

const figuresOf = (page: string): string[] =>
  [...page.matchAll(/<figure id="([\w-]+)">/g)].map(([, id]) => id);
const textOf = (page: string): string =>
  page
    .replace(/<(style|svg)\b.*?<\/\1>/gs, '')
    .replace(/<wbr>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
const EXTRAS = (names: readonly string[]) => ({
  note: '',
  resolvablePct: 0.82,
  fuelOctane: names.map(() => 93),
});
const compare = (names: readonly string[]) =>
  compareReport(
    sampleComparison(names),
    { note: '', resolvablePct: 0.82, fuelOctane: names.map(() => 93) },
    'trade',
  );

describe('compareReport(comparison, extras, units)', () => {
  it('has the curves, their difference with what a dyno tells, filling and depression', async () => {
    const page = await compare(['as it is', 'big cam']);
    expect(figuresOf(page)).toEqual([
      'difference',
      'torque',
      'power',
      'filling',
      'depression',
      'octane-margin',
    ]);
    expect(page).toContain('less than a dyno shows, 0.82 %');
    expect(textOf(page)).toContain('big cam: from -1.0 % at 3000 rpm to +1.0 % at 6000 rpm.');
    expect(textOf(page)).toContain('Best over 4000 to 6000 rpm: big cam, +1.3 hp (+0.2 %) mean power');
    expect(textOf(page)).toContain('big cam: big cam asks for more octane');
  });

  it('gives each of many a small drawing of torque, the three that gain most the others, and says so', async () => {
    const names = Array.from({ length: 9 }, (_, i) => `engine ${i}`);
    const words = textOf(await compare(names));
    expect(words).toContain(
      'Drawings of torque show every change, the other drawings the 3 that gain most; the table has all.',
    );
    for (const name of names) expect(words).toContain(name);
    const drawing = (page: string, id: string): string =>
      new RegExp(`<figure id="${id}">(.*?)<figcaption>`, 's').exec(page)?.[1] ?? '';
    const page = await compare(names);
    for (const name of names.slice(1)) expect(drawing(page, 'difference')).toContain(`>${name}<`);
    expect(drawing(page, 'power')).toContain('>engine 8<');
    expect(drawing(page, 'power')).not.toContain('>engine 5<');
    // A dozen small ones fill a sheet of paper.
    const more = await compare(Array.from({ length: 20 }, (_, i) => `engine ${i}`));
    expect(drawing(more, 'torque')).toContain('>engine 8<');
    expect(drawing(more, 'torque')).not.toContain('>engine 7<');
    expect(textOf(more)).toContain(
      'Drawings of torque show the 12 changes that gain most, the other drawings the 3',
    );
  });

  it('shows one combination alone, with nothing to set it against', async () => {
    expect(figuresOf(await compare(['alone']))).toEqual([
      'torque',
      'power',
      'filling',
      'depression',
      'octane-margin',
    ]);
  });
});

const rank = (names: readonly string[]) =>
  rankReport(
    sampleRanking(names),
    { note: '', curve: () => sampleCurve([3000, 4000, 5000, 6000]), fuelOctane: 93 },
    'trade',
  );

describe('sweepReport(sweep, note, units)', () => {
  it('draws mean power along a field of numbers, and torque at some of them', async () => {
    const values = ['28 in', '30 in', '32 in', '34 in'];
    const page = await sweepReport(
      sampleSweep([{ path: 'exhaust.primary.length', values, current: '30 in' }]),
      '',
      'trade',
    );
    expect(figuresOf(page)).toEqual(['swept-values', 'swept-curves']);
    expect(page).toContain('>exhaust.primary.length, in<');
    expect(page).toContain('34 in (best)');
  });

  it('draws bars where the values are words', async () => {
    const words = { path: 'chamber.shape', values: ['pent-roof', 'hemispherical'], current: null };
    const page = await sweepReport(sampleSweep([words]), '', 'trade');
    expect(page).toContain('>hemispherical<');
    expect(page).toContain('gain of mean power, %');
  });

  it('draws a grid of two fields, its best framed, and a dash where there is no engine', async () => {
    const variables = [
      { path: 'chamber.compression', values: [9, 10], current: 9 },
      { path: 'cam.advance', values: ['0 deg', '4 deg'], current: '4 deg' },
    ];
    const sweep = sampleSweep(variables);
    const [first, ...others] = sweep.points;
    const points = [{ ...first, figures: null, bandGainPct: null, refused: 'no room' }, ...others];
    const page = await sweepReport({ ...sweep, points }, '', 'si');
    expect(page).toMatch(/stroke="var\(--ink\)" stroke-width="3"/);
    expect(page).toMatch(/>-<\/text>/);
    expect(textOf(page)).toContain('refused');
  });

  it.each([
    [['28 in', '30 in'], { numbers: [28, 30], unit: 'in' }],
    [[9.5, 10.5], { numbers: [9.5, 10.5], unit: '' }],
    [['28 in', '700 mm'], null],
    [['30 in', '28 in'], null],
    [['2-1/8 in', '2-1/4 in'], null],
    [['wedge', 'hemi'], null],
    [['28 in'], null],
  ])('takes %j for a scale, or not', (values, scale) => expect(alongScale(values)).toEqual(scale));
});

describe('rankReport(ranking, note, units)', () => {
  const names = ['headers', 'cam', 'carburetor', 'rockers'];

  it('has the ranking with its errors, the pairs, the order and what matters most', async () => {
    const page = await rank(names);
    expect(figuresOf(page)).toEqual([
      'ranking',
      'difference',
      'pairs',
      'torque-and-power',
      'filling',
      'depression',
      'octane-margin',
    ]);
    const words = textOf(page);
    expect(words).toMatch(/^ sample - valvetide sample First test headers: \+11\.3 ± 2\.3 hp/);
    expect(words).toContain('Shaded: less than the 0.82 % that 3 pulls a side can show.');
    const bars = /<figure id="ranking">(.*?)<figcaption>/s.exec(page)?.[1] ?? '';
    expect(bars).toContain('>headers<');
    expect(bars).toContain('>tie 1<');
    expect(words).toContain('headers and cam: helps.');
    expect(words).toContain('Order of tests 1. Baseline, 3 pulls: the level of the day.');
    expect(words).toContain('Best set: +17.4 hp (+3.2 %)');
    expect(words).toContain('heads.intake.flow 60 % of the variance');
  });

  it('draws each change by speed with its ribbon within the band, beside what a dyno tells', async () => {
    const page = await rank(names);
    const lead = /<figure id="difference">(.*?)<\/figure>/s.exec(page)?.[1] ?? '';
    expect(lead).toContain('>one standard deviation<');
    expect(lead).toContain('>less than a dyno shows, 0.82 %<');
    for (const name of names) expect(lead).toContain(`>${name}<`);
    const twenty = textOf(await rank(Array.from({ length: 20 }, (_, i) => `part ${i}`)));
    expect(twenty).toContain('The first 12 of 20 changes.');
    // 3 N m of the first change at 4000 rpm; none at 3000, outside of the band.
    expect(lead).toContain('<td class="">2.2</td>');
    const own = /<figure id="torque-and-power">(.*?)<\/figure>/s.exec(page)?.[1] ?? '';
    expect(own).toContain('>one standard deviation<');
    expect(own).toContain('<td class="">17.7</td>');
  });

  it('shows what was ranked where the engine as it is could not be forecast', async () => {
    const page = await rankReport(
      { ...sampleRanking(names), baseline: null },
      { note: '', curve: () => null, fuelOctane: 93 },
      'trade',
    );
    expect(figuresOf(page)).toEqual(['ranking', 'pairs']);
  });

  it('does with one change, which has no pair', async () => {
    expect(figuresOf(await rank(['headers']))).not.toContain('pairs');
  });
});

describe('restrictionsReport(study, note, units)', () => {
  it('has what is in the way by speed and over the band, what rubs, and what takes of the air', async () => {
    const page = await restrictionsReport(sampleRestrictions('sample', ['longer cam']), '', 'trade');
    expect(figuresOf(page)).toEqual([
      'restrictions',
      'restrictions-by-speed',
      'beside-by-speed',
      'filling-losses',
    ]);
    const words = textOf(page);
    expect(words).toContain(
      'In the way over 4000 to 6000 rpm: the intake port, +3.0 % of torque if it were free',
    );
    expect(words).toContain('First in the way at 3000 rpm: intake port;');
    expect(words).toContain('carburetor: four times the area');
    expect(words).toContain('After each change');
  });

  it('draws friction beside what is in the way, never among it', async () => {
    const page = await restrictionsReport(sampleRestrictions('sample'), '', 'trade');
    const lead = /<figure id="restrictions-by-speed">(.*?)<\/figure>/s.exec(page)?.[1] ?? '';
    expect(lead).toContain('>carburetor<');
    expect(lead).not.toContain('>friction<');
    expect(lead).not.toContain('>air cleaner<');
  });
});

describe('calibrationReport(result, version, units)', () => {
  it('has measured and forecast torque, before and after, and the moves of the knobs', async () => {
    const page = await calibrationReport(sampleCalibration(), '0.1.0', 'trade');
    expect(figuresOf(page)).toEqual(['fit', 'fit-difference', 'knobs']);
    expect(textOf(page)).toContain('off by 2.5 % before, 0.4 % after');
    // (0.94 - 1) / 0.12
    expect(page).toContain('1.000 to 0.940, -0.5');
  });

  it('says in a box that the sheets disagree, and shows peaks as a table', async () => {
    const points = sampleCalibration()
      .points.slice(0, 1)
      .map((p) => ({ ...p, kind: 'torque peak' as const }));
    const disagreement = { knobs: [], message: 'the sheets disagree', culprits: ['the standard'], tried: [] };
    const page = await calibrationReport(
      sampleCalibration({ outcome: 'sheets disagree', points, disagreement }),
      '0.1.0',
      'si',
    );
    expect(figuresOf(page)).toEqual(['knobs']);
    expect(textOf(page)).toContain('Read with care the sheets disagree check the standard');
    expect(textOf(page)).toContain('torque peak 800.0 Nm');
  });
});

/** Two pulls a sheet, the second sheet 2 % above the first; names of sheets and their titles. */
async function pulls(names: readonly string[]): Promise<string> {
  const sheets = names.map((name, i) => {
    const rows = (factor: number): string =>
      [4000, 5000, 6000].map((rpm) => `${rpm},${(600 + 20 * i) * factor}`).join('\n');
    const text = `# standard: J607\nrpm,torque (lb-ft)\n${rows(1)}\n\n${rows(1.01)}\n`;
    const read = readDynoSheet(text, { name });
    if (!read.ok) throw new Error(read.problems[0].message);
    return read.value;
  });
  const result = {
    schemaVersion: 1,
    program: { name: 'valvetide', version: '0.1.0' },
    sheets: sheets.map((sheet) => summarisePulls(sheet)),
    comparisons: sheets.slice(1).map((sheet) => comparePulls(sheets[0], sheet)),
  } as const;
  return pullsReport(sheets, result, 'trade');
}

describe('pullsReport(sheets, result, units)', () => {
  it('has what was measured, what it gained beside what the pulls tell, and how they repeat', async () => {
    const page = await pulls(['a.csv', 'b.csv']);
    expect(figuresOf(page)).toEqual(['difference', 'torque', 'power', 'scatter']);
    expect(textOf(page)).toContain('Torque more or less than a.csv. b.csv: from +3.3 %');
    expect(textOf(page)).toContain('Pulls of b.csv');
    expect(page).toContain('>its 2 pulls<');
  });

  it('calls sheets of long paths by the end of them, which tells them apart', async () => {
    const folder = '/home/shop/engines/of/this/winter/hill-climb/sheets/';
    const legend = textOf(await pulls([`${folder}before.csv`, `${folder}after.csv`]));
    for (const name of ['before.csv', 'after.csv']) expect(legend).toMatch(new RegExp(`[^/]${name}`));
  });

  it('does with one sheet, which has nothing to be set against', async () => {
    expect(figuresOf(await pulls(['a.csv']))).toEqual(['torque', 'power', 'scatter']);
  });
});

describe('backtestReport(result, units)', () => {
  it('has the gain forecast and measured, before and after, and the calibration', async () => {
    const page = await backtestReport(sampleBacktest(), 'trade');
    expect(figuresOf(page)).toEqual(['gain', 'before-and-after', 'fit', 'fit-difference', 'knobs']);
    const words = textOf(page);
    expect(words).toContain('milled heads: forecast +2.5 ± 0.2 %, measured +2.0 % of mean power');
    expect(words).toContain('as near as the dyno can show');
  });

  it.each([
    [0.0004, '+2.5 ± less than 0.1 %, measured'],
    [null, '+2.5 %, measured'],
  ])('never says that a gain is known exactly, its spread being %s', async (spread, words) => {
    const gain = sampleBacktest().gain;
    const page = await backtestReport(
      sampleBacktest({ gain: gain === null ? null : { ...gain, spread } }),
      'si',
    );
    expect(textOf(page)).toContain(words);
  });

  it('shows the calibration and the culprits where the sheets disagree', async () => {
    const disagreement = { knobs: [], message: 'the sheets disagree', culprits: ['the standard'], tried: [] };
    const page = await backtestReport(
      sampleBacktest({
        outcome: 'sheets disagree',
        points: [],
        gain: null,
        calibration: sampleCalibration({ outcome: 'sheets disagree', disagreement }),
      }),
      'si',
    );
    expect(figuresOf(page)).toEqual(['fit', 'fit-difference', 'knobs']);
    expect(textOf(page)).toContain('the sheets disagree check the standard');
  });
});

/** Every chart of a result is in the list that --chart offers, in that order. */
describe('the charts that --chart offers', () => {
  it.each([
    ['forecast', FORECAST_CHARTS, () => forecastCharts({} as never, 'trade')],
    ['compare', COMPARE_CHARTS, () => compareCharts(sampleComparison(['a']), EXTRAS(['a']), 'trade')],
    ['sweep', SWEEP_CHARTS, () => sweepCharts(sampleSweep([]), 'trade')],
    ['rank', RANK_CHARTS, () => rankCharts(sampleRanking([]), {} as never, 'trade')],
    ['restrictions', RESTRICTION_CHARTS, () => restrictionsCharts(sampleRestrictions('a'))],
    ['calibrate', CALIBRATION_CHARTS, () => calibrationCharts(sampleCalibration(), 'trade')],
    ['backtest', BACKTEST_CHARTS, () => backtestCharts(sampleBacktest(), 'trade')],
    ['pulls', PULLS_CHARTS, () => pullsCharts([], {} as never, 'trade')],
  ] as const)('of %s are those of its page', (_, offered, charts) =>
    expect(Object.keys(charts())).toEqual([...offered]),
  );
});

describe('a hostile name in a study', () => {
  const hostile = `<script>alert('1')</script><img src=x onerror="alert(1)">`;

  it('is text in every report', async () => {
    const pages = [
      await compare([hostile, `${hostile} 2`]),
      await rankReport(
        sampleRanking([hostile, `${hostile} 2`]),
        { note: hostile, curve: () => sampleCurve([3000, 4000]), fuelOctane: 93 },
        'trade',
      ),
      await backtestReport(sampleBacktest({ changes: [hostile], combination: hostile }), 'trade'),
      await pulls([hostile, `${hostile} 2`]),
      await sweepReport(
        sampleSweep([{ path: hostile, values: [hostile, 'b'], current: hostile }], { combination: hostile }),
        hostile,
        'trade',
      ),
      await restrictionsReport(sampleRestrictions(hostile, [`${hostile} 2`]), hostile, 'trade'),
      await calibrationReport(sampleCalibration({ combination: hostile, sheets: [hostile] }), '0.1.0', 'si'),
    ];
    for (const page of pages) {
      expect(page).not.toMatch(/<script|<img|NaN|undefined/);
      expect(page).toContain('&lt;script&gt;alert(');
    }
  });
});
