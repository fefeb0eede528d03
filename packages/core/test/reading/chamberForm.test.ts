import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/changes/applyChanges.ts';
import { pinBaseline } from '../../src/changes/baseline.ts';
import { readChanges } from '../../src/changes/readChanges.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { readDocument } from '../../src/reading/readDocument.ts';

const IN = 0.0254;
const VOLUMES = 'volume: 64 cc, deck: 0.010 in, gasketBore: 4.1 in, gasketThickness: 0.041 in';

const text = (chamber: string, valves = 2): string => `
engine: { bore: 4 in, stroke: 3.5 in, cylinders: 8 }
chamber: { ${chamber} }
heads: { valvesPerCylinder: ${valves} }
`;

function read(chamber: string, valves = 2) {
  const result = readCombination(text(chamber, valves));
  if (!result.ok) throw new Error(result.problems.map(({ path, message }) => `${path} ${message}`).join());
  return result.value;
}

const assumed = (chamber: string, valves = 2): readonly string[] =>
  read(chamber, valves).assumed.flatMap(({ path }) => (path.startsWith('chamber.') ? [path] : []));

describe('the form of a chamber', () => {
  it('is a wedge with its plug at the side and 18 % of squish where two valves are all that is known', () => {
    expect(read('compression: 9.5').chamber).toMatchObject({
      shape: 'wedge',
      plug: 'side',
      squishArea: 0.18,
    });
    expect(assumed('compression: 9.5')).toEqual([
      'chamber.shape',
      'chamber.plug',
      'chamber.squishArea',
      'chamber.squishHeight',
    ]);
  });

  it('is a pent roof with its plug in the middle above two valves', () => {
    expect(read('compression: 9.5', 4).chamber).toMatchObject({
      shape: 'pent-roof',
      plug: 'central',
      squishArea: 0.12,
    });
  });

  it('has a squish height of deck and gasket, of usual ones beside a ratio, or as stated', () => {
    expect(read(VOLUMES).chamber.squishHeight / IN).toBeCloseTo(0.051, 9);
    // A piston 0.045 in proud would touch: 0.5 mm is the least that is taken.
    expect(read(VOLUMES.replace('0.010 in', '-0.035 in')).chamber.squishHeight).toBeCloseTo(0.5e-3, 6);
    expect(read('compression: 9.5').chamber.squishHeight / IN).toBeCloseTo(0.055, 9);
    expect(read(`${VOLUMES}, squishHeight: 0.040 in`).chamber.squishHeight / IN).toBeCloseTo(0.04, 9);
    expect(assumed(`${VOLUMES}, squishHeight: 0.040 in`)).not.toContain('chamber.squishHeight');
  });

  it('asks for no height where there is no squish', () => {
    expect(assumed('compression: 9.5, shape: hemispherical')).not.toContain('chamber.squishHeight');
    expect(read('compression: 9.5, shape: hemispherical').chamber.squishArea).toBe(0);
  });

  it('gets a lower squish by a thinner gasket, and another one by another shape', () => {
    const document = readDocument(text(VOLUMES));
    const pinned = document.ok ? pinBaseline(document.value) : document;
    if (!pinned.ok) throw new Error('problems');
    const changed = (path: string, value: string) => {
      const changes = readChanges(`changes: [{ name: a change, set: { ${path}: ${value} } }]`);
      const result = changes.ok ? applyChanges(pinned.value, changes.value) : changes;
      if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join());
      return result.value.chamber;
    };
    expect(changed('chamber.gasketThickness', '0.028 in').squishHeight / IN).toBeCloseTo(0.038, 9);
    expect(changed('chamber.shape', 'bathtub')).toMatchObject({ plug: 'side', squishArea: 0.25 });
    expect(changed('chamber.plug', 'central').squishArea).toBe(0.18);
  });
});
