import { describe, expect, it } from 'vitest';
import { calibrationReport } from '../../src/report/calibrationReport.ts';
import { numbersOf } from '../../src/report/charts/sweptValues.ts';
import { compareReport } from '../../src/report/compareReport.ts';
import { rankReport } from '../../src/report/rankReport.ts';
import { restrictionsReport } from '../../src/report/restrictionsReport.ts';
import { sweepReport } from '../../src/report/sweepReport.ts';
import {
  sampleCalibration,
  sampleComparison,
  sampleRanking,
  sampleRestrictions,
  sampleSweep,
} from './sampleStudies.ts';

const figuresOf = (page: string): string[] =>
  [...page.matchAll(/<figure id="([\w-]+)">/g)].map(([, id]) => id);
const textOf = (page: string): string =>
  page
    .replace(/<(style|svg)\b.*?<\/\1>/gs, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
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
    expect(page).toContain('less than a dyno tells, 0.8 %');
    expect(textOf(page)).toContain('big cam: from -1.0 % at 3000 rpm to +1.0 % at 6000 rpm.');
    expect(textOf(page)).toContain('Best over 4000 to 6000 rpm: big cam, +1.3 hp (+0.2 %) mean power');
    expect(textOf(page)).toContain('big cam: big cam asks for more octane');
  });

  it('draws the first six, says so, and keeps all in the summary', async () => {
    const names = Array.from({ length: 9 }, (_, i) => `engine ${i}`);
    const words = textOf(await compare(names));
    expect(words).toContain('The drawings show the first 6 of 9; the tables show all.');
    for (const name of names) expect(words).toContain(name);
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
    const words = { path: 'chamber.class', values: ['pent-roof', 'hemispherical'], current: null };
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
  ])('takes %j for a scale, or not', (values, scale) => expect(numbersOf(values)).toEqual(scale));
});

describe('rankReport(ranking, note, units)', () => {
  const names = ['headers', 'cam', 'carburetor', 'rockers'];

  it('has the ranking with its errors, the pairs, the order and what matters most', async () => {
    const page = await rankReport(sampleRanking(names), '', 'trade');
    expect(figuresOf(page)).toEqual(['ranking', 'pairs']);
    const words = textOf(page);
    expect(words).toMatch(/^ sample - valvetide sample First test headers: \+11\.3 \+\/- 2\.3 hp/);
    expect(words).toContain('Shaded: less than 3 pulls a side tell, 0.82 %.');
    expect(words).toContain('headers and cam: helps.');
    expect(words).toContain('Order of tests 1 Baseline, 3 pulls: the level of the day.');
    expect(words).toContain('Best set: +17.4 hp (+3.2 %)');
    expect(words).toContain('heads.intake.flow 60 % of the variance');
  });

  it('does with one change, which has no pair', async () => {
    expect(figuresOf(await rankReport(sampleRanking(['headers']), '', 'trade'))).toEqual(['ranking']);
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
    const disagreement = { knobs: [], message: 'the sheets disagree', culprits: ['the standard'] };
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

describe('a hostile name in a study', () => {
  const hostile = `<script>alert('1')</script><img src=x onerror="alert(1)">`;

  it('is text in every report', async () => {
    const pages = [
      await compare([hostile, `${hostile} 2`]),
      await rankReport(sampleRanking([hostile, `${hostile} 2`]), hostile, 'trade'),
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
