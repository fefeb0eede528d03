import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/changes/applyChanges.ts';
import { assignedValues } from '../../src/changes/assignedValues.ts';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { Change, FieldEdit } from '../../src/changes/change.ts';
import type { CombinationDocument, Plain } from '../../src/reading/combinationDocument.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { AppliedChange } from '../../src/uncertainty/appliedChange.ts';
import { perturbed } from '../../src/uncertainty/perturbed.ts';
import type { Unknown } from '../../src/uncertainty/unknown.ts';
import { type Unknowns, unknownsOf } from '../../src/uncertainty/unknowns.ts';
import { type Example, exampleSheet, exampleText } from '../reading/files.ts';

function baselineOf(example: Example, altered: (text: string) => string = (text) => text): Baseline {
  const read = readDocument(altered(exampleText(example)));
  const pinned = read.ok ? pinBaseline(read.value, { sheet: exampleSheet(example) }) : read;
  if (!pinned.ok) throw new Error(JSON.stringify(pinned.problems));
  return pinned.value;
}

function change(name: string, ...edits: readonly FieldEdit[]): Change {
  return { name, edits, cost: null, hours: null, reversible: true, insteadOf: null };
}

const set = (path: string, value: Plain): FieldEdit => ({ kind: 'set', path, value });

function unknowns(baseline: Baseline, ...changes: readonly Change[]): Unknowns {
  const applied = changes.map((one): AppliedChange => {
    const result = applyChanges(baseline, [one]);
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    return { change: one, combination: result.value, values: assignedValues(baseline, [one], []) };
  });
  return unknownsOf(baseline, applied);
}

function named({ all }: Unknowns, id: string): Unknown {
  const found = all.find((unknown) => unknown.id === id);
  if (found === undefined) throw new Error(`no unknown '${id}' among ${all.map((u) => u.id).join(', ')}`);
  return found;
}

const CARBURETOR = change('carburetor', set('induction.carburetor.rating', '290 cfm'));

