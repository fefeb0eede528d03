/** Lift measured at the valve by crank angle: what the valve does comes out again, wherever the sheet's zero stands. */
import { describe, expect, it } from 'vitest';
import { portLift } from '../../src/assembly/portValve.ts';
import { applyChanges } from '../../src/changes/applyChanges.ts';
import { pinBaseline } from '../../src/changes/baseline.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { fileWith } from './files.ts';

const IN = 0.0254;
const TRAIN =
  '{ intakeRatio: 1.6, exhaustRatio: 1.5, intakeLash: 0.016 in, exhaustLash: 0.020 in, flex: 0.012 in }';
const CARD = fileWith({
  valvetrain: TRAIN,
  cam: '{ lifter: solid-flat, separation: 108 deg, advance: 4 deg, intake: { advertised: 262 deg, checkedAt: 0.020 in, at050: 232 deg, lobeLift: 0.33 in }, exhaust: { advertised: 268 deg, checkedAt: 0.020 in, at050: 238 deg, lobeLift: 0.34 in } }',
});

function engineOf(text: string, sheet?: (name: string) => string | undefined): Combination {
  const read = readCombination(text, { file: 'e.yaml', ...(sheet === undefined ? {} : { sheet }) });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

/** What a dial at the retainer and a degree wheel gave: the lift of one side every 2 deg, counted `from` a cycle angle. */
function measured(engine: Combination, side: 'intake' | 'exhaust', from: number, angle: string): string {
  const { table, centre } = portLift(engine[side], side, engine.friction.valvetrain);
  const rows = Array.from({ length: 181 }, (_, i) => {
    const at = Math.round(centre) - 180 + 2 * i;
    const lift = table.values[(((at * 2) % 1440) + 1440) % 1440] / IN;
    return `${at - from},${lift.toFixed(5)}`;
  });
  return [`${angle},net valve lift in`, ...rows].join('\n');
}

const lines = (text: string, sheet: string): readonly string[] => {
  const read = readCombination(text, { file: 'e.yaml', sheet: () => sheet });
  return read.ok ? [] : read.problems.map(problemLine);
};

const TABLES = '{ lifter: solid-flat, intake: { table: in.csv }, exhaust: { table: ex.csv } }';

describe('lift measured at the valve', () => {
  it.each([
    ['between the strokes of gas exchange', 360],
    ['of firing', 0],
  ])('from the top centre %s gives the valve its lift and its place again', (_, from) => {
    const engine = engineOf(CARD);
    const sheet = (name: string): string =>
      measured(engine, name === 'in.csv' ? 'intake' : 'exhaust', from, 'crank deg ATDC');
    const again = engineOf(fileWith({ valvetrain: TRAIN, cam: TABLES }), sheet);
    for (const side of ['intake', 'exhaust'] as const) {
      expect(Math.abs(again[side].centreline - engine[side].centreline)).toBeLessThan(0.3);
      const before = portLift(engine[side], side, 'flat-tappet');
      const after = portLift(again[side], side, 'flat-tappet');
      expect(after.maxLift / IN).toBeCloseTo(before.maxLift / IN, 3);
      before.table.values.forEach((lift, i) => {
        expect(Math.abs(after.table.values[i] - lift) / IN).toBeLessThan(1e-3);
      });
    }
    expect(again.assumed.map(({ path }) => path)).not.toContain('cam.separation');
  });

  it('takes other lash as every lobe does, and a centreline in the file before its own', () => {
    const engine = engineOf(CARD);
    const sheet = (name: string): string =>
      measured(engine, name === 'in.csv' ? 'intake' : 'exhaust', 360, 'crank deg ATDC');
    const read = readDocument(fileWith({ valvetrain: TRAIN, cam: TABLES }));
    const pinned = read.ok ? pinBaseline(read.value, { sheet }) : read;
    if (!pinned.ok) throw new Error('the file does not read');
    const changed = (path: string, value: string | number): Combination => {
      const edits = [{ kind: 'set' as const, path, value }];
      const change = { name: 'it', edits, cost: null, hours: null, reversible: true, insteadOf: null };
      const applied = applyChanges(pinned.value, [change]);
      if (!applied.ok) throw new Error(applied.problems.map(problemLine).join('\n'));
      return applied.value;
    };
    const highest = ({ intake }: Combination): number =>
      portLift(intake, 'intake', 'flat-tappet').maxLift / IN;
    const wider = changed('valvetrain.intakeLash', '0.026 in');
    expect(highest(pinned.value.combination) - highest(wider)).toBeCloseTo(0.01, 6);
    const higher = changed('valvetrain.intakeRatio', 1.65);
    // Lobe lift 0.33 in, times the difference of the ratios.
    expect(highest(higher) - highest(pinned.value.combination)).toBeCloseTo(0.33 * 0.05, 4);
    // One shaft: both lobes turn.
    const { intake, exhaust } = changed('cam.intake.centreline', '100 deg');
    const { combination } = pinned.value;
    expect(intake.centreline).toBe(100);
    expect(exhaust.centreline - combination.exhaust.centreline).toBeCloseTo(
      combination.intake.centreline - 100,
      9,
    );
  });

  it('is refused where it is of the lobe, stands where no lobe does, or denies the separation', () => {
    const engine = engineOf(CARD);
    const sheet = measured(engine, 'intake', 360, 'crank deg ATDC');
    const one = fileWith({ cam: '{ intake: { table: in.csv } }' });
    expect(lines(one, sheet.replace('net valve', 'net lobe'))).toEqual([
      "in.csv:1 cam.intake.table speaks of a net lift of the lobe in 'net lobe lift in' (net is what the valve does: 'net valve lift')",
    ]);
    expect(lines(one, measured(engine, 'intake', 180, 'crank deg ATDC'))).toEqual([
      "in.csv:1 cam.intake.table puts the intake lobe's centre 284 deg after top centre (count from the top centre between exhaust and intake stroke, or name the column crank deg)",
    ]);
    const text = fileWith({ valvetrain: TRAIN, cam: TABLES.replace('{', '{ separation: 112 deg,') });
    const read = readCombination(text, {
      file: 'e.yaml',
      sheet: (name) => measured(engine, name === 'in.csv' ? 'intake' : 'exhaust', 360, 'crank deg ATDC'),
    });
    expect(read.ok ? [] : read.problems.map(problemLine)).toEqual([
      expect.stringContaining(
        'cam.separation disagrees with the lobes as measured, which stand 108.0 deg apart',
      ),
    ]);
  });
});

describe('a split set of rockers', () => {
  const lifts =
    'intake: { at050: 224 deg, valveLift: 0.48 in }, exhaust: { at050: 230 deg, valveLift: 0.45 in }';
  const lobes = (file: Readonly<Record<string, string>>): readonly number[] => {
    const { intake, exhaust } = engineOf(fileWith(file));
    return [intake, exhaust].map(({ lobe }) => (lobe.kind === 'card' ? lobe.maxLift / IN : Number.NaN));
  };

  it('has the lobes that its own ratios give, each side its own', () => {
    const split = lobes({ cam: `{ ${lifts} }`, valvetrain: '{ intakeRatio: 1.6, exhaustRatio: 1.5 }' });
    expect(split[0]).toBeCloseTo(0.3, 9);
    expect(split[1]).toBeCloseTo(0.3, 9);
    const { assumed } = engineOf(
      fileWith({ cam: `{ ${lifts} }`, valvetrain: '{ intakeRatio: 1.6, exhaustRatio: 1.5 }' }),
    );
    const ratios = assumed.filter(({ path }) => path.endsWith('cardRatio'));
    expect(ratios.map(({ path, value }) => [path, value])).toEqual([
      ['cam.cardRatio', 1.6],
      ['cam.exhaust.cardRatio', 1.5],
    ]);
  });

  it('of the card goes with each side, the common one where a side has none', () => {
    const train = '{ intakeRatio: 1.7, exhaustRatio: 1.7 }';
    const own = lifts.replace('valveLift: 0.48 in', 'valveLift: 0.48 in, cardRatio: 1.6');
    expect(lobes({ cam: `{ cardRatio: 1.5, ${own} }`, valvetrain: train })).toEqual([
      expect.closeTo(0.3, 9),
      expect.closeTo(0.3, 9),
    ]);
  });

  it('is told where it says nothing', () => {
    const idle = engineOf(
      fileWith({ cam: '{ intake: { at050: 224 deg, lobeLift: 0.3 in, cardRatio: 1.6 } }' }),
    );
    const unused = idle.warnings.filter(({ code }) => code === 'field-unused');
    expect(unused.map(({ path }) => path)).toEqual(['cam.intake.cardRatio']);
    expect(lines(fileWith({ cam: '{ intake: { cardratio: 1.6 } }' }), '')).toEqual([
      'e.yaml:4:18 cam.intake.cardratio is not a field of this file (did you mean cardRatio?)',
    ]);
  });
});
