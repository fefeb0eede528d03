import { describe, expect, it } from 'vitest';
import { applyChanges, isSameEngine } from '../../src/changes/applyChanges.ts';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { Change, FieldEdit } from '../../src/changes/change.ts';
import { readChanges } from '../../src/changes/readChanges.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import type { Plain } from '../../src/reading/readDocument.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { resolveDocument } from '../../src/reading/resolveDocument.ts';
import type { SheetSource } from '../../src/reading/sheet/readSheets.ts';
import { EXAMPLES, exampleSheet, exampleText, fileWith } from '../reading/files.ts';

const IN = 0.0254;

function baselineOf(text: string, sheet?: SheetSource): Baseline {
  const read = readDocument(text);
  const pinned = read.ok ? pinBaseline(read.value, { sheet }) : read;
  if (!pinned.ok) throw new Error(pinned.problems.map(problemLine).join('\n'));
  return pinned.value;
}

function change(name: string, ...edits: readonly FieldEdit[]): Change {
  return { name, edits, cost: null, hours: null, reversible: true, insteadOf: null };
}

const round = (angle: number): number => Number(angle.toPrecision(12));
const set = (path: string, value: Plain): FieldEdit => ({ kind: 'set', path, value });
const scale = (path: string, factor: number): FieldEdit => ({ kind: 'scale', path, factor });
const add = (path: string, amount: Plain): FieldEdit => ({ kind: 'add', path, amount });

/** With one change made of these edits. */
function changed(base: Baseline, edits: readonly FieldEdit[], sheet?: SheetSource): Combination {
  const result = applyChanges(base, [change('it', ...edits)], { sheet });
  if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
  return result.value;
}

function refusal(base: Baseline, ...changes: readonly Change[]): string {
  const result = applyChanges(base, changes);
  return result.ok ? 'no problem' : result.problems.map(problemLine).join('\n');
}

/** Paths of everything a document states; lists count as one. */
function leaves(data: Plain, path = ''): readonly string[] {
  if (data === null || typeof data !== 'object' || Array.isArray(data)) return [path];
  return Object.entries(data).flatMap(([name, value]) =>
    leaves(value, path === '' ? name : `${path}.${name}`),
  );
}

const smallest = (): Baseline => baselineOf(fileWith({}));
const hillClimb = (): Baseline => baselineOf(exampleText('hill-climb'), exampleSheet('hill-climb'));

describe('a pinned baseline', () => {
  it.each(EXAMPLES)('of the example %s is the engine its file describes', (name) => {
    const text = exampleText(name);
    const read = readDocument(text);
    const resolved = read.ok ? resolveDocument(read.value, { sheet: exampleSheet(name) }) : read;
    if (!resolved.ok) throw new Error('the example does not read');
    const { combination } = baselineOf(text, exampleSheet(name));
    expect(isSameEngine(combination, resolved.value)).toBe(true);
    expect(combination.assumed).toEqual(resolved.value.assumed);
    expect(combination.warnings).toEqual(resolved.value.warnings);
  });

  it.each(['hill-climb', 'tow-truck'] as const)(
    'of the example %s is the same engine whichever field the file leaves out',
    (name) => {
      const read = readDocument(exampleText(name));
      if (!read.ok) throw new Error('the example does not read');
      const sheet = exampleSheet(name);
      const different = leaves(read.value.data).flatMap((path) => {
        const document = editDocument(read.value, path, null);
        const resolved = resolveDocument(document, { sheet });
        const pinned = pinBaseline(document, { sheet });
        if (!resolved.ok) return [];
        return pinned.ok && isSameEngine(pinned.value.combination, resolved.value) ? [] : [path];
      });
      expect(different).toEqual([]);
    },
    120_000,
  );

  it('writes out the rocker ratio that lobe and valve lift of a card imply, so that rockers can change', () => {
    const cam = '{ intake: { lobeLift: 0.320 in, valveLift: 0.512 in }, exhaust: { valveLift: 0.500 in } }';
    const base = baselineOf(fileWith({ cam }));
    expect(base.combination.intake.rockerRatio).toBeCloseTo(1.6, 9);
    const after = changed(base, [set('valvetrain.intakeRatio', 1.7)]);
    expect(after.intake.rockerRatio).toBe(1.7);
    expect(after.intake.lobe).toEqual(base.combination.intake.lobe);
    expect(after.exhaust).toEqual(base.combination.exhaust);
  });
});

