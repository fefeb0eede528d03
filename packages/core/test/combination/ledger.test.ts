/** Estimates are rounded alike however the sizes they rest on were written. */
import { describe, expect, it } from 'vitest';
import { INCH } from '../../src/base/constants.ts';
import { Ledger } from '../../src/combination/ledger.ts';

function shown(value: number): number {
  return new Ledger().quantity('a', undefined, 'length', 'in', () => ({ value, spread: null, reason: '' }));
}

describe('an estimate', () => {
  it('halfway between two figures goes up, whatever the last digit of the conversion is', () => {
    // 0.42 of a bore of 5.125 in, or of 130.175 mm, is 2.1525 in: four digits say 2.153.
    const half = 2.1525 * INCH;
    const [below, above] = [half * (1 - 4e-16), half * (1 + 4e-16)];
    expect(below).toBeLessThan(above);
    expect(shown(below)).toBe(2.153 * INCH);
    expect(shown(above)).toBe(2.153 * INCH);
  });

  it('short of halfway goes down', () => expect(shown(2.15249 * INCH)).toBe(2.152 * INCH));
});
