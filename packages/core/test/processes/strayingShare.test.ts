import { describe, expect, it } from 'vitest';
import { strayingShare } from '../../src/processes/strayingShare.ts';

describe('drops in air that turns and mixes', () => {
  // Stokes, by hand: 750 x (50e-6)^2 / (18 x 1.822e-5) = 5.717 ms.
  it('of 50 um stray by half where the air mixes in 5.7 ms', () => {
    expect(strayingShare(50e-6, 5.717e-3)).toBeCloseTo(0.5, 3);
  });

  it("go along where they are fine or the air has time, and don't where they are coarse", () => {
    expect(strayingShare(5e-6, 5.7e-3)).toBeLessThan(0.01);
    expect(strayingShare(50e-6, 0.57)).toBeLessThan(0.01);
    expect(strayingShare(500e-6, 5.7e-3)).toBeGreaterThan(0.99);
  });
});
