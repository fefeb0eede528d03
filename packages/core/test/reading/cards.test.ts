/** Cam cards of every shape: each makes a lobe that passes its lines, or a problem that names two fields and by how much they miss. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { buildLobe } from '../../src/geometry/lobe.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { lobeDuration } from '../geometry/lobeMeasures.ts';
import { fileWith } from './files.ts';

function lines(cam: string, sheet?: string): readonly string[] {
  const result = readCombination(fileWith({ cam }), { file: 'e.yaml', sheet: () => sheet });
  return result.ok ? [] : result.problems.map(problemLine);
}

/** Cards of real cams, from mild to race, checked where makers check: seat ramps, speeds and lifts of the trade. */
const REAL = [
  '{ advertised: 244 deg, checkedAt: 0.006 in, at050: 188 deg, lobeLift: 0.25 in }',
  '{ advertised: 268 deg, checkedAt: 0.006 in, at050: 224 deg, lobeLift: 0.318 in }',
  '{ advertised: 280 deg, checkedAt: 0.004 in, at050: 230 deg, at200: 146 deg, lobeLift: 0.34 in }',
  '{ advertised: 272 deg, checkedAt: 0.008 in, at050: 226 deg, at200: 152 deg, lobeLift: 0.36 in }',
  '{ advertised: 290 deg, checkedAt: 0.015 in, at050: 254 deg, at200: 170 deg, lobeLift: 0.37 in }',
  '{ advertised: 304 deg, checkedAt: 0.020 in, at050: 272 deg, at200: 204 deg, lobeLift: 0.46 in }',
  '{ advertised: 238 deg, checkedAt: 1 mm, at050: 229 deg, lobeLift: 9.1 mm }',
  '{ advertised: 256 deg, checkedAt: 0.1 mm, lobeLift: 8.4 mm }',
  '{ advertised: 252 deg, checkedAt: 1 mm, lobeLift: 10.5 mm }',
  '{ advertised: 262 deg, checkedAt: 0.050 mm, at050: 198 deg, lobeLift: 7.1 mm }',
  '{ advertised: 236 deg, checkedAt: 0.053 in, lobeLift: 0.34 in }',
  '{ advertised: 234.5 deg, checkedAt: 0.053 in, at050: 236 deg, at200: 150 deg, lobeLift: 0.34 in }',
  '{ at050: 178 deg, lobeLift: 0.21 in }',
  '{ at050: 320 deg, at200: 262 deg, lobeLift: 0.55 in }',
  '{ advertised: 240 deg, checkedAt: 0.006 in, lobeLift: 5.2 mm }',
];

