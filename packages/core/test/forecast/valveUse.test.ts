import { describe, expect, it } from 'vitest';
import { inspectCombination } from '../../src/forecast/inspection.ts';
import { valveUse } from '../../src/forecast/valveUse.ts';
import { bigBlock } from '../support/bigBlock.ts';

describe('valveUse(combination)', () => {
  it('puts the lift of the card on its centreline, less lash and bending', () => {
    const { angleDeg, intake, exhaust } = valveUse(bigBlock());
    expect(intake.peakLiftMm / 25.4).toBeCloseTo(0.42 * 1.7 - 0.018 - 0.01, 6);
    expect(angleDeg[intake.liftMm.indexOf(Math.max(...intake.liftMm))]).toBe(360 + 108);
    expect(angleDeg[exhaust.liftMm.indexOf(Math.max(...exhaust.liftMm))]).toBe(360 - 116);
  });

  it('counts every crank degree off the seat once', () => {
    for (const side of [valveUse(bigBlock()).intake, valveUse(bigBlock()).exhaust]) {
      const open = side.dwell.reduce((sum, { crankDeg }) => sum + crankDeg, 0);
      const seen = side.liftMm.filter((lift) => lift > 0).length * 2;
      expect(Math.abs(open - seen)).toBeLessThanOrEqual(4);
      // The nose of a lobe is flat: more degrees in the highest tenth than in any other.
      expect(Math.max(...side.dwell.map(({ crankDeg }) => crankDeg))).toBe(side.dwell[9].crankDeg);
    }
  });

  it('gives at peak lift the flow that an inspection states', () => {
    const combination = bigBlock();
    const { intake } = valveUse(combination);
    const { intakeCfm28 } = inspectCombination(combination).flow;
    const after = intake.flow.findIndex(({ liftMm }) => liftMm >= intake.peakLiftMm - 1e-9);
    const [a, b] = [intake.flow[after - 1], intake.flow[after]];
    expect(intakeCfm28).toBeGreaterThanOrEqual(Math.min(a.cfm28, b.cfm28) - 1e-6);
    expect(intakeCfm28).toBeLessThanOrEqual(Math.max(a.cfm28, b.cfm28) + 1e-6);
  });

  it('has the piston at its top at both top centres and a stroke below at bottom centre', () => {
    const { angleDeg, pistonDropMm } = valveUse(bigBlock());
    expect(pistonDropMm[angleDeg.indexOf(360)]).toBeCloseTo(0, 9);
    expect(pistonDropMm[angleDeg.indexOf(180)] / 25.4).toBeCloseTo(4.25, 9);
  });
});