describe('a change', () => {
  it('alters what it names and nothing else', () => {
    const base = hillClimb();
    const after = changed(base, [set('induction.carburetor.rating', '290 cfm')]);
    const { meteringArea, venturi, ...rest } = after.induction;
    const { meteringArea: before, venturi: own, ...restBefore } = base.combination.induction;
    expect(meteringArea / before).toBeCloseTo(290 / 245, 9);
    // The venturi goes with the rating, to the four digits of its estimate.
    expect((venturi?.overMetering ?? 0) / (own?.overMetering ?? 1)).toBeCloseTo(1, 3);
    expect(rest).toEqual(restBefore);
    const besides = { induction: null, name: '', warnings: [], assumed: [] };
    expect({ ...after, ...besides }).toEqual({ ...base.combination, ...besides });
    const others = ({ assumed }: Combination) =>
      assumed.filter(({ path }) => path !== 'induction.carburetor.venturi');
    expect(others(after)).toEqual(others(base.combination));
  });

  it('to a larger valve leaves estimated ports and cam as they were', () => {
    const base = smallest();
    const after = changed(base, [set('heads.intake.valve', '2.05 in')]);
    expect(after.intake.valveDiameter).toBeCloseTo(2.05 * IN, 12);
    expect(after.intake.portArea).toBe(base.combination.intake.portArea);
    expect(after.intake.lobe).toEqual(base.combination.intake.lobe);
    expect(after.exhaust).toEqual(base.combination.exhaust);
  });

  it('to the intake leaves an exhaust flow that was estimated from it, and the manifold, as they were', () => {
    const flow = (top: number): Plain => [
      { lift: '0.100 in', flow: '70 cfm' },
      { lift: '0.300 in', flow: '180 cfm' },
      { lift: '0.500 in', flow: `${top} cfm` },
    ];
    const base = baselineOf(
      fileWith({ heads: `{ valvesPerCylinder: 2, intake: { flow: ${JSON.stringify(flow(200))} } }` }),
    );
    const after = changed(base, [set('heads.intake.flow', flow(220))]);
    expect(after.intake.flow.area[2] / base.combination.intake.flow.area[2]).toBeCloseTo(220 / 200, 9);
    expect(after.exhaust.flow).toEqual(base.combination.exhaust.flow);
    expect(after.induction).toEqual(base.combination.induction);
  });

  it('scales and adds from a stated or an assumed value, in its own unit', () => {
    const base = hillClimb();
    const { intake, exhaustSystem } = changed(base, [
      add('valvetrain.intakeRatio', 0.1),
      scale('exhaust.primary.length', 1.25),
      add('cam.advance', '-2 deg'),
    ]);
    expect(intake.rockerRatio).toBeCloseTo(1.64, 12);
    expect(exhaustSystem.primary.length).toBeCloseTo(37.5 * IN, 12);
    expect(intake.centreline).toBe(106);
    const rod = base.combination.assumed.find(({ path }) => path === 'induction.heating');
    expect(rod?.unit).toBe('K');
    const warmer = changed(base, [add('induction.heating', '9 degF')]);
    expect(warmer.induction.heating).toBeCloseTo(base.combination.induction.heating + 5, 9);
  });

  it('replaces a sheet through the source of sheets', () => {
    const files = exampleSheet('hill-climb');
    const base = hillClimb();
    const better = (name: string): string | undefined =>
      name === 'flow-big.csv'
        ? 'lift in,intake cfm,exhaust cfm\n0.1,60,46\n0.25,138,101\n0.4,181,131\n0.5,190,138\n'
        : files(name);
    const after = changed(base, [set('heads.flow', 'flow-big.csv')], better);
    expect(after.intake.flow.lift).toHaveLength(4);
    // The new sheet was taken without the manifold: the manifold itself is the old one.
    expect(after.induction.runner.mouthArea).toBe(base.combination.induction.runner.mouthArea);
  });

  it('is told by name in the changed combination', () => {
    const base = smallest();
    expect(changed(base, [set('chamber.compression', 10)]).name).toBe(`${base.combination.name} + it`);
  });

  it('of another part keeps the list of assumed values and its warnings, less what it states', () => {
    const base = smallest();
    const after = changed(base, [set('induction.carburetor.rating', '650 cfm')]);
    const paths = (c: Combination): string[] => c.assumed.map(({ path }) => path);
    expect(paths(after)).toEqual(
      paths(base.combination).filter((path) => path !== 'induction.carburetor.rating'),
    );
    expect(after.warnings.map(({ code }) => code)).toContain('correction-assumed');
  });
});

