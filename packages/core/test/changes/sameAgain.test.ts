import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/changes/applyChanges.ts';
import type { Baseline } from '../../src/changes/baseline.ts';
import { currentValue } from '../../src/changes/currentValue.ts';
import { isSameEngine } from '../../src/changes/sameEngine.ts';
import { EXAMPLES, exampleSheet, exampleText, fileWith } from '../reading/files.ts';
import { baselineOf, change, leaves, set } from './changedEngine.ts';

/** Fields that come out as another engine when they are set to what they have. */
function movedByThemselves(base: Baseline): readonly string[] {
  return leaves(base.document.data).flatMap((path) => {
    const value = currentValue(base, path);
    if (value === undefined) return [];
    const again = applyChanges(base, [change('again', set(path, value))], {
      effectless: 'allow',
      sheet: (name) => base.sheets[name],
    });
    if (!again.ok) return [`${path} ${again.problems[0].message}`];
    return isSameEngine(again.value, base.combination) ? [] : [path];
  });
}

describe('a field set to what it has already', () => {
  // A street four whose floor is warm: the same style of manifold, named by a change, once brought it the cold floor of a racing engine, +4.6 % of power.
  it('keeps the warm floor of an engine that speaks of no other parts than it was made with', () => {
    const after = applyChanges(
      baselineOf(exampleText('minimum')),
      [change('again', set('induction.manifold', 'single-plane'))],
      { effectless: 'allow' },
    );
    expect(after.ok && after.value.induction.heating).toBe(14);
  });

  it.each(EXAMPLES)('leaves the engine of the example %s as it is', (name) => {
    expect(movedByThemselves(baselineOf(exampleText(name), exampleSheet(name)))).toEqual([]);
  });

  const EIGHT = '{ bore: 4 in, stroke: 3.48 in, cylinders: 8, layout: v, ratedSpeed: 4600 rpm }';
  it.each([
    ['a small four', {}],
    ['an eight that speaks of no other parts than it was made with', { engine: EIGHT }],
    ['one with a carburetor of four barrels', { engine: EIGHT, induction: '{ carburetor: { barrels: 4 } }' }],
    ['one with a throttle', { engine: EIGHT, induction: '{ throttle: { diameter: 70 mm } }' }],
    ['one whose cam was degreed', { engine: EIGHT, cam: '{ intake: { centreline: 108 deg } }' }],
    [
      'one with its cam card',
      { engine: EIGHT, cam: '{ intake: { at050: 230 deg }, exhaust: { at050: 236 deg } }' },
    ],
  ])('leaves %s as it is', (_, sections) => {
    expect(movedByThemselves(baselineOf(fileWith(sections)))).toEqual([]);
  });
});
