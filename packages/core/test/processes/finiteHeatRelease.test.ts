import { describe, expect, it } from 'vitest';
import { finiteHeatRelease, HEAT, otto, RATIO } from './finiteHeatRelease.ts';

describe('a cycle with finite heat release by Wiebe', () => {
  it('tends to the air-standard Otto efficiency of all heat at top centre as the duration shrinks', () => {
    const cycle = finiteHeatRelease(1.4, -0.005, 0.01);
    expect(cycle.work / HEAT).toBeCloseTo(otto(RATIO, 1.4), 4);
  });
});
