import { describe, expect, it } from 'vitest';
import { INCH as IN } from '../../src/base/constants.ts';
import { applyChanges } from '../../src/changes/applyChanges.ts';
import type { Combination } from '../../src/combination/combination.ts';
import type { Plain } from '../../src/reading/combinationDocument.ts';
import { exampleSheet, fileWith } from '../reading/files.ts';
import {
  add,
  baselineOf,
  change,
  changed,
  hillClimb,
  refusal,
  scale,
  set,
  smallest,
} from './changedEngine.ts';

describe('a change', () => {
  it('alters what it names and nothing else', () => {
    const base = hillClimb();
    const after = changed(base, [set('induction.carburetor.rating', '290 cfm')]);
    const { meteringArea, venturi, venturiArea, barrels, ...rest } = after.induction;
    const {
      meteringArea: before,
      venturi: own,
      venturiArea: ownArea,
      barrels: ownBarrels,
      ...restBefore
    } = base.combination.induction;
    expect(meteringArea / before).toBeCloseTo(290 / 245, 9);
    // The venturi goes with the rating, to the four digits of its estimate, and the bores and their length with it.
    expect((venturi?.overMetering ?? 0) / (own?.overMetering ?? 1)).toBeCloseTo(1, 3);
    expect((venturiArea ?? 0) / (ownArea ?? 1)).toBeCloseTo(290 / 245, 3);
    expect((barrels?.area ?? 0) / (ownBarrels?.area ?? 1)).toBeCloseTo(290 / 245, 3);
    expect((barrels?.length ?? 0) / (ownBarrels?.length ?? 1)).toBeCloseTo(Math.sqrt(290 / 245), 3);
    expect(rest).toEqual(restBefore);
    const besides = { induction: null, name: '', warnings: [], assumed: [] };
    expect({ ...after, ...besides }).toEqual({ ...base.combination, ...besides });
    const others = ({ assumed }: Combination) =>
      assumed.filter(({ path }) => !/carburetor\.(venturi|height)$/.test(path));
    expect(others(after)).toEqual(others(base.combination));
  });

  it('to the venturi brings its rating and height where the file states none, and keeps those that it states', () => {
    const of = (carburetor: string): Combination =>
      baselineOf(fileWith({ induction: `{ carburetor: ${carburetor} }` })).combination;
    const to = (carburetor: string): Combination['induction'] =>
      changed(baselineOf(fileWith({ induction: `{ carburetor: ${carburetor} }` })), [
        set('induction.carburetor.venturi', '1.4 in'),
      ]).induction;
    expect(to('{ venturi: 1.3 in }')).toEqual(of('{ venturi: 1.4 in }').induction);
    expect(to('{ rating: 650 cfm, height: 4 in }')).toEqual(
      of('{ rating: 650 cfm, height: 4 in, venturi: 1.4 in }').induction,
    );
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

  it('whose flow is from another bench says so, and one from the same bench does not', () => {
    const flow: Plain = [
      { lift: '0.100 in', flow: '66 cfm' },
      { lift: '0.500 in', flow: '196 cfm' },
    ];
    const headsOn = (bench: string): string =>
      `{ valvesPerCylinder: 2, bench: ${bench}, intake: { flow: ${JSON.stringify(flow)} } }`;
    const baseline = (bench: string) => baselineOf(fileWith({ heads: headsOn(bench) }));
    const better = set('heads.intake.flow', [
      { lift: '0.100 in', flow: '64 cfm' },
      { lift: '0.500 in', flow: '201 cfm' },
    ]);
    const told = (bench: string, ...edits: Parameters<typeof changed>[1]): readonly string[] =>
      changed(baseline(bench), edits)
        .warnings.filter(({ code }) => code === 'other-bench')
        .map(({ message }) => message);
    const unnamed = '{ depression: 28 inH2O }';
    const shop = '{ name: shop, depression: 28 inH2O }';
    expect(told(unnamed, better)).toEqual([]);
    expect(told(unnamed, better, set('heads.bench.depression', '7 kPa'))).toEqual([]);
    expect(told(unnamed, better, set('heads.bench.depression', '25 inH2O'))[0]).toContain(
      'were flowed at 25 inH2O, in place of 28 inH2O',
    );
    const metric = changed(baselineOf(`units: si\n${fileWith({ heads: headsOn(unnamed) })}`), [
      better,
      set('heads.bench.depression', '6.23 kPa'),
    ]);
    expect(metric.warnings.map(({ message }) => message).join()).toContain(
      'were flowed at 6.23 kPa, in place of 6.97 kPa',
    );
    expect(told(shop, better, set('heads.bench.name', 'hired bench'))[0]).toContain(
      'on hired bench, in place of shop',
    );
    expect(
      told(shop, better, set('heads.bench.name', 'shop'), set('heads.bench.depression', '25 inH2O')),
    ).toEqual([]);
  });

  it('whose valve is of another size says that the flow sheet is the old one', () => {
    const flow: Plain = [
      { lift: '0.100 in', flow: '66 cfm' },
      { lift: '0.500 in', flow: '196 cfm' },
    ];
    const other: Plain = [
      { lift: '0.100 in', flow: '69 cfm' },
      { lift: '0.500 in', flow: '207 cfm' },
    ];
    const heads = `{ valvesPerCylinder: 2, bench: { depression: 28 inH2O }, intake: { valve: 1.94 in, flow: ${JSON.stringify(flow)} } }`;
    const told = (text: string, ...edits: Parameters<typeof changed>[1]): readonly string[] =>
      changed(baselineOf(text), edits)
        .warnings.filter(({ code }) => code === 'same-sheet')
        .map(({ message }) => message);
    const file = fileWith({ heads });
    const larger = set('heads.intake.valve', '2.02 in');
    expect(told(file, larger)).toEqual([
      'the intake valve is not the one of its flow sheet, 1.94 in: what it flows is what the sheet says, so that its size alone moves next to nothing here. Give the sheet that was flowed with it, or a guess by heads.intake.flowMultiplier',
    ]);
    expect(told(`units: si\n${file}`, larger)[0]).toContain('the one of its flow sheet, 49.28 mm:');
    expect(told(file, larger, set('heads.intake.flow', other))).toEqual([]);
    // Without a sheet the flow goes with the valve.
    expect(told(fileWith({ heads: '{ valvesPerCylinder: 2, intake: { valve: 1.94 in } }' }), larger)).toEqual(
      [],
    );
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

  it('where it says the same in another unit: 4.25 in are 107.95 mm', () => {
    const inInches = baselineOf(fileWith({ engine: '{ bore: 4 in, stroke: 4.25 in, cylinders: 8 }' }));
    const refused = refusal(inInches, change('metric', set('engine.stroke', '107.95 mm')));
    expect(refused).toContain('has no effect');
    expect(refusal(inInches, change('longer', set('engine.stroke', '107.951 mm')))).toBe('no problem');
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
      '290 alone could be anything',
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
