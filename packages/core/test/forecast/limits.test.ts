import { describe, expect, it } from 'vitest';
import type { Limits } from '../../src/combination/combination.ts';
import { type Breach, limitBreaches, newBreaches } from '../../src/forecast/limits.ts';
import { curveWarnings } from '../../src/forecast/warnings.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fileWith } from '../reading/files.ts';
import { altered, curveOf } from '../studies/fakeCurves.ts';
import { bigBlock } from '../support/bigBlock.ts';

const NONE: Limits = { octaneMargin: null, pistonSpeed: null, valveLift: null, redline: null };
const RPM = [3000, 5000, 7000];

/** On a fuel of 87, (R + M) / 2, with power highest at the last speed. */
const engine = (limits: Partial<Limits> = {}) =>
  bigBlock({ fuel: fuelNamed('pump-87'), limits: { ...NONE, ...limits } });
const curve = (octaneAtBestTiming: number, more: { octaneRequired?: number; detonates?: boolean } = {}) =>
  altered(
    curveOf(RPM, () => 400),
    () => ({ octaneAtBestTiming, octaneRequired: 87, ...more }),
  );

describe('limitBreaches(combination, curve)', () => {
  it('allows four numbers too few at best timing where nothing is stated, and no more', () => {
    expect(limitBreaches(engine(), curve(90.9))).toEqual([]);
    expect(limitBreaches(engine(), curve(91.1))).toMatchObject([
      { limit: 'octane', path: 'fuel', value: 91.1, allowed: 91, unit: 'octane', stated: false },
    ]);
  });

  it('warns with the forecast where a stated limit is broken, and is silent where none is stated', () => {
    const warningsOf = (limits: Partial<Limits>) =>
      curveWarnings(engine(limits), curve(91.1).points, []).filter(({ code }) => code === 'beyond-limit');
    expect(warningsOf({ octaneMargin: 2 })).toMatchObject([{ path: 'limits.octaneMargin' }]);
    expect(warningsOf({})).toEqual([]);
  });

  it('keeps to a stated margin, above nothing and below', () => {
    expect(limitBreaches(engine({ octaneMargin: 2 }), curve(84.9))).toEqual([]);
    expect(limitBreaches(engine({ octaneMargin: 2 }), curve(85.1))).toMatchObject([
      { path: 'limits.octaneMargin', allowed: 85, stated: true },
    ]);
    expect(limitBreaches(engine({ octaneMargin: -10 }), curve(96))).toEqual([]);
  });

  it('forbids detonation whatever margin is stated, and says what octane would do', () => {
    const [breach] = limitBreaches(
      engine({ octaneMargin: -20 }),
      curve(95, { octaneRequired: 93.2, detonates: true }),
    );
    expect(breach.message).toBe(
      'pump-87 detonates at 3000, 5000, 7000 rpm: it has 87 octane and needs at least 94',
    );
  });

  it('judges a stated spark by what it asks for itself', () => {
    const burn = { ...engine().burn, timing: { mode: 'ca50', angle: 14 } as const };
    expect(limitBreaches({ ...engine(), burn }, curve(99, { octaneRequired: 86 }))).toEqual([]);
  });

  it('says how large a gap of octane may be, and what sets it', () => {
    const [stated] = limitBreaches(engine({ octaneMargin: -2 }), curve(92));
    expect(stated.message).toMatch(/; a gap of 2 at most is allowed \(limits\.octaneMargin\)$/u);
    const [silent] = limitBreaches(engine(), curve(92));
    expect(silent.message).toMatch(/; a gap of 4 at most is allowed \(limits\.octaneMargin sets it\)$/u);
    const [spare] = limitBreaches(engine({ octaneMargin: 3 }), curve(92));
    expect(spare.message).toMatch(/; limits\.octaneMargin asks for 3 to spare$/u);
    const burn = { ...engine().burn, timing: { mode: 'ca50', angle: 14 } as const };
    const [own] = limitBreaches({ ...engine(), burn }, curve(99, { octaneRequired: 89 }));
    expect(own.message).toBe('the stated timing at 3000 rpm asks for 89 octane, pump-87 has 87');
  });

  it('holds the redline to the speed of the highest power, wherever that lies', () => {
    const falling = altered(
      curveOf(RPM, () => 400),
      ({ rpm }) => ({ powerKw: 300 - rpm / 100, octaneAtBestTiming: 80, octaneRequired: 80 }),
    );
    expect(limitBreaches(engine({ redline: 3000 }), falling)).toEqual([]);
    expect(limitBreaches(engine({ redline: 2900 }), falling)).toMatchObject([
      { limit: 'redline', value: 3000 },
    ]);
  });

  it('names the exhaust where its valves rise further', () => {
    const base = engine({ valveLift: 1e-3 });
    const tall = { ...base, exhaust: { ...base.exhaust, rockerRatio: 2 * base.exhaust.rockerRatio } };
    expect(limitBreaches(tall, curve(80))[0].message).toMatch(/^exhaust valve lift is/u);
  });

  it('holds piston speed to the highest speed looked at, or to the redline', () => {
    // Stroke times speed over 30: the mean piston speed of the textbooks.
    const { stroke } = engine().block;
    const at = (rpm: number): number => (stroke * rpm) / 30;
    expect(limitBreaches(engine({ pistonSpeed: at(7000) + 0.01 }), curve(87))).toEqual([]);
    const [breach] = limitBreaches(engine({ pistonSpeed: at(7000) - 0.01 }), curve(87));
    expect(breach).toMatchObject({ limit: 'piston-speed', unit: 'm/s', value: at(7000) });
    const held = engine({ pistonSpeed: at(6000) + 0.01, redline: 6000 });
    expect(limitBreaches(held, curve(87)).map(({ limit }) => limit)).toEqual(['redline']);
  });

  it('holds the larger valve lift, lash taken off, to the largest allowed', () => {
    const { intake, exhaust } = engine();
    const lifts = [intake, exhaust].map(({ lobe, rockerRatio, lash, deflection }) => {
      const lobeLift = lobe.kind === 'card' ? lobe.maxLift : Math.max(...lobe.lift);
      return lobeLift * rockerRatio - lash - deflection;
    });
    const most = Math.max(...lifts);
    expect(limitBreaches(engine({ valveLift: most + 1e-5 }), curve(87))).toEqual([]);
    const [breach] = limitBreaches(engine({ valveLift: most - 1e-5 }), curve(87));
    expect(breach.limit).toBe('valve-lift');
    expect(breach.value).toBeCloseTo(1000 * most, 6);
  });

  it('wants the highest power at or below the redline', () => {
    expect(limitBreaches(engine({ redline: 7000 }), curve(87))).toEqual([]);
    expect(limitBreaches(engine({ redline: 6900 }), curve(87))).toMatchObject([
      { limit: 'redline', value: 7000, allowed: 6900, unit: 'rpm' },
    ]);
  });
});