describe('a change leaves no estimate that contradicts it:', () => {
  it('another duration at 0.050 in takes the estimated lines of the card along, and no stated one', () => {
    const cam = '{ intake: { at050: 224 deg }, exhaust: { at050: 230 deg, at200: 140 deg } }';
    const base = baselineOf(fileWith({ cam }));
    const estimated = base.combination.assumed.map(({ path }) => path);
    expect(estimated).toContain('cam.intake.at200');
    const after = changed(base, [set('cam.intake.at050', '244 deg'), set('cam.exhaust.at050', '234 deg')]);
    const at200 = (c: Combination, side: 'intake' | 'exhaust'): number => {
      const { lobe } = c[side];
      const line = lobe.kind === 'card' ? lobe.points.find(({ lift }) => lift > 0.19 * IN) : undefined;
      return line?.duration ?? Number.NaN;
    };
    expect(at200(after, 'intake') - at200(base.combination, 'intake')).toBeGreaterThan(10);
    expect(at200(after, 'exhaust')).toBe(140);
    expect(after.assumed.map(({ path }) => path)).toContain('cam.intake.at200');
    expect(after.intake.lobe.kind === 'card' ? after.intake.lobe.maxLift : 0).toBe(
      base.combination.intake.lobe.kind === 'card' ? base.combination.intake.lobe.maxLift : 1,
    );
  });

  it('a compression ratio takes the place of volumes, and volumes that of a ratio', () => {
    const after = changed(hillClimb(), [set('chamber.compression', 12.5)]);
    expect(after.chamber.compressionRatio).toBe(12.5);
    const measured = changed(smallest(), [set('chamber.volume', '64 cc')]);
    expect(measured.chamber.compressionRatio).not.toBe(9.5);
    expect(measured.assumed.map(({ path }) => path)).toContain('chamber.deck');
  });

  it('a throttle takes the place of an estimated carburetor', () => {
    const base = smallest();
    expect(base.combination.induction.kind).toBe('carburetor');
    const { induction } = changed(base, [set('induction.throttle.diameter', '80 mm')]);
    expect(induction.kind).toBe('throttle');
    expect(induction.evaporation).not.toBe(base.combination.induction.evaporation);
  });

  it('a tube by its outside takes the place of an estimated inside, and a wider collector gets its own merge', () => {
    const base = smallest();
    const { exhaustSystem } = changed(base, [
      set('exhaust.style', 'headers'),
      set('exhaust.primary.diameter', '1.875 in'),
      set('exhaust.primary.wall', '0.049 in'),
      set('exhaust.collector.diameter', '3.5 in'),
    ]);
    expect(exhaustSystem.primary.area).toBeCloseTo((Math.PI / 4) * (1.777 * IN) ** 2, 9);
    expect(exhaustSystem.collectors?.mergeVolume).not.toBe(
      base.combination.exhaustSystem.collectors?.mergeVolume,
    );
  });

  it('an intake centreline turns the cam in place of the advance', () => {
    const after = changed(hillClimb(), [set('cam.intake.centreline', '101 deg')]);
    expect(after.intake.centreline).toBe(101);
    expect(after.exhaust.centreline).toBe(113);
  });

  it('a valve smaller than the estimated throat takes throat and port along, another does not', () => {
    const base = smallest();
    const { portArea } = base.combination.intake;
    const throat = base.combination.assumed.find(({ path }) => path === 'heads.intake.throat');
    expect(throat?.value).toBeGreaterThan(1.4);
    const little = changed(base, [set('heads.intake.valve', '1.90 in')]);
    expect(little.intake.portArea).toBe(portArea);
    const much = changed(base, [set('heads.intake.valve', '1.40 in')]);
    expect(much.intake.portArea).toBeLessThan(portArea);
    expect(much.assumed.find(({ path }) => path === 'heads.intake.throat')?.value).toBeLessThan(1.4);
  });

  it('an advance turns the cam in place of the centrelines, and a separation spreads the lobes', () => {
    const both = '{ intake: { centreline: 106 deg }, exhaust: { centreline: 114 deg } }';
    for (const cam of [both, '{ separation: 110 deg, intake: { centreline: 106 deg } }']) {
      const base = baselineOf(fileWith({ cam }));
      const ahead = changed(base, [add('cam.advance', '2 deg')]);
      expect([ahead.intake.centreline, ahead.exhaust.centreline]).toEqual([104, 116]);
      const wider = changed(base, [add('cam.separation', '2 deg')]);
      expect([wider.intake.centreline, wider.exhaust.centreline]).toEqual([106, 118]);
    }
    const exhaustOnly = baselineOf(
      fileWith({ cam: '{ separation: 110 deg, exhaust: { centreline: 114 deg } }' }),
    );
    const { intake, exhaust } = changed(exhaustOnly, [set('cam.advance', '6 deg')]);
    expect([intake.centreline, exhaust.centreline]).toEqual([104, 116]);
  });

  it('one shaft turns as a whole by either centreline, and a new grind sets both', () => {
    for (const cam of [
      '{ intake: { centreline: 106 deg }, exhaust: { centreline: 114 deg } }',
      '{ separation: 110 deg, intake: { centreline: 106 deg } }',
      '{ separation: 110 deg, advance: 4 deg }',
    ]) {
      const base = baselineOf(fileWith({ cam }));
      const angles = ({ intake, exhaust }: Combination): readonly number[] => [
        round(intake.centreline),
        round(exhaust.centreline),
      ];
      expect(angles(changed(base, [set('cam.intake.centreline', '102 deg')]))).toEqual([102, 118]);
      expect(angles(changed(base, [set('cam.exhaust.centreline', '118 deg')]))).toEqual([102, 118]);
      const ground = [set('cam.intake.centreline', '102 deg'), set('cam.exhaust.centreline', '110 deg')];
      expect(angles(changed(base, ground))).toEqual([102, 110]);
    }
  });

  it('a table by speed takes the place of one value, and is added to value by value', () => {
    const text = 'changes: [{ name: it, set: { mixture: { lambda: { 3000 rpm: 0.9, 6000 rpm: 0.86 } } } }]';
    const read = readChanges(text, { file: 'c.yaml' });
    if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
    const base = smallest();
    const applied = applyChanges(base, read.value);
    if (!applied.ok) throw new Error(applied.problems.map(problemLine).join('\n'));
    expect(applied.value.bySpeed?.lambda).toEqual({ rpm: [3000, 6000], value: [0.9, 0.86] });
    const spark = baselineOf(fileWith({ burn: '{ spark: { 3000 rpm: 30 deg, 6000 rpm: 36 deg } }' }));
    expect(changed(spark, [add('burn.spark', '2 deg')]).burn.timing).toEqual({
      mode: 'spark',
      rpm: [3000, 6000],
      advance: [32, 38],
    });
    const section = refusal(base, change('it', scale('cam', 1.1)));
    expect(section).toContain('is no number to start from: fields');
  });

  it('shafts of their own turn freely, however the file says where they stand', () => {
    for (const cam of [
      '{ intake: { centreline: 106 deg }, exhaust: { centreline: 114 deg } }',
      '{ separation: 110 deg, intake: { centreline: 106 deg } }',
      '{ separation: 110 deg, intake: { centreline: 106 deg }, exhaust: { centreline: 114 deg } }',
      '{ separation: 110 deg, advance: 4 deg }',
      '{}',
    ]) {
      const base = baselineOf(fileWith({ cam, heads: '{ valvesPerCylinder: 4 }' }));
      const { intake, exhaust } = base.combination;
      expect([intake.centreline, exhaust.centreline]).toEqual(cam === '{}' ? [108, 116] : [106, 114]);
      const turned = changed(base, [set('cam.intake.centreline', '100 deg')]);
      expect([turned.intake.centreline, round(turned.exhaust.centreline)]).toEqual([
        100,
        round(exhaust.centreline),
      ]);
      const other = changed(base, [add('cam.exhaust.centreline', '-5 deg')]);
      expect([other.intake.centreline, other.exhaust.centreline].map(round)).toEqual([
        round(intake.centreline),
        round(exhaust.centreline - 5),
      ]);
    }
  });

  it('the smallest area of a port takes the place of a mean area, and scales from its estimate', () => {
    const base = smallest();
    const after = changed(base, [scale('heads.intake.minimumArea', 1.1)]);
    expect(after.intake.portArea / base.combination.intake.portArea).toBeCloseTo(1.1, 9);
  });

  it('another manifold brings the estimates of its own kind', () => {
    const base = smallest();
    expect(base.combination.assumed.find(({ path }) => path === 'induction.manifold')?.value).toBe(
      'dual-plane',
    );
    const { induction } = changed(base, [set('induction.manifold', 'single-plane')]);
    expect(induction.plenums).toHaveLength(1);
    expect(induction.runner.length).not.toBe(base.combination.induction.runner.length);
  });

  it('a fixed middle of burning takes the place of knock-limited timing', () => {
    expect(changed(smallest(), [set('burn.ca50', '12 deg')]).burn.timing).toEqual({
      mode: 'ca50',
      angle: 12,
    });
  });
});

