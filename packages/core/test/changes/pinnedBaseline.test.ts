import { describe, expect, it } from 'vitest';
import { pinBaseline } from '../../src/changes/baseline.ts';
import { isSameEngine } from '../../src/changes/sameEngine.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import { inherited } from '../../src/reading/fields/fieldTable.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { resolveDocument } from '../../src/reading/resolveDocument.ts';
import { valueAt } from '../../src/reading/valueAt.ts';
import { EXAMPLES, exampleSheet, exampleText, fileWith } from '../reading/files.ts';

import { baselineOf, changed, leaves, set } from './changedEngine.ts';

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

  // Written out, estimates have to keep to what a file may say: stems of 3 mm and less once left every engine under 48 mm of bore without comparison.
  it('is there for every size of engine that a file may describe', () => {
    const sizes = [2, 4].flatMap((valves) =>
      [20, 30, 39, 48, 80, 160, 250].flatMap((bore) =>
        [0.75, 1, 1.2].flatMap((ratio) =>
          [1, 4, 8, 12].map((cylinders) => ({ valves, bore, ratio, cylinders })),
        ),
      ),
    );
    const refused = sizes.flatMap(({ valves, bore, ratio, cylinders }) => {
      const engine = `{ bore: ${bore} mm, stroke: ${bore * ratio} mm, cylinders: ${cylinders}, layout: ${cylinders > 6 ? 'v' : 'inline'} }`;
      const read = readDocument(fileWith({ engine, heads: `{ valvesPerCylinder: ${valves} }` }));
      const pinned = read.ok ? pinBaseline(read.value) : read;
      if (!pinned.ok) return pinned.problems.map(({ path, message }) => `${engine} ${path} ${message}`);
      const { combination, document } = pinned.value;
      return combination.assumed
        .filter(({ path }) => inherited(path, 'estimate') !== 'rests-on-them')
        .filter(({ path }) => valueAt(document.data, path) === undefined)
        .map(({ path }) => `${engine} ${path} is not written out`);
    });
    expect(refused).toEqual([]);
  });

  it('leaves an estimate open that comes to what no file may state beside the sizes of this one', () => {
    const base = baselineOf(fileWith({ exhaust: '{ primary: { inside: 180 mm } }' }));
    const collector = base.combination.assumed.find(({ path }) => path === 'exhaust.collector.inside');
    // 1.8 primaries are 12.8 in; 250 mm may be stated.
    expect(collector?.value).toBeGreaterThan(250 / 25.4);
    expect(leaves(base.document.data)).not.toContain('exhaust.collector.inside');
    const narrower = changed(base, [set('exhaust.primary.inside', '45 mm')]);
    expect(narrower.exhaustSystem.collectors?.area).toBeLessThan(Math.PI * 0.05 ** 2);
  });

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
