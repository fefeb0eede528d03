/** Parts of the induction as a file has them: what is stated, what is estimated beside it, and what is told of each slip. */
import { describe, expect, it } from 'vitest';
import type { Combination, Induction } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';

const text = (induction: string, cylinders: number): string =>
  [
    `engine: { bore: 4 in, stroke: 3.5 in, cylinders: ${cylinders} }`,
    'chamber: { compression: 10 }',
    'heads: { valvesPerCylinder: 2 }',
    `induction: ${induction}`,
    '',
  ].join('\n');

function engineOf(induction: string, cylinders = 8): Combination {
  const read = readCombination(text(induction, cylinders), { file: 'e.yaml' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

const of = (induction: string, cylinders = 8): Induction => engineOf(induction, cylinders).induction;

function linesOf(induction: string, cylinders = 8): readonly string[] {
  const read = readCombination(text(induction, cylinders), { file: 'e.yaml' });
  return read.ok ? [] : read.problems.map(problemLine);
}

const INCH = 0.0254;
const disc = (inches: number): number => (Math.PI / 4) * (inches * INCH) ** 2;
const assumed = (engine: Combination, path: string) =>
  engine.assumed.find((entry) => entry.path === `induction.${path}`);

const SINGLE = 'manifold: single-plane, plenum: 2 l';
const CARBURETOR = 'carburetor: { rating: 650 cfm, barrels: 4, ratedAt: 1.5 inHg, venturi: 1.3 in }';

describe('a venturi', () => {
  it('passes 0.84 of its area, and gives back what the rating asks for', () => {
    const { meteringArea, venturi } = of(`{ ${CARBURETOR}, ${SINGLE} }`);
    const throat = 0.84 * 4 * disc(1.3);
    expect((venturi?.overMetering ?? 0) * meteringArea).toBeCloseTo(throat, 9);
    // At small drops the share lost would be the square of the ratio of areas; at 1.5 inHg compression takes a little.
    expect((venturi?.lost ?? 0) / (throat / meteringArea) ** 2).toBeGreaterThan(0.96);
    expect((venturi?.lost ?? 0) / (throat / meteringArea) ** 2).toBeLessThan(1);
  });

  it('is estimated by the rating, with its spread, and moves with flowMultiplier', () => {
    const engine = engineOf('{ carburetor: { rating: 650 cfm } }');
    const entry = assumed(engine, 'carburetor.venturi');
    expect(Number(entry?.value)).toBeCloseTo(1.336, 2);
    expect(entry?.spread).toBeCloseTo(0.04 * Number(entry?.value), 3);
    const more = of('{ carburetor: { rating: 650 cfm }, flowMultiplier: 1.1 }');
    expect(more.venturi).toEqual(engine.induction.venturi);
    expect(more.meteringArea / engine.induction.meteringArea).toBeCloseTo(1.1, 9);
  });

  it('that is stated alone tells the rating, as the rating would tell it', () => {
    const rated = engineOf('{ carburetor: { rating: 650 cfm } }');
    const venturi = assumed(rated, 'carburetor.venturi');
    const alone = engineOf(`{ carburetor: { venturi: ${venturi?.value} in } }`);
    const rating = assumed(alone, 'carburetor.rating');
    // Four digits of a diameter are 0.1 % of an area.
    expect(Number(rating?.value) / 650).toBeCloseTo(1, 3);
    expect(rating?.spread).toBeCloseTo(0.05 * 650, -0.5);
    expect(alone.induction.meteringArea / rated.induction.meteringArea).toBeCloseTo(1, 3);
    expect((alone.induction.venturi?.lost ?? 0) / (rated.induction.venturi?.lost ?? 1)).toBeCloseTo(1, 2);
    // 30 mm pass 0.95 of 7.069 cm2 at 3.0 inHg, 0.92 of what the incompressible law gives: 2 * 10159 Pa / 1.225 kg/m3 are (128.8 m/s)^2.
    const twin = engineOf('{ carburetor: { venturi: 30 mm, count: 2 } }', 2);
    const cfm = (0.95 * 7.069e-4 * 128.8) / 0.3048 ** 3 / (1 / 60);
    const ofTwin = Number(assumed(twin, 'carburetor.rating')?.value);
    expect(ofTwin / cfm).toBeGreaterThan(0.93);
    expect(ofTwin / cfm).toBeLessThan(1);
    const along = '{ manifold: individual-throttles, carburetor: { venturi: 30 mm, count: 2 } }';
    const without = engineOf(along, 2);
    expect(assumed(without, 'carburetor.rating')?.value).toBe(ofTwin);
    expect(without.warnings.map(({ path }) => path)).not.toContain('induction.carburetor.venturi');
  });

  it('goes with each of as many carburetors as cylinders, and so does a throttle', () => {
    const style = (induction: string) => assumed(engineOf(induction, 4), 'manifold')?.value;
    expect(style('{ carburetor: { venturi: 30 mm, count: 4 } }')).toBe('individual-throttles');
    expect(style('{ throttle: { diameter: 40 mm, count: 4 } }')).toBe('individual-throttles');
    expect(style('{ carburetor: { venturi: 30 mm, count: 2 } }')).toBe('single-plane');
    expect(style('{ throttle: { diameter: 40 mm, count: 4 }, plenum: 2 l }')).toBe('long-runner');
  });

  it('is asked for its barrels beside a rating where two or four may be meant', () => {
    const asked = (carburetor: string, cylinders: number) =>
      engineOf(`{ carburetor: ${carburetor} }`, cylinders).warnings.flatMap(({ code, message }) =>
        code === 'carburetor-basis' ? [message] : [],
      );
    expect(asked('{ rating: 300 cfm }', 4)).toEqual([expect.stringContaining('state barrels')]);
    expect(asked('{ rating: 300 cfm, barrels: 2 }', 4)).toEqual([]);
    expect(asked('{ rating: 300 cfm, ratedAt: 3 inHg }', 4)).toEqual([]);
    expect(asked('{ rating: 90 cfm }', 1)).toEqual([]);
    expect(asked('{ rating: 90 cfm }', 2)).toEqual([]);
    expect(asked('{ rating: 90 cfm, count: 4 }', 4)).toEqual([]);
  });

  it('is that of one barrel, and several carburetors have no more barrels than there are cylinders', () => {
    const barrels = (cylinders: number, count: number) =>
      assumed(
        engineOf(`{ carburetor: { venturi: 30 mm, count: ${count} } }`, cylinders),
        'carburetor.barrels',
      )?.value;
    expect([barrels(2, 1), barrels(2, 2), barrels(4, 2), barrels(4, 4), barrels(6, 3)]).toEqual([
      1, 1, 2, 1, 2,
    ]);
    expect([barrels(8, 1), barrels(8, 2), barrels(8, 4)]).toEqual([4, 4, 2]);
  });

  it('is none of a throttle', () => {
    expect(of('{ throttle: { diameter: 70 mm } }').venturi).toBeUndefined();
  });
});

describe('the barrels of a carburetor', () => {
  it('weigh as a pipe of their bores does, longer for the venturi and for what moves beyond both ends', () => {
    const { barrels } = of(
      `{ carburetor: { rating: 650 cfm, barrels: 4, venturi: 1.3 in, height: 4 in }, ${SINGLE} }`,
    );
    // Bores of 1.573 in: 4 in and an eighth of it for the narrow half, 0.464 of the area's square root more, and 0.72 radii at either end.
    expect((barrels?.length ?? 0) / INCH).toBeCloseTo(4 * 1.116 + 0.72 * 1.573, 2);
    expect((barrels?.area ?? 0) / INCH ** 2).toBeCloseTo(7.773, 2);
  });

  it('are estimated by their bores, with a spread', () => {
    const entry = assumed(engineOf(`{ ${CARBURETOR}, ${SINGLE} }`), 'carburetor.height');
    expect(Number(entry?.value)).toBeCloseTo(2.5 * 1.573, 2);
    expect(entry?.spread).toBeCloseTo(0.2 * Number(entry?.value), 2);
  });

  it('are none of a throttle, nor of a carburetor along a runner, whose length they are part of', () => {
    expect(of('{ throttle: { diameter: 70 mm } }').barrels).toBeUndefined();
    const along = 'carburetor: { rating: 90 cfm, barrels: 1, height: 4 in }, manifold: individual-throttles';
    expect(of(`{ ${along} }`, 4).barrels).toBeUndefined();
    expect(engineOf(`{ ${along} }`, 4).warnings.map(({ path }) => path)).toContain(
      'induction.carburetor.height',
    );
  });
});

describe('a spacer', () => {
  it('that is open adds its volume to the plenum, and little loss', () => {
    const spaced = engineOf(
      `{ ${CARBURETOR}, ${SINGLE}, spacer: { kind: open, height: 2 in, opening: 12 in2 } }`,
    );
    const { plenums, spacerArea, feed } = spaced.induction;
    expect(plenums[0].volume).toBeCloseTo(2e-3 + 24 * INCH ** 3, 9);
    expect(spacerArea).toBeCloseTo((12 * INCH ** 2) / Math.sqrt(0.1), 9);
    expect(feed).toBeUndefined();
    expect(assumed(spaced, 'spacer.loss')?.spread).toBe(0.1);
  });

  it('with holes is as many short pipes', () => {
    const spaced = engineOf(
      `{ ${CARBURETOR}, ${SINGLE}, spacer: { kind: four-hole, height: 1 in, bore: 1.7 in } }`,
    );
    const { plenums, feed } = spaced.induction;
    expect(plenums[0].volume).toBeCloseTo(2e-3, 9);
    expect(feed).toEqual({ length: INCH, area: expect.closeTo(4 * disc(1.7), 12), bores: 4, loss: 0.05 });
    const estimated = engineOf(`{ ${CARBURETOR}, ${SINGLE}, spacer: { kind: four-hole, height: 1 in } }`);
    expect(assumed(estimated, 'spacer.bore')?.value).toBe(1.573);
    expect(assumed(estimated, 'spacer.bore')?.spread).toBeGreaterThan(0);
  });

  it('that is open joins the planes under one carburetor, and not under two', () => {
    const dual = 'manifold: dual-plane, spacer: { kind: open, height: 1 in, opening: 9 in2 }';
    const one = of(`{ carburetor: { rating: 650 cfm }, ${dual} }`);
    expect(one.dividerArea).toBeCloseTo(0.65 * 3 * INCH ** 2, 9);
    expect(of(`{ carburetor: { rating: 450 cfm, count: 2 }, ${dual} }`).dividerArea).toBeUndefined();
  });
});

describe('a restrictor', () => {
  it('as a plate has a bore under each barrel and stands behind them', () => {
    const engine = engineOf(`{ ${CARBURETOR}, ${SINGLE}, restrictor: { bore: 1 in } }`);
    expect(engine.induction.restrictor).toEqual({
      area: expect.closeTo(4 * 0.72 * disc(1), 12),
      lost: 1,
      place: 'behind',
    });
    expect(assumed(engine, 'restrictor.discharge')?.spread).toBe(0.06);
  });

  it('that is sonic is one in front, whose diffuser gives back what it does', () => {
    const engine = engineOf(
      `{ throttle: { diameter: 60 mm }, restrictor: { kind: sonic, bore: 20 mm, recovery: 85 % } }`,
      4,
    );
    expect(engine.induction.restrictor).toEqual({
      area: expect.closeTo(0.98 * (Math.PI / 4) * 0.02 ** 2, 12),
      lost: expect.closeTo(0.15, 12),
      place: 'front',
    });
  });
});

describe('plenums', () => {
  it('of a dual plane feed every other cylinder of the firing order, or those that are named', () => {
    expect(of('{ manifold: dual-plane }').plenums.map((p) => p.cylinders)).toEqual([
      [1, 4, 6, 7],
      [2, 3, 5, 8],
    ]);
    const named = of(
      `{ ${SINGLE}, carburetor: { rating: 500 cfm, count: 2 }, groups: [[1, 3, 5, 7], [2, 4, 6, 8]] }`,
    );
    expect(named.plenums).toEqual([
      { volume: expect.closeTo(1e-3, 12), cylinders: [1, 3, 5, 7] },
      { volume: expect.closeTo(1e-3, 12), cylinders: [2, 4, 6, 8] },
    ]);
  });

  it('of a dual plane made for more are open through a slot under the secondaries, where nothing is said of the divider', () => {
    const dual = 'carburetor: { rating: 650 cfm, barrels: 4 }, manifold: dual-plane';
    const file = (induction: string, ported: boolean): Combination => {
      const written = text(induction, 8);
      const read = readCombination(
        ported
          ? written.replace('valvesPerCylinder: 2', 'valvesPerCylinder: 2, ports: fully-ported')
          : written,
      );
      if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
      return read.value;
    };
    const made = file(`{ ${dual} }`, false);
    const worked = file(`{ ${dual} }`, true);
    const bore = Math.sqrt((4 * (worked.induction.barrels?.area ?? 0)) / 4 / Math.PI);
    expect(worked.induction.dividerArea).toBeCloseTo(0.65 * bore * 0.375 * INCH, 7);
    expect(assumed(worked, 'divider.opening')?.spread).toBeGreaterThan(0);
    expect(made.induction.dividerArea).toBeUndefined();
    expect(assumed(made, 'divider')?.value).toBe('none');
    for (const other of ['divider: none', 'spacer: none, divider: none'])
      expect(file(`{ ${dual}, ${other} }`, true).induction.dividerArea).toBeUndefined();
    const two = `{ carburetor: { rating: 500 cfm, barrels: 2 }, manifold: dual-plane }`;
    expect(file(two, true).induction.dividerArea).toBeUndefined();
  });

  it('share their volume by cylinders, and open into each other where the divider is cut', () => {
    const cut = of('{ manifold: dual-plane, divider: { opening: 2 in2 } }');
    expect(cut.dividerArea).toBeCloseTo(0.65 * 2 * INCH ** 2, 12);
    expect(of('{ manifold: dual-plane, divider: none }').dividerArea).toBeUndefined();
    const uneven = of(`{ ${SINGLE}, groups: [[1, 2, 3], [4, 5, 6, 7, 8]] }`);
    expect(uneven.plenums[0].volume / uneven.plenums[1].volume).toBeCloseTo(3 / 5, 12);
  });

  it('have a duct each, as long as waves see it', () => {
    const { feed } = of(
      `{ throttle: { diameter: 60 mm }, ${SINGLE}, groups: [[1, 3, 5, 7], [2, 4, 6, 8]], inletDuct: { inside: 70 mm, length: 300 mm } }`,
    );
    expect(feed?.area).toBeCloseTo((2 * Math.PI * 0.07 ** 2) / 4, 12);
    expect(feed?.length).toBeCloseTo(0.3 + 0.72 * 0.035, 12);
  });
});

describe('balance tubes', () => {
  it('join neighbours of a bank, the two of a twin, or those that are named', () => {
    const tubes = 'balance: { inside: 8 mm }';
    expect(of(`{ manifold: individual-throttles, ${tubes} }`, 4).balance?.pairs).toEqual([
      [1, 2],
      [2, 3],
      [3, 4],
    ]);
    expect(of(`{ manifold: individual-throttles, ${tubes} }`, 2).balance?.pairs).toEqual([[1, 2]]);
    expect(of(`{ ${tubes} }`, 8).balance?.pairs).toContainEqual([1, 3]);
    const named = of('{ manifold: individual-throttles, balance: { inside: 8 mm, pairs: [[1, 4]] } }', 4);
    expect(named.balance?.pairs).toEqual([[1, 4]]);
    expect(named.balance?.area).toBeCloseTo(Math.PI * 0.004 ** 2, 12);
  });

  it('stand halfway between throttle and head where nothing is said, with a spread', () => {
    const engine = engineOf(
      '{ manifold: individual-throttles, runner: { length: 240 mm, throttleAt: 100 mm }, balance: { inside: 8 mm } }',
      4,
    );
    expect(engine.induction.balance?.at).toBeCloseTo(0.07, 9);
    expect(assumed(engine, 'balance.at')?.spread).toBeCloseTo(28, 9);
    expect(assumed(engine, 'balance.length')?.spread).toBeGreaterThan(0);
  });
});

it('a file that names none of these parts has none of them', () => {
  expect(Object.keys(of('{ manifold: single-plane }')).sort()).toEqual(
    [
      'airCleanerArea',
      'barrels',
      'count',
      'evaporation',
      'heating',
      'injection',
      'kind',
      'meteringArea',
      'plenums',
      'runner',
      'vapour',
      'venturi',
      'venturiArea',
    ].sort(),
  );
  const parts = 'spacer: none, restrictor: none, inletDuct: none, divider: none, balance: none';
  expect(of(`{ manifold: single-plane, ${parts} }`)).toEqual(of('{ manifold: single-plane }'));
});

describe('slips', () => {
  it.each([
    ['{ spacer: { kind: four-hole } }', 'induction.spacer.height is missing'],
    ['{ spacer: 1 in }', "induction.spacer needs 'none', or sizes such as { kind: four-hole, height: 1 in }"],
    ['{ spacer: { kind: fourhole, height: 1 in } }', '(did you mean four-hole?)'],
    ['{ spacer: { height: 1 } }', 'induction.spacer.height needs a length'],
    ['{ spacer: { hight: 1 in, height: 1 in } }', '(did you mean height?)'],
    ['{ spacr: { height: 1 in } }', '(did you mean spacer?)'],
    ['{ restrictor: { bore: 1 in, discharge: 72 } }', 'induction.restrictor.discharge'],
    ['{ restrictor: { bore: 1 in, diameter: 1 in } }', 'the diameter of one bore is bore'],
    ['{ restrictor: { bore: 1 in, recovery: 0.8 } }', 'induction.restrictor.recovery needs a share'],
    ['{ restrictor: { kind: sonik, bore: 1 in } }', '(did you mean sonic?)'],
    [
      '{ carburetor: { rating: 650 cfm, venturi: 1.3 cm } }',
      'induction.carburetor.venturi is too small for this rating',
    ],
    [
      '{ carburetor: { rating: 200 cfm, venturi: 3 in } }',
      'induction.carburetor.venturi is too large for this rating',
    ],
    [
      '{ manifold: single-plane, divider: { opening: 2 in2 } }',
      'induction.divider parts two plenums, and this engine has 1',
    ],
    ['{ manifold: dual-plane, divider: { opening: 2 in } }', 'induction.divider.opening'],
    ['{ manifold: dual-plane, divider: cut }', 'a cut divider is divider: { opening: 2 in2 }'],
    ['{ groups: [[1, 2, 3], [4, 5, 6, 7]] }', 'induction.groups must hold each of the 8 cylinders once'],
    ['{ groups: [[1, 2, 3, 4, 5, 6, 7], 8] }', 'induction.groups.1 needs a list'],
    [
      '{ manifold: individual-runner, groups: [[1, 2, 3, 4], [5, 6, 7, 8]] }',
      'induction.groups is given although with individual-runner each cylinder has a plenum of its own',
    ],
    [
      '{ spacer: { kind: four-hole, height: 1 in }, inletDuct: { inside: 60 mm, length: 200 mm } }',
      'induction.spacer has holes in front of the plenum, and so has the inletDuct',
    ],
    ['{ inletDuct: { inside: 60 mm } }', 'induction.inletDuct.length is missing'],
    [
      '{ balance: { inside: 8 mm, pairs: [[1, 9]] } }',
      'induction.balance.pairs must name two of the 8 cylinders each: 1, 9 are not',
    ],
    [
      '{ balance: { inside: 8 mm, pairs: [[1, 2, 3]] } }',
      'induction.balance.pairs must name two of the 8 cylinders each',
    ],
    [
      '{ runner: { length: 6 in }, balance: { inside: 8 mm, at: 7 in } }',
      'induction.balance.at lies beyond the end of the runner, the plenum',
    ],
    [
      '{ manifold: individual-throttles, runner: { length: 6 in, throttleAt: 3 in }, balance: { inside: 8 mm, at: 4 in } }',
      'induction.balance.at lies in front of the throttle',
    ],
    [
      '{ manifold: individual-throttles, restrictor: { bore: 20 mm } }',
      'induction.restrictor stands in front of an airbox, and these throttles have none',
    ],
  ])('%s: %s', (induction, line) => {
    expect(linesOf(induction)).toEqual([expect.stringContaining(line)]);
  });

  it('that do nothing are told as such', () => {
    const unused = (induction: string, cylinders = 8): readonly string[] =>
      engineOf(induction, cylinders)
        .warnings.filter(({ code }) => code === 'field-unused')
        .map(({ path }) => path);
    expect(unused('{ spacer: { kind: open, height: 1 in, bores: 4 } }')).toEqual(['induction.spacer.bores']);
    expect(unused('{ spacer: { kind: four-hole, height: 1 in, opening: 9 in2 } }')).toEqual([
      'induction.spacer.opening',
    ]);
    expect(
      unused(
        '{ manifold: individual-throttles, carburetor: { rating: 200 cfm, venturi: 1 in }, spacer: { height: 1 in }, groups: [[1, 2, 3, 4, 5, 6, 7, 8]] }',
      ),
    ).toEqual(['induction.groups', 'induction.spacer', 'induction.carburetor.venturi']);
    // A single has a runner without a plenum where it says nothing: what goes with that counts.
    const own = '{ runner: { throttleAt: 3 in, mouth: plain }, airbox: { volume: 4 l } }';
    expect(unused(own, 1)).toEqual([]);
    expect(unused(own)).toEqual([
      'induction.airbox',
      'induction.runner.throttleAt',
      'induction.runner.mouth',
    ]);
  });
});