describe('several changes', () => {
  const carburetor = change('carburetor', set('induction.carburetor.rating', '290 cfm'));
  const rocker = change('rocker', add('valvetrain.intakeRatio', 0.1));
  const header = change(
    'header',
    scale('exhaust.primary.length', 1.1),
    scale('exhaust.collector.length', 1.3),
  );
  const longer = change('longer', scale('exhaust.primary.length', 0.97));

  it('give the same engine in any order', () => {
    const base = hillClimb();
    const there = applyChanges(base, [carburetor, rocker, header, longer]);
    const back = applyChanges(base, [longer, header, rocker, carburetor]);
    if (!there.ok || !back.ok) throw new Error('refused');
    expect({ ...back.value, name: '' }).toEqual({ ...there.value, name: '' });
  });

  it('may agree on a field but not differ', () => {
    const base = hillClimb();
    const same = change('same carburetor', set('induction.carburetor.rating', '290 cfm'));
    const other = change('other', set('induction.carburetor.rating', '270 cfm'));
    expect(applyChanges(base, [carburetor, same]).ok).toBe(true);
    expect(refusal(base, carburetor, other)).toBe(
      "change 'carburetor' induction.carburetor.rating is changed in two ways at once, by 'carburetor' and 'other'",
    );
    expect(refusal(base, carburetor, change('more', scale('induction.carburetor.rating', 1.1)))).toContain(
      'in two ways at once',
    );
    expect(
      refusal(
        base,
        change('open', set('exhaust.collector', 'none')),
        change('c', scale('exhaust.collector.length', 2)),
      ),
    ).toContain("lies within exhaust.collector, which 'open' sets as a whole");
  });
});

