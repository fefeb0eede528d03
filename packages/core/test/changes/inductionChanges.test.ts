/** Parts of the induction put on, sized, and taken off by changes of a pinned engine. */
import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/changes/applyChanges.ts';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import { readChanges } from '../../src/changes/readChanges.ts';
import type { Induction } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readDocument } from '../../src/reading/readDocument.ts';

function baselineOf(induction: string): Baseline {
  const text = `engine: { bore: 4 in, stroke: 3.5 in, cylinders: 8 }
chamber: { compression: 10 }
heads: { valvesPerCylinder: 2 }
induction: ${induction}
`;
  const document = readDocument(text, { file: 'e.yaml' });
  if (!document.ok) throw new Error('the document is sound');
  const pinned = pinBaseline(document.value);
  if (!pinned.ok) throw new Error(pinned.problems.map(problemLine).join('\n'));
  return pinned.value;
}

function changed(baseline: Baseline, set: string): Induction | string {
  const read = readChanges(`changes: [{ name: x, set: { ${set} } }]`);
  if (!read.ok) return read.problems.map(problemLine).join('\n');
  const applied = applyChanges(baseline, read.value);
  return applied.ok ? applied.value.induction : applied.problems.map(problemLine).join('\n');
}

function inductionOf(baseline: Baseline, set: string): Induction {
  const made = changed(baseline, set);
  if (typeof made === 'string') throw new Error(made);
  return made;
}

const CARBURETOR = 'carburetor: { rating: 650 cfm }, manifold: dual-plane, plenum: 1.6 l';

describe('a change of the induction', () => {
  const plain = baselineOf(`{ ${CARBURETOR} }`);
  const built = baselineOf(
    `{ ${CARBURETOR}, spacer: { height: 1 in }, divider: { opening: 2 in2 }, restrictor: { bore: 1.1 in } }`,
  );

  it('puts a part on, with what is estimated beside it, and takes it off again', () => {
    const spaced = inductionOf(plain, 'induction.spacer.height: 1 in');
    expect(spaced.plenums[0].volume).toBeGreaterThan(plain.combination.induction.plenums[0].volume);
    const { plenums, dividerArea, spacerArea, ...rest } = inductionOf(
      built,
      'induction.spacer: none, induction.divider: none, induction.restrictor: none',
    );
    expect(plenums).toEqual(plain.combination.induction.plenums);
    expect([dividerArea, spacerArea, rest.restrictor]).toEqual([undefined, undefined, undefined]);
  });

  it('alters one size of a part and nothing else of it', () => {
    const { restrictor, ...rest } = inductionOf(built, 'induction.restrictor.bore: 1.21 in');
    const { restrictor: before, ...restBefore } = built.combination.induction;
    expect((restrictor?.area ?? 0) / (before?.area ?? 1)).toBeCloseTo(1.21, 9);
    expect(rest).toEqual(restBefore);
  });

  it('sizes a spacer and a plate by the carburetor that comes, where they were estimated', () => {
    const two = inductionOf(built, 'induction.carburetor: { rating: 500 cfm, barrels: 2 }');
    const area = (induction: Induction): number => induction.restrictor?.area ?? 0;
    expect(area(two) / area(built.combination.induction)).toBeCloseTo(0.5, 9);
    expect(two.spacerArea ?? 0).toBeLessThan(built.combination.induction.spacerArea ?? 0);
  });

  it('to a manifold of one plenum takes its divider along', () => {
    const single = inductionOf(built, 'induction.manifold: single-plane');
    expect(single.plenums).toHaveLength(1);
    expect(single.dividerArea).toBeUndefined();
  });

  it('that does nothing, or a part by half, is told', () => {
    expect(changed(plain, 'induction.balance: none')).toContain('has no effect');
    expect(changed(plain, 'induction.restrictor.kind: sonic')).toContain(
      'induction.restrictor.bore is missing',
    );
  });
});