describe('unknowns', () => {
  it('of estimates are those of the ledger that have a spread, with it', () => {
    const baseline = baselineOf('minimum');
    // These only size other estimates, which a study holds.
    const idle = ['engine.ratedSpeed', 'heads.intake.throat', 'heads.exhaust.throat'];
    const ledger = baseline.combination.assumed.filter(
      ({ spread, path }) => (spread ?? 0) > 0 && !idle.includes(path),
    );
    const found = unknowns(baseline).all;
    for (const { path, spread, unit } of ledger)
      expect(found).toContainEqual(expect.objectContaining({ id: path, sigma: spread, unit, of: null }));
  });

  it('of what measured figures alone are read by are none: no forecast is moved by what turns', () => {
    const baseline = baselineOf('minimum', (text) => `${text}\npullRate: 300 rpm/s\n`);
    expect(baseline.combination.assumed.map(({ path }) => path)).toContain('engine.inertia');
    const lighter = change('lighter', set('engine.inertia', '2 lb-ft2'));
    expect(unknowns(baseline, lighter).all.map(({ path }) => path)).not.toContain('engine.inertia');
  });

  it('of stated values are the usual errors of sheets, ratings, cards and volumes', () => {
    const found = unknowns(baselineOf('hill-climb'));
    expect(named(found, 'flow bench')).toMatchObject({ sigma: 5, unit: '%' });
    expect(named(found, 'intake flow sheet')).toMatchObject({ sigma: 0.75, unit: '%' });
    expect(named(found, 'carburetor rating')).toMatchObject({ sigma: 4, unit: '%' });
    expect(named(found, 'cam phase')).toMatchObject({ path: 'cam.advance', sigma: 1, unit: 'deg' });
    // Its file says the rockers were measured.
    expect(found.all.map(({ id }) => id)).not.toContain('intake rocker ratio');
    const stamped = baselineOf('hill-climb', (text) => text.replace('ratioIs: measured', 'ratioIs: stamped'));
    expect(named(unknowns(stamped), 'intake rocker ratio').sigma).toBeCloseTo(2, 9);
  });

  it('of compression are 0.25 where a catalogue says it and 0.05 where volumes were measured', () => {
    const ratio = (baseline: Baseline): number => {
      const unknown = named(unknowns(baseline), 'compression');
      const moved = perturbed(baseline, [], [{ unknown, z: 1 }], undefined);
      return (moved?.chamber.compressionRatio ?? Number.NaN) - baseline.combination.chamber.compressionRatio;
    };
    expect(ratio(baselineOf('minimum'))).toBeCloseTo(0.25, 6);
    expect(ratio(baselineOf('hill-climb'))).toBeCloseTo(0.05, 3);
  });

  it('of squish are 2 % of the bore and 0.004 in where they are stated, and none where there is no squish', () => {
    const stated = (area: string): Baseline =>
      baselineOf('minimum', (text) =>
        text.replace('compression: 9.5', `compression: 9.5\n  squishArea: ${area}\n  squishHeight: 0.045 in`),
      );
    const baseline = stated('20 %');
    const moved = (id: string) =>
      perturbed(baseline, [], [{ unknown: named(unknowns(baseline), id), z: 1 }], undefined)?.chamber;
    expect(moved('squish area')?.squishArea).toBeCloseTo(0.22, 9);
    expect(moved('squish height')?.squishHeight).toBeCloseTo(0.049 * 0.0254, 9);
    const ids = unknowns(stated('0 %')).all.map(({ id }) => id);
    expect(ids.filter((id) => id.includes('squish'))).toEqual([]);
  });

  it('of a stated venturi are what it flows for its area: beyond the rating, not at it', () => {
    const carburetor = '{ rating: 650 cfm, barrels: 4, venturi: 1.35 in }';
    const baseline = baselineOf('minimum', (text) => `${text}induction: { carburetor: ${carburetor} }\n`);
    const unknown = named(unknowns(baseline), 'venturi coefficient');
    expect(unknown).toMatchObject({ sigma: 3, unit: '%' });
    const of = (z: number) => perturbed(baseline, [], [{ unknown, z }], undefined)?.induction;
    expect((of(1)?.venturi?.overMetering ?? 0) / (of(0)?.venturi?.overMetering ?? 1)).toBeCloseTo(
      1.03 ** 2,
      9,
    );
    expect(of(1)?.meteringArea).toBe(of(0)?.meteringArea);
  });

  it('belong to the new part where a change brings one, and to the old one no more', () => {
    const baseline = baselineOf('hill-climb');
    const found = unknowns(baseline, CARBURETOR);
    const old = named(found, 'carburetor rating');
    const own = named(found, 'carburetor rating of carburetor');
    expect(old.replacedBy).toEqual(['carburetor']);
    expect(own.of).toBe('carburetor');
    const area = (changes: readonly Change[], unknown: Unknown): number =>
      perturbed(baseline, changes, [{ unknown, z: 1 }], undefined)?.induction.meteringArea ?? Number.NaN;
    const nominal = baseline.combination.induction.meteringArea;
    const plain = perturbed(baseline, [CARBURETOR], [], undefined)?.induction.meteringArea ?? Number.NaN;
    expect(plain / nominal).toBeCloseTo(290 / 245, 9);
    expect(area([], old) / nominal).toBeCloseTo(1.04, 9);
    expect(area([CARBURETOR], old)).toBe(plain);
    expect(area([], own)).toBe(nominal);
    expect(area([CARBURETOR], own) / plain).toBeCloseTo(1.04, 9);
  });

  it('of a bench stay shared by a sheet of the same one, and are its own by a sheet of another', () => {
    const flow = (top: string): Plain => [
      { lift: '2 mm', flow: '60 cfm' },
      { lift: '8 mm', flow: top },
    ];
    const baseline = baselineOf('minimum', (text) =>
      text.replace(
        'valvesPerCylinder: 2',
        `valvesPerCylinder: 2\n  intake: { flow: ${JSON.stringify(flow('140 cfm'))} }`,
      ),
    );
    const depression = set('heads.bench.depression', '25 inH2O');
    const other = change('other head', set('heads.intake.flow', flow('148 cfm')), depression);
    const same = change('same bench', set('heads.intake.flow', flow('148 cfm')));
    const found = unknowns(baseline, other, same);
    const shared = named(found, 'flow bench');
    const own = named(found, 'flow bench of other head');
    expect(shared.replacedBy).toEqual(['other head']);
    expect(own).toMatchObject({ of: 'other head', sigma: 5, unit: '%' });
    expect(found.all.map(({ id }) => id)).not.toContain('flow bench of same bench');
    const area = (changes: readonly Change[], unknown: Unknown, z: number): number =>
      perturbed(baseline, changes, [{ unknown, z }], undefined)?.intake.flow.area[1] ?? Number.NaN;
    expect(area([same], shared, 1) / area([same], shared, 0)).toBeCloseTo(1.05, 9);
    expect(area([other], shared, 1)).toBe(area([other], shared, 0));
    expect(area([other], own, 1) / area([other], own, 0)).toBeCloseTo(1.05, 9);
    expect(area([], own, 1)).toBe(area([], own, 0));
  });

  it('of a muffler that is only named are its back-pressure, and of another the back-pressure of its kind', () => {
    const baseline = baselineOf('minimum', (text) => `${text}exhaust: { muffler: chambered }\n`);
    const quieter = change('seen through', set('exhaust.muffler', 'straight-through'));
    const rated = change('rated', set('exhaust.muffler', { flow: '500 cfm' }));
    const found = unknowns(baseline, quieter, rated);
    const old = named(found, 'exhaust.box.backPressure');
    const own = named(found, 'exhaust.box.backPressure of seen through');
    expect([old.sigma, old.unit, own.sigma, own.unit]).toEqual([1, 'psi', 0.4, 'psi']);
    const passage = (changes: readonly Change[], unknown: Unknown, z: number): number =>
      perturbed(baseline, changes, [{ unknown, z }], undefined)?.exhaustSystem.muffler?.passage ?? Number.NaN;
    expect(passage([], old, 1)).toBeLessThan(passage([], old, 0));
    expect(passage([quieter], own, 1)).toBeLessThan(passage([quieter], own, 0));
    for (const one of [quieter, rated]) expect(passage([one], old, 1)).toBe(passage([one], old, 0));
  });

  it('of an estimate go where a change brings another part, which is as little known, though it is estimated alike', () => {
    const baseline = baselineOf('hill-climb');
    const found = unknowns(baseline, change('mufflers', set('exhaust.muffler.backPressure', '1.3 psi')));
    const old = named(found, 'exhaust.box.volume');
    const own = named(found, 'exhaust.box.volume of mufflers');
    expect(old.replacedBy).toEqual(['mufflers']);
    expect([own.sigma, own.unit, own.of]).toEqual([old.sigma, old.unit, 'mufflers']);
    expect(named(found, 'exhaust.primary.wallTemperature').replacedBy).toEqual([]);
  });

  it('of an estimate go along where another fuel has it made anew for a manifold that stays', () => {
    const baseline = baselineOf('hill-climb');
    const fuel = change('fuel', set('fuel', 'pump-93'));
    const found = unknowns(baseline, fuel);
    const vapour = named(found, 'induction.vapour');
    expect(vapour.replacedBy).toEqual([]);
    expect(found.all.map(({ id }) => id)).not.toContain('induction.vapour of fuel');
    const share = (changes: readonly Change[], z: number): number =>
      perturbed(baseline, changes, [{ unknown: vapour, z }], undefined)?.induction.vapour ?? Number.NaN;
    expect(share([], 1) - share([], 0)).toBeCloseTo(vapour.sigma / 100, 9);
    expect(share([fuel], 1) - share([fuel], 0)).toBeCloseTo(vapour.sigma / 100, 9);
  });

  it.each([
    ['mufflers', set('exhaust.muffler.backPressure', '1.3 psi')],
    ['fuel', set('fuel', 'pump-93')],
    ['manifold', set('induction.manifold', 'dual-plane')],
    ['carburetor', set('induction.carburetor.rating', '290 cfm')],
    ['cam', { kind: 'add', path: 'cam.advance', amount: '-4 deg' }],
  ] satisfies readonly (readonly [string, FieldEdit])[])(
    'are gone with the %s exactly where moving them leaves the changed engine as it is',
    (name, edit) => {
      const baseline = baselineOf('hill-climb');
      const one = change(name, edit);
      const still = perturbed(baseline, [one], [], undefined);
      for (const unknown of unknowns(baseline, one).all) {
        if (unknown.of !== null) continue;
        const moved = [1, -1].map((z) => perturbed(baseline, [one], [{ unknown, z }], undefined));
        const isStill = JSON.stringify(moved.find((it) => it !== null)) === JSON.stringify(still);
        expect(unknown.replacedBy.includes(name), unknown.id).toBe(isStill);
      }
    },
  );

  it('of a part that a change alone brings move it, each estimate beside the others', () => {
    const baseline = baselineOf(
      'minimum',
      (text) =>
        `${text}cam: { intake: { advertised: 284 deg, at050: 228 deg } }\ninduction: { carburetor: { rating: 350 cfm, barrels: 2 }, manifold: dual-plane }\n`,
    );
    const four = change(
      'four-barrel',
      set('induction.carburetor.rating', '500 cfm'),
      set('induction.carburetor.barrels', 4),
    );
    const found = unknowns(baseline, four);
    const area = (...ids: readonly string[]): number =>
      perturbed(
        baseline,
        [four],
        ids.map((id) => ({ unknown: named(found, `induction.divider.${id} of four-barrel`), z: 1 })),
        undefined,
      )?.induction.dividerArea ?? Number.NaN;
    // Half of an opening that nobody measured, to the two digits of its spread.
    expect(area('opening') / area()).toBeCloseTo(1.5, 1);
    expect(area('discharge') / area()).toBeCloseTo(0.72 / 0.65, 9);
    expect(area('opening', 'discharge') / area('discharge')).toBeCloseTo(area('opening') / area(), 9);
  });

  it('are found within a section that a change sets as a whole', () => {
    const baseline = baselineOf('hill-climb');
    const section = { rating: '290 cfm', barrels: 2, ratedAt: '3.0 inHg', count: 3 };
    const whole = change('whole', set('induction.carburetor', section));
    const own = named(unknowns(baseline, whole), 'carburetor rating of whole');
    const area = (z: number): number =>
      perturbed(baseline, [whole], [{ unknown: own, z }], undefined)?.induction.meteringArea ?? Number.NaN;
    expect(area(0) / baseline.combination.induction.meteringArea).toBeCloseTo(290 / 245, 9);
    expect(area(1) / area(0)).toBeCloseTo(1.04, 9);
  });

  it('of the bench go along with a port that was worked on and flowed again, once and not twice', () => {
    const baseline = baselineOf('hill-climb');
    const flowed = change('flowed', set('heads.intake.flowMultiplier', 0.95));
    const scaled = change('scaled', { kind: 'scale', path: 'heads.intake.flowMultiplier', factor: 0.95 });
    const found = unknowns(baseline, flowed, scaled);
    const bench = named(found, 'flow bench');
    const flow = (one: Change, z: number): number =>
      perturbed(baseline, [one], [{ unknown: bench, z }], undefined)?.intake.flow.area[4] ?? Number.NaN;
    for (const one of [flowed, scaled]) expect(flow(one, -1) / flow(one, 0)).toBeCloseTo(0.95, 9);
    expect(named(found, 'intake flow sheet').replacedBy).toEqual(['flowed', 'scaled']);
  });

  it('of the bench and of a new sheet move a port together, neither in place of the other', () => {
    const baseline = baselineOf('hill-climb');
    const sheet = exampleSheet('hill-climb');
    const opened = change('opened', set('heads.exhaust.flow', 'flow-exhaust.csv'));
    const result = applyChanges(baseline, [opened], { sheet });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const values = assignedValues(baseline, [opened], []);
    const found = unknownsOf(baseline, [{ change: opened, combination: result.value, values }]);
    const bench = { unknown: named(found, 'flow bench'), z: 1 };
    const own = { unknown: named(found, 'exhaust flow sheet of opened'), z: 1 };
    const area = (...offsets: readonly (typeof bench)[]): number =>
      perturbed(baseline, [opened], offsets, sheet)?.exhaust.flow.area[4] ?? Number.NaN;
    expect(area(bench) / area()).toBeCloseTo(1.05, 9);
    expect(area(own) / area()).toBeCloseTo(1.0075, 9);
    for (const both of [area(bench, own), area(own, bench)])
      expect(both / area()).toBeCloseTo(1.05 * 1.0075, 9);
  });

  it('of measured volumes stay as small when a change states the ratio instead', () => {
    const baseline = baselineOf('hill-climb');
    const milled = change('milled', set('chamber.compression', 11.6));
    const found = unknowns(baseline, milled);
    const compression = named(found, 'compression');
    const moved = perturbed(baseline, [milled], [{ unknown: compression, z: 1 }], undefined);
    expect(moved?.chamber.compressionRatio).toBeCloseTo(11.65, 6);
  });

  it('of a new manifold are its new estimates', () => {
    const found = unknowns(
      baselineOf('hill-climb'),
      change('manifold', set('induction.manifold', 'dual-plane')),
    );
    expect(named(found, 'induction.heating of manifold')).toMatchObject({ of: 'manifold', unit: 'K' });
  });

  it('of a calibrated field are what the fit left, with their correlation', () => {
    const calibrated = baselineOf(
      'hill-climb',
      (text) => `${text}
friction: { multiplier: 0.95 }
heat: { multiplier: 1.1 }
calibration:
  sheets: [pull.csv]
  knobs:
    - { field: friction.multiplier, value: 0.95, spread: 0.04 }
    - { field: heat.multiplier, value: 1.1, spread: 0.06 }
  correlation: [[1, -0.7], [-0.7, 1]]
`,
    );
    const found = unknowns(calibrated);
    expect(named(found, 'friction.multiplier').sigma).toBe(0.04);
    expect(found.calibrated).toEqual({
      ids: ['friction.multiplier', 'heat.multiplier'],
      correlation: [
        [1, -0.7],
        [-0.7, 1],
      ],
    });
    const moved = perturbed(calibrated, [], [{ unknown: named(found, 'heat.multiplier'), z: 2 }], undefined);
    expect(moved?.walls.multiplier).toBeCloseTo(1.22, 9);
  });
});

