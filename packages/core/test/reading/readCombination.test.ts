import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { Combination } from '../../src/combination/combination.ts';
import type { CombinationDocument, Plain } from '../../src/reading/combinationDocument.ts';
import { editDocument, pinAssumed } from '../../src/reading/editDocument.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { resolveDocument } from '../../src/reading/resolveDocument.ts';
import { EXAMPLES, exampleSheet, exampleText, fileWith, readExample, readGood } from './files.ts';

function documentOf(text: string): CombinationDocument {
  const read = readDocument(text);
  if (!read.ok) throw new Error(read.problems[0].message);
  return read.value;
}

/** The engine itself, without what was said about it. */
function engineOf({
  assumed: _,
  warnings: __,
  // Names speeds, and is no part of the engine.
  ratedSpeed: ___,
  ...engine
}: Combination): Omit<Combination, 'assumed' | 'warnings' | 'ratedSpeed'> {
  return engine;
}

/** Every number of a value. */
function numbersOf(value: unknown): readonly number[] {
  if (typeof value === 'number') return [value];
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(numbersOf) : [];
}

describe('the minimum file', () => {
  it('needs five facts, and gives a complete combination of finite numbers', () => {
    const combination = readExample('minimum');
    expect(numbersOf(combination).every(Number.isFinite)).toBe(true);
    expect(combination.chamber.compressionRatio).toBe(9.5);
    expect(combination.chamber.clearanceVolume).toBeCloseTo(((Math.PI / 4) * 0.081 ** 2 * 0.079) / 8.5, 12);
    expect(combination.block.firingAngles).toEqual([0, 540, 180, 360]);
  });

  it('is the same with the line ends of any machine, its remarks and the places of its slips among it', () => {
    const text = exampleText('minimum');
    const ends = ['\n', '\r\n', '\r'].map((end) => text.replaceAll('\n', end));
    for (const written of ends) expect(readGood(written)).toEqual(readGood(text));
    const slips = ends.map((written) => readCombination(written.replace('79 mm', '79')));
    const line = text.split('\n').findIndex((one) => one.includes('79 mm')) + 1;
    for (const slip of slips) expect(slip.ok ? [] : slip.problems.map((it) => it.line)).toEqual([line]);
  });

  it('lists every estimate with a reason, none twice', () => {
    const { assumed } = readExample('minimum');
    expect(assumed.length).toBeGreaterThan(60);
    expect(new Set(assumed.map((entry) => entry.path)).size).toBe(assumed.length);
    expect(assumed.filter((entry) => entry.reason.length < 5)).toEqual([]);
    expect(assumed.filter((entry) => entry.spread !== null && !(entry.spread >= 0))).toEqual([]);
  });

  it('counts the camshafts it is told of, and else the usual ones', () => {
    const bearings = (cam: string): number =>
      readGood(
        fileWith({
          engine: '{ bore: 86 mm, stroke: 86 mm, cylinders: 4 }',
          valvetrain: '{ type: rocker-arm }',
          cam,
        }),
      ).friction.camBearings;
    expect(bearings('{ lifter: solid-flat }')).toBe(5);
    expect(bearings('{ lifter: solid-flat, camshafts: 2 }')).toBe(10);
  });

  it('takes an engine as made to have a longer cam where each cylinder has a throttle of its own', () => {
    const duration = (cylinders: number, induction: string, heads = '{ valvesPerCylinder: 4 }') =>
      readGood(
        fileWith({
          engine: `{ bore: 73.4 mm, stroke: 56 mm, cylinders: ${cylinders}, ratedSpeed: 9500 rpm }`,
          heads,
          induction,
        }),
      ).assumed.find(({ path }) => path === 'cam.intake.at050')?.value;
    expect(duration(4, '{ throttle: {} }')).toBe(201);
    expect(duration(4, '{ throttle: { count: 4 } }')).toBe(216);
    expect(duration(4, '{ throttle: {}, manifold: individual-throttles }')).toBe(216);
    expect(duration(4, '{ throttle: {}, manifold: individual-runner }')).toBe(216);
    expect(duration(4, '{ throttle: { count: 4 }, manifold: long-runner }')).toBe(201);
    expect(duration(1, '{ throttle: {} }')).toBe(216);
    expect(duration(4, '{ throttle: {} }', '{ valvesPerCylinder: 4, ports: fully-ported }')).toBe(216);
  });

  it('drives the accessories by a smaller ratio only beyond 6000 rpm of rated speed', () => {
    const ratio = (rated: string, driven = 'true'): number =>
      readGood(
        fileWith({
          engine: `{ bore: 86 mm, stroke: 86 mm, cylinders: 4, ratedSpeed: ${rated} rpm }`,
          friction: `{ accessories: ${driven} }`,
        }),
      ).friction.driveRatio;
    expect(ratio('4000')).toBe(1);
    expect(ratio('6000')).toBe(1);
    expect(ratio('6001')).toBeCloseTo(6000 / 6001, 12);
    expect(ratio('7800')).toBeCloseTo(0.769231, 6);
    expect(ratio('7800', 'false')).toBe(1);
  });

  it('is complete for every size, number of cylinders and valves within the limits', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 250 }),
        fc.integer({ min: 50, max: 160 }),
        fc.constantFrom(1, 2, 3, 4, 5, 6, 8, 10, 12),
        fc.integer({ min: 2, max: 5 }),
        fc.integer({ min: 50, max: 190 }),
        (bore, strokePercent, cylinders, valves, compression) => {
          const stroke = Math.min(300, Math.max(15, (bore * strokePercent) / 100)).toFixed(1);
          const text = `engine: { bore: ${bore} mm, stroke: ${stroke} mm, cylinders: ${cylinders} }
chamber: { compression: ${compression / 10} }
heads: { valvesPerCylinder: ${valves} }`;
          const combination = readGood(text);
          expect(numbersOf(combination).every(Number.isFinite)).toBe(true);
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe('the fully specified file', () => {
  it('is taken as it stands: sizes, order, cam, induction, exhaust', () => {
    const { block, chamber, intake, exhaust, induction, exhaustSystem, fuel } = readExample('hill-climb');
    expect(block.bore).toBeCloseTo(0.089408, 10);
    expect(block.firingOrder).toEqual([1, 5, 3, 6, 2, 4]);
    expect(block.firingAngles).toEqual([0, 480, 240, 600, 120, 360]);
    // 55.8 - 3.6 + 2.870 deck + 6.005 gasket + 0.9 cc below 545.4 cc swept, by hand.
    expect(1e6 * chamber.clearanceVolume).toBeCloseTo(61.975, 2);
    expect(chamber.compressionRatio).toBeCloseTo(9.8, 3);
    expect([intake.centreline, exhaust.centreline]).toEqual([104, 110]);
    expect(intake.lobe).toEqual({
      kind: 'card',
      maxLift: expect.closeTo(0.0079248, 9),
      points: [
        { duration: expect.closeTo(282, 9), lift: expect.closeTo(0.000381, 9) },
        { duration: expect.closeTo(242, 9), lift: expect.closeTo(0.00127, 9) },
        { duration: expect.closeTo(148, 9), lift: expect.closeTo(0.00508, 9) },
      ],
    });
    expect(induction.plenums).toEqual([{ volume: expect.closeTo(0.0019, 9), cylinders: [1, 2, 3, 4, 5, 6] }]);
    expect(exhaustSystem.collectors?.groups).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
    // 1.5 in less two walls of 0.065 in.
    expect(exhaustSystem.primary.area).toBeCloseTo((Math.PI / 4) * (1.37 * 0.0254) ** 2, 10);
    expect(fuel.name).toBe('pump-87');
  });

  it('times an eight by its firing order', () => {
    const { firingOrder, firingAngles } = readExample('tow-truck').block;
    expect(firingOrder).toEqual([1, 8, 4, 3, 6, 5, 7, 2]);
    expect(firingAngles).toEqual([0, 630, 270, 180, 450, 360, 540, 90]);
  });

  it('gives valve flow as effective area: 177 cfm at 28 inH2O through 8.064 cm2', () => {
    const { intake } = readExample('hill-climb');
    // Apart from the code: 0.083535 m3/s, and sqrt(R T) psi from 101 325 Pa and 293.15 K down by 6974.49 Pa is 103.587 m/s.
    expect(1e4 * intake.flow.area[5]).toBeCloseTo(8.0643, 3);
    expect(intake.flow.lift[5]).toBeCloseTo(0.012192, 8);
    expect(intake.flow.measuredTo).toBeCloseTo(0.012192, 8);
  });

  it.each(EXAMPLES)('%s is read without a doubt that the file could have avoided', (name) => {
    const codes = readExample(name).warnings.map((warning) => warning.code);
    expect(codes).toEqual(
      name === 'minimum' ? ['correction-assumed'] : name === 'tow-truck' ? ['columns-ignored'] : [],
    );
  });

  it('takes the manifold loss from the sheet that has it: 5 % at 0.480 in', () => {
    const { mouthArea, entryArea } = readExample('hill-climb').induction.runner;
    const stated = (loss: number): number => {
      const text = exampleText('hill-climb').replace(/^induction:$/m, `induction:\n  flowLoss: ${loss} %`);
      return readGood(text, exampleSheet('hill-climb')).induction.runner.mouthArea;
    };
    expect(mouthArea).toBeCloseTo(stated(100 * (1 - 168 / 177)), 9);
    expect(mouthArea).toBeLessThan(stated(4));
    expect(mouthArea).toBeLessThan(entryArea);
    expect(readExample('hill-climb').assumed.map((entry) => entry.path)).not.toContain('induction.flowLoss');
  });

  it('reads measured lobes with decimal commas, from the centre of the lobe', () => {
    const { intake, exhaust } = readExample('club-racer');
    if (intake.lobe.kind !== 'table' || exhaust.lobe.kind !== 'table') throw new Error('not a table');
    expect(Math.max(...intake.lobe.lift)).toBeCloseTo(0.00942, 9);
    expect(Math.max(...exhaust.lobe.lift)).toBeCloseTo(0.00886, 9);
    expect(intake.lobe.angle[intake.lobe.lift.indexOf(0.00942)]).toBe(0);
  });
});

describe('estimates', () => {
  it.each(EXAMPLES)('of %s change nothing when they are written out', (name) => {
    const document = documentOf(exampleText(name));
    const first = resolveDocument(document, { sheet: exampleSheet(name) });
    if (!first.ok) throw new Error('not read');
    const pinned = resolveDocument(pinAssumed(document, first.value.assumed), {
      sheet: exampleSheet(name),
    });
    if (!pinned.ok) throw new Error(pinned.problems[0].path + pinned.problems[0].message);
    expect(engineOf(pinned.value)).toEqual(engineOf(first.value));
    expect(pinned.value.assumed).toEqual([]);
  });

  it('stay put in a pinned document when something else is changed', () => {
    const document = documentOf(fileWith({}));
    const first = resolveDocument(document);
    if (!first.ok) throw new Error('not read');
    const larger = (base: CombinationDocument): Combination => {
      const result = resolveDocument(editDocument(base, 'heads.intake.valve', '2.02 in'));
      if (!result.ok) throw new Error(result.problems[0].message);
      return result.value;
    };
    const pinned = larger(pinAssumed(document, first.value.assumed));
    expect(pinned.intake.valveDiameter).toBeCloseTo(0.051308, 9);
    expect(pinned.intake.portArea).toBe(first.value.intake.portArea);
    expect(larger(document).intake.portArea).toBeGreaterThan(first.value.intake.portArea);
  });

  it('feed both planes of a V8 by turns in firing order', () => {
    expect(readGood(fileWith({})).induction.plenums.map((plenum) => plenum.cylinders)).toEqual([
      [1, 4, 6, 7],
      [2, 3, 5, 8],
    ]);
  });

  it('are asked for again by nobody: a rated speed shows only where it was used', () => {
    expect(readExample('hill-climb').assumed.map((entry) => entry.path)).not.toContain('engine.ratedSpeed');
    expect(readExample('minimum').assumed.map((entry) => entry.path)).toContain('engine.ratedSpeed');
  });
});

describe('a timing', () => {
  it.each([
    ['{ timing: best-torque }', { mode: 'best-torque' }],
    ['{ timing: knock-limited }', { mode: 'knock-limited' }],
    ['{ ca50: 9 deg }', { mode: 'ca50', angle: 9 }],
    ['{ spark: 34 deg }', { mode: 'spark', rpm: [0], advance: [34] }],
    ['{ efficiency: 97 % }', { mode: 'knock-limited' }],
  ])('%s is read as it stands, and left out as far as the fuel allows', (burn, timing) => {
    const read = readCombination(fileWith({ burn }));
    expect(read.ok && read.value.burn.timing).toEqual(timing);
  });
});

describe('JSON', () => {
  it.each(EXAMPLES)('gives the same combination as YAML for %s', (name) => {
    const json = JSON.stringify(parse(exampleText(name)), null, 1);
    expect(readGood(json, exampleSheet(name))).toEqual(readExample(name));
  });
});

describe('editDocument', () => {
  const base = documentOf('engine: { bore: 4 in }\nexhaust: { collector: none, groups: [[1], [2]] }');
  const after = (path: string, value: Plain): unknown => editDocument(base, path, value).data;

  it('sets, adds and removes fields, also inside lists and in place of a word', () => {
    expect(after('engine.bore', '5 in')).toMatchObject({ engine: { bore: '5 in' } });
    expect(after('cam.intake.at050', '224 deg')).toMatchObject({ cam: { intake: { at050: '224 deg' } } });
    expect(after('engine.bore', null)).toMatchObject({ engine: {} });
    expect(after('exhaust.groups.1', [2, 3])).toMatchObject({ exhaust: { groups: [[1], [2, 3]] } });
    expect(after('exhaust.collector.length', '12 in')).toMatchObject({
      exhaust: { collector: { length: '12 in' } },
    });
  });

  it('leaves the document it was given alone', () => {
    editDocument(base, 'engine.bore', '9 in');
    expect(base.data).toMatchObject({ engine: { bore: '4 in' } });
  });

  it('refuses paths that reach for a prototype', () => {
    expect(editDocument(base, '__proto__.polluted', 1)).toBe(base);
    expect(editDocument(base, 'engine.constructor.x', 1)).toBe(base);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});

describe('any text', () => {
  const fields = [
    'engine',
    'bore',
    'chamber',
    'heads',
    'flow',
    'cam',
    'intake',
    'exhaust',
    'fuel',
    '__proto__',
    'x',
  ];
  const leaf = fc.oneof(
    fc.constantFrom('4 in', '9', '1-3-4-2', 'none', 'a.csv', '-5 kg', '1e400'),
    fc.double(),
    fc.boolean(),
    fc.constant(null),
  );
  const { tree } = fc.letrec((tie) => ({
    tree: fc.oneof(
      { depthSize: 'small' },
      leaf,
      fc.array(tie('tree'), { maxLength: 4 }),
      fc.dictionary(fc.constantFrom(...fields), tie('tree'), { maxKeys: 5 }),
    ),
  }));

  it('gives a combination or problems, and never throws', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'grapheme', maxLength: 200 }),
          tree.map((value) => JSON.stringify(value)),
        ),
        fc.string(),
        (text, sheet) => {
          const result = readCombination(text, { sheet: () => sheet });
          expect(result.ok || result.problems.length > 0).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('as a sheet gives a combination or problems, and never throws', () => {
    const cell = fc.constantFrom('0.1', '0,2', '300', '', '-', 'x', '"', '1e9', '-4', 'NaN');
    const row = fc.array(cell, { maxLength: 4 }).map((cells) => cells.join(','));
    const header = fc.constantFrom(
      'lift in,intake cfm,exhaust cfm',
      'lift mm;intake cfm',
      'crank deg,lobe lift in',
      'lift,flow',
      'in,cfm',
    );
    fc.assert(
      fc.property(header, fc.array(row, { maxLength: 12 }), (first, rows) => {
        const text = fileWith({
          heads: '{ valvesPerCylinder: 2, flow: a.csv }',
          cam: '{ intake: { table: a.csv } }',
        });
        const result = readCombination(text, { sheet: () => [first, ...rows].join('\n') });
        expect(result.ok || result.problems.length > 0).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

describe('what is no text', () => {
  it.each([[undefined], [null], [new Uint8Array([101])], [{}]])('is refused in plain words: %s', (text) => {
    expect(() => readCombination(text as unknown as string)).toThrow('text must be the text of a file');
  });
});

describe('a misspelt name', () => {
  it('comes with the nearest there is, so that nobody has to read the hint', () => {
    const read = readCombination('engine: { cylinders: 8, boer: 4 in, stroke: 3 in }');
    const found = (read.ok ? [] : read.problems).flatMap((problem) =>
      problem.code === 'unknown-field' ? [problem.nearest] : [],
    );
    expect(found).toEqual(['bore']);
  });
});
