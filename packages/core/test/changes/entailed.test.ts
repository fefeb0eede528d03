import { describe, expect, it } from 'vitest';
import { INCH as IN } from '../../src/base/constants.ts';
import { applyChanges } from '../../src/changes/applyChanges.ts';
import { readChanges } from '../../src/changes/readChanges.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { fileWith } from '../reading/files.ts';
import {
  add,
  baselineOf,
  change,
  changed,
  hillClimb,
  refusal,
  round,
  scale,
  set,
  smallest,
} from './changedEngine.ts';

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

  it('a muffler that comes off takes its box along, estimated or stated', () => {
    const cast = baselineOf(fileWith({ exhaust: '{ style: cast }' }));
    expect(cast.combination.exhaustSystem.muffler).toBeDefined();
    const stated = baselineOf(
      fileWith({
        exhaust: '{ muffler: { backPressure: 2 psi }, box: { volume: 6 l, pipe: { inside: 2 in } } }',
      }),
    );
    for (const base of [cast, stated]) {
      const { exhaustSystem } = changed(base, [set('exhaust.muffler', 'open')]);
      expect(exhaustSystem.muffler).toBeUndefined();
    }
    const { exhaustSystem } = changed(stated, [set('exhaust.muffler', 'straight-through')]);
    expect(exhaustSystem.muffler?.volume).toBeCloseTo(6e-3, 9);
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