describe('newBreaches(before, after)', () => {
  const breach = (limit: Breach['limit'], value: number): Breach => ({
    limit,
    path: '',
    value,
    allowed: 0,
    unit: 'octane',
    stated: true,
    message: '',
  });

  it('leaves out what was broken as far before', () => {
    expect(newBreaches([breach('octane', 95)], [breach('octane', 95.4)])).toEqual([]);
    expect(newBreaches([breach('octane', 95)], [breach('octane', 95.6)])).toHaveLength(1);
    expect(newBreaches([breach('octane', 95)], [breach('redline', 7000)])).toHaveLength(1);
  });
});

describe('the section `limits` of a file', () => {
  it('is read with its units, moves nothing else and is null where nothing is stated', () => {
    const read = readCombination(
      fileWith({
        limits: '{ octaneMargin: 1, pistonSpeed: 4000 ft/min, valveLift: 0.600 in, redline: 6500 rpm }',
      }),
    );
    if (!read.ok) throw new Error(read.problems[0].message);
    const { limits } = read.value;
    expect(limits.pistonSpeed).toBeCloseTo(20.32, 9);
    expect(limits.valveLift).toBeCloseTo(0.01524, 12);
    expect(limits).toMatchObject({ octaneMargin: 1, redline: 6500 });
    const silent = readCombination(fileWith({}));
    expect(silent.ok && silent.value.limits).toEqual(NONE);
  });
});
