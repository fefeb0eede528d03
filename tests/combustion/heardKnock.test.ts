import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../packages/core/src/changes/applyChanges.ts';
import { pinBaseline } from '../../packages/core/src/changes/baseline.ts';
import type { Change } from '../../packages/core/src/changes/change.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import type { HeardKnock } from '../../packages/core/src/combination/running.ts';
import type { WholeCurve } from '../../packages/core/src/forecast/wholeCurve.ts';
import { editDocument } from '../../packages/core/src/reading/editDocument.ts';
import { readDocument } from '../../packages/core/src/reading/readDocument.ts';
import { unknownsOf } from '../../packages/core/src/uncertainty/unknowns.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import { engineFile } from '../physics/engines.ts';

const ENGINE = 'tests/data/engines/octane-rating.yaml';
const RPM = 600;
/** Octane of its fuel. */
const FUEL = 100;
const EARLY: HeardKnock = { rpm: RPM, advance: 26, octane: null, knock: 'none' };

/** One cylinder, quick to march, with its spark 9 deg earlier than its method has it. */
function early(heard: readonly HeardKnock[], octaneOffset = 0): Combination {
  const engine = engineFile(ENGINE);
  const timing = { mode: 'spark', rpm: [RPM], advance: [EARLY.advance] } as const;
  return { ...engine, burn: { ...engine.burn, timing, heard, octaneOffset } };
}

const known = new Map<string, WholeCurve>();

/** Forecast once for all that is asked of it. */
function curveOf(combination: Combination): WholeCurve {
  const key = JSON.stringify(combination);
  const curve = known.get(key) ?? wholeForecast(combination, { rpm: [RPM] });
  known.set(key, curve);
  return curve;
}

const asked = (combination: Combination): number => curveOf(combination).points[0].octaneRequired;

const heardWarning = (combination: Combination) =>
  curveOf(combination).warnings.find(({ code }) => code === 'heard-knock')?.message;

describe('what was heard of knock', () => {
  it('leaves at most the octane of the fuel where there was none, and says by how much', () => {
    const model = asked(early([]));
    expect(model).toBeGreaterThan(FUEL + 2);
    const held = curveOf(early([EARLY]));
    expect(held.points[0].octaneRequired).toBeCloseTo(FUEL, 1);
    expect(held.points[0].detonates).toBe(false);
    expect(heardWarning(early([EARLY]))).toContain(
      `changes the octane asked for by -${(model - FUEL).toFixed(1)}`,
    );
  });

  it('changes nothing where the model asks for less than the fuel had', () => {
    const better = { ...EARLY, octane: 125 };
    expect(asked(early([better]))).toBe(asked(early([])));
    expect(heardWarning(early([better]))).toContain('nothing is changed');
  });

  it('sets the octane asked for to that of the fuel where knock was just audible, higher or lower', () => {
    for (const octane of [95, 118]) {
      expect(asked(early([{ ...EARLY, octane, knock: 'trace' }]))).toBeCloseTo(octane, 1);
    }
  });

  it('counts an offset from there, up to where no knock was heard', () => {
    const trace: HeardKnock = { ...EARLY, octane: 95, knock: 'trace' };
    expect(asked(early([trace], 1.5))).toBeCloseTo(96.5, 1);
    expect(asked(early([trace, { ...EARLY, octane: 96 }], 1.5))).toBeCloseTo(96, 1);
    expect(asked(early([], 2)) - asked(early([]))).toBeCloseTo(2, 10);
  });

  it('was heard of the engine before a change, whose offset the changed one carries, with its spread in every study', () => {
    const heard = [{ rpm: `${RPM} rpm`, advance: `${EARLY.advance} deg`, octane: 103, knock: 'trace' }];
    const read = readDocument(readFileSync(new URL(`../../${ENGINE}`, import.meta.url), 'utf8'));
    if (!read.ok) throw new Error('the file is sound');
    const document = editDocument(read.value, 'burn.heard', heard);
    const pinned = pinBaseline(document);
    if (!pinned.ok) throw new Error('the file is sound');
    const { value: baseline } = pinned;
    expect(baseline.combination.assumed.find(({ path }) => path === 'burn.octaneOffset')?.spread).toBe(1.5);
    const { all } = unknownsOf(baseline, []);
    expect(all.find(({ id }) => id === 'burn.octaneOffset')?.sigma).toBe(1.5);
    const change: Change = {
      name: 'coated',
      edits: [{ kind: 'set', path: 'heat.multiplier', value: 0.6 }],
      cost: null,
      hours: null,
      reversible: true,
      insteadOf: null,
    };
    const changed = applyChanges(baseline, [change]);
    if (!changed.ok) throw new Error(changed.problems.map(({ message }) => message).join());
    const { value: combination } = changed;
    expect(combination.heardOn?.name).toBe(baseline.combination.name);
    const without = (engine: Combination): Combination => ({
      ...engine,
      burn: { ...engine.burn, heard: [] },
    });
    const moved = (engine: Combination) => asked(engine) - asked(without(engine));
    expect(moved(combination)).toBeCloseTo(moved(baseline.combination), 6);
  });
});

describe('the ledger', () => {
  it('gives the octane asked for a spread of 3 where nobody heard anything', () => {
    const { assumed } = engineFile(ENGINE);
    expect(assumed.find(({ path }) => path === 'burn.octaneOffset')).toMatchObject({ value: 0, spread: 3 });
  });
});
