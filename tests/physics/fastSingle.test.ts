import { describe, expect, it } from 'vitest';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { pointsOf } from './engines.ts';

/** Nothing but sizes, compression and the speed it is rated at. */
const SINGLE = `
engine: { bore: 88 mm, stroke: 66 mm, cylinders: 1, ratedSpeed: 8500 rpm }
chamber: { compression: 11.8 }
heads: { valvesPerCylinder: 4 }
`;

describe('a single of which little more than its rated speed is known', () => {
  const read = readCombination(SINGLE);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  const engine = read.value;

  it('draws through a runner of its own, with a throttle as wide as that and no plenum', () => {
    expect(engine.induction.plenums).toEqual([]);
    const { entryArea, exitArea } = engine.induction.runner;
    const { stacks } = engine.induction;
    expect(0.85 * (stacks?.bore ?? 0)).toBeGreaterThan(0.8 * exitArea);
    expect(0.85 * (stacks?.bore ?? 0)).toBeLessThan(entryArea);
  });

  it('keeps a plenum that the file states', () => {
    const stated = readCombination(`${SINGLE}induction: { plenum: 1.2 l }\n`);
    expect(stated.ok && stated.value.induction.plenums.map(({ volume }) => volume)).toEqual([1.2e-3]);
  });

  it('makes its power near that speed: as much there as well below, where pipes of a car would have it fall', () => {
    const [below, rated, beyond] = pointsOf(engine, [6500, 8500, 11_000]);
    expect(rated.powerKw).toBeGreaterThan(1.05 * below.powerKw);
    expect(beyond.powerKw).toBeLessThan(rated.powerKw);
  });
});
