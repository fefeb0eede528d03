import { describe, expect, it } from 'vitest';
import { SPECIES_NAMES, species } from '../../src/gas/species.ts';

describe('species(name)', () => {
  it.each([
    ['N2', 28.014],
    ['Ar', 39.95],
    ['iC8H18', 114.232],
    ['C2H5OH', 46.069],
  ])('%s weighs %d g/mol', (name, grams) => expect(species(name).molarMass * 1000).toBeCloseTo(grams, 3));

  it('has every name once', () => expect(new Set(SPECIES_NAMES).size).toBe(SPECIES_NAMES.length));

  it('joins every polynomial at 1000 K, as mixtures need', () => {
    for (const name of SPECIES_NAMES) expect(species(name).tMid).toBe(1000);
  });

  it('names what it knows when asked for something else', () =>
    expect(() => species('xenon')).toThrow('species must be one of N2, O2, Ar'));
});