describe('perturbed(baseline, changes, offsets)', () => {
  it('moves every unknown of every example one way or the other, and the engine with it', () => {
    for (const example of ['minimum', 'tow-truck', 'hill-climb', 'club-racer', 'scrambler'] as const) {
      const baseline = baselineOf(example);
      const same = JSON.stringify({ ...baseline.combination, assumed: [], warnings: [] });
      const idle = unknowns(baseline).all.filter((unknown) => {
        const moved =
          perturbed(baseline, [], [{ unknown, z: 1 }], undefined) ??
          perturbed(baseline, [], [{ unknown, z: -1 }], undefined);
        return moved === null || JSON.stringify({ ...moved, assumed: [], warnings: [] }) === same;
      });
      expect(
        idle.map(({ id }) => id),
        example,
      ).toEqual([]);
    }
  });

  it('is certain of what a change sets, and builds on what it scales or adds to', () => {
    const baseline = baselineOf('minimum');
    const unknown = named(unknowns(baseline), 'exhaust.primary.length');
    const length = (one: Change): number =>
      perturbed(baseline, [one], [{ unknown, z: 1 }], undefined)?.exhaustSystem.primary.length ?? Number.NaN;
    const inch = 0.0254;
    expect(length(change('set', set('exhaust.primary.length', '30 in')))).toBeCloseTo(30 * inch, 9);
    expect(
      length(change('add', { kind: 'add', path: 'exhaust.primary.length', amount: '2 in' })),
    ).toBeCloseTo((34 + 3.4 + 2) * inch, 9);
    expect(
      length(change('scale', { kind: 'scale', path: 'exhaust.primary.length', factor: 0.9 })),
    ).toBeCloseTo(0.9 * (34 + 3.4) * inch, 9);
  });

  it('gives nothing where no such engine can be built', () => {
    const baseline = baselineOf('minimum');
    const unknown = named(unknowns(baseline), 'heads.intake.valve');
    expect(perturbed(baseline, [], [{ unknown, z: -15 }], undefined)).toBeNull();
  });

  it('leaves the baseline as it was', () => {
    const baseline = baselineOf('minimum');
    const before: CombinationDocument = JSON.parse(JSON.stringify(baseline.document));
    const offsets = unknowns(baseline).all.map((unknown) => ({ unknown, z: 1 }));
    perturbed(baseline, [], offsets, undefined);
    expect(baseline.document).toEqual(before);
  });
});