describe('a change is refused', () => {
  it('where its path is unknown, with the nearest there are', () => {
    expect(refusal(smallest(), change('it', set('induction.carburettor.rating', '900 cfm')))).toBe(
      "change 'it' induction.carburettor.rating is not a field of a combination (did you mean induction.carburetor.rating?)",
    );
    expect(refusal(smallest(), change('it', set('minimumArea', '2 in2')))).toContain(
      'did you mean heads.intake.minimumArea or heads.exhaust.minimumArea',
    );
  });

  it('where it has no effect at all', () => {
    const base = hillClimb();
    expect(refusal(base, change('it', set('induction.carburetor.rating', '245 cfm')))).toContain(
      "has no effect: with induction.carburetor.rating as 'it' has it, the engine is the same",
    );
    expect(refusal(base, change('speed', set('engine.ratedSpeed', '7500 rpm')))).toContain('has no effect');
    expect(refusal(smallest(), change('gasket', set('chamber.gasketThickness', '0.027 in')))).toContain(
      'gives a compression ratio and no volumes',
    );
  });

  it('where its value does not suit the field, in the words of the file', () => {
    expect(refusal(hillClimb(), change('it', set('induction.carburetor.rating', 290)))).toContain(
      "290 alone could be anything, with 'it'",
    );
    expect(refusal(smallest(), change('it', scale('heads.flow', 1.1)))).toContain(
      'has no value to start from',
    );
    expect(refusal(hillClimb(), change('it', scale('weather.temperature', 1.1)))).toContain(
      "can't be scaled: '60 degF' counts from no true zero",
    );
    expect(refusal(hillClimb(), change('it', add('cam.advance', '2 in')))).toContain(
      "is '3 deg', to which '2 in' can't be added",
    );
  });
});
