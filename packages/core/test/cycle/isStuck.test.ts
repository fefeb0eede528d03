import { describe, expect, it } from 'vitest';
import { isStuck } from '../../src/cycle/isStuck.ts';

/** Changes from cycle to cycle that shrink by a factor each. */
const shrinking = (factor: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => 1e-2 * factor ** i);

describe('isStuck(worsts, patience)', () => {
  it('is so where eight cycles did not halve what is left', () => {
    // 0.9 to the eighth power is 0.43, 0.93 is 0.56.
    expect(isStuck(shrinking(0.9, 22), 6)).toBe(false);
    expect(isStuck(shrinking(0.93, 22), 6)).toBe(true);
  });

  it('is so where copies swing, however small the last change of all', () => {
    const swinging = Array.from({ length: 30 }, (_, i) => (i % 2 === 0 ? 1e-3 : 1e-6));
    expect(isStuck(swinging, 6)).toBe(true);
  });

  it('is not said before sixteen cycles are past the first ones', () => {
    expect(isStuck(shrinking(1, 21), 6)).toBe(false);
    expect(isStuck(shrinking(1, 22), 6)).toBe(true);
    expect(isStuck(shrinking(1, 22), 7)).toBe(false);
  });

  it('looks at no change before the last sixteen', () => {
    expect(isStuck([...shrinking(1, 10), ...shrinking(0.8, 16)], 6)).toBe(false);
  });
});