describe('a cam card', () => {
  it.each(REAL)('of a real cam makes a lobe: %s', (card) => {
    expect(lines(`{ lifter: solid-flat, intake: ${card}, exhaust: ${card} }`)).toEqual([]);
  });

  it('whose duration stands at 1 mm is told why another, near the seat, is assumed beside it', () => {
    const cam = '{ lifter: solid-flat, intake: { advertised: 252 deg, checkedAt: 1 mm, lobeLift: 10.5 mm } }';
    const read = readCombination(fileWith({ cam }), { file: 'e.yaml' });
    const assumed = read.ok ? read.value.assumed : [];
    expect(assumed.find(({ path }) => path === 'cam.intake.checkedAt')?.reason).toBe(
      'the stated duration counts at its own lift; near the seat another is estimated, at this height',
    );
  });

  it('whose duration stands at 0.053 in, as big twins have it, is some two degrees longer at 0.050 in', () => {
    const cam =
      '{ lifter: hydraulic-roller, intake: { advertised: 236 deg, checkedAt: 0.053 in, lobeLift: 0.34 in } }';
    const read = readCombination(fileWith({ cam }), { file: 'e.yaml' });
    const lobe = read.ok && read.value.intake.lobe.kind === 'card' ? buildLobe(read.value.intake.lobe) : null;
    if (lobe === null) throw new Error('no lobe');
    expect(lobeDuration(lobe, 0.053 * 0.0254)).toBeCloseTo(236, 3);
    expect(lobeDuration(lobe, 0.05 * 0.0254)).toBeGreaterThan(237.5);
    expect(lobeDuration(lobe, 0.05 * 0.0254)).toBeLessThan(238.5);
  });

  it('whose lines stand in the wrong order about 0.050 in is refused', () => {
    const at050 = (card: string): readonly string[] => lines(`{ intake: { ${card}, lobeLift: 0.34 in } }`);
    expect(at050('advertised: 236 deg, checkedAt: 0.053 in, at050: 235 deg')).toEqual([
      'e.yaml:4:60 cam.intake.at050 is not above the advertised duration: 235 deg against 236 deg',
    ]);
    expect(at050('advertised: 236 deg, checkedAt: 0.006 in, at050: 237 deg')).toEqual([
      'e.yaml:4:60 cam.intake.at050 is not below the advertised duration: 237 deg against 236 deg',
    ]);
  });

  it('that creeps between two lines is refused with both fields and how far apart they may be', () => {
    expect(
      lines('{ intake: { advertised: 240 deg, checkedAt: 1 mm, at050: 200 deg, lobeLift: 8 mm } }'),
    ).toEqual([
      "e.yaml:4:18 cam.intake.advertised can't go with at050: 240 deg above 0.03937 in and 200 deg above 0.05 in are 40 deg apart, and a lobe has them at most 38 deg apart",
    ]);
  });

  it('that rises fast, slowly and fast again is refused with the smaller slip of the two', () => {
    expect(
      lines(
        '{ intake: { advertised: 240 deg, checkedAt: 0.006 in, at050: 230 deg, at200: 100 deg, lobeLift: 0.36 in } }',
      ),
    ).toEqual([
      "e.yaml:4:18 cam.intake.advertised can't go with at050: 240 deg above 0.006 in and 230 deg above 0.05 in are 10 deg apart, and a lobe has them at least 39 deg apart",
    ]);
  });

  it('that jumps is refused', () => {
    expect(lines('{ intake: { at050: 230 deg, at200: 226 deg, lobeLift: 0.36 in } }')).toEqual([
      "e.yaml:4:18 cam.intake.at050 can't go with at200: 230 deg above 0.05 in and 226 deg above 0.2 in are 4 deg apart, and a lobe has them at least 16 deg apart",
    ]);
  });

  it('gives way in what was estimated, not in what is stated', () => {
    // A ramp of 20 deg is short: with the usual estimate at 0.200 in no hump would pass.
    expect(
      lines('{ intake: { advertised: 240 deg, checkedAt: 0.006 in, at050: 220 deg, lobeLift: 0.36 in } }'),
    ).toEqual([]);
  });

  it('of any shape makes a lobe through its lines, or names two of its fields', () => {
    const angle = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const card = fc.record(
      {
        advertised: angle(60, 420),
        checkedAt: angle(0.01, 1.2),
        at050: angle(60, 420),
        at200: angle(10, 400),
        lobeLift: angle(0.5, 30),
      },
      { requiredKeys: [] },
    );
    let made = 0;
    fc.assert(
      fc.property(card, ({ advertised, checkedAt, at050, at200, lobeLift }) => {
        const field = (name: string, value: number | undefined, unit: string): string[] =>
          value === undefined ? [] : [`${name}: ${value.toFixed(4)} ${unit}`];
        const text = [
          ...field('advertised', advertised, 'deg'),
          ...field('checkedAt', checkedAt, 'mm'),
          ...field('at050', at050, 'deg'),
          ...field('at200', at200, 'deg'),
          ...field('lobeLift', lobeLift, 'mm'),
        ].join(', ');
        const result = readCombination(fileWith({ cam: `{ intake: { ${text} } }` }));
        if (!result.ok) {
          expect(result.problems.every(({ path }) => /^(cam|valvetrain)\.\w+/u.test(path))).toBe(true);
          return;
        }
        made += 1;
        const { lobe } = result.value.intake;
        if (lobe.kind !== 'card') throw new Error('a card was given');
        const shape = buildLobe(lobe);
        for (const { duration, lift } of lobe.points)
          expect(lobeDuration(shape, lift)).toBeCloseTo(duration, 3);
      }),
      { numRuns: 800 },
    );
    // About 50 of 800 are lobes at all: far fewer, and nothing would be shown.
    expect(made).toBeGreaterThan(20);
  });
});

describe('a lift table', () => {
  const rows = (from: number, to: number): string =>
    `crank deg,lobe lift mm\n${Array.from({ length: 40 }, (_, i) => -130 + (260 / 39) * i)
      .filter((at) => at >= from && at <= to)
      .map((at) => `${at.toFixed(2)},${(8 * Math.max(0, Math.cos((Math.PI * at) / 260)) ** 2).toFixed(3)}`)
      .join('\n')}\n`;
  const cam = '{ intake: { table: lobe.csv } }';

  it('from seat to seat is read', () => expect(lines(cam, rows(-130, 130))).toEqual([]));

  it('that ends high up is refused at its last line, and so is one that begins there', () => {
    expect(lines(cam, rows(-130, 60))[0]).toMatch(
      /^lobe\.csv:30 cam\.intake\.table ends at \d\d % of its highest lift: the rest of the lobe is not known/u,
    );
    expect(lines(cam, rows(-60, 130))[0]).toMatch(/^lobe\.csv:2 cam\.intake\.table begins at \d\d %/u);
  });
});
