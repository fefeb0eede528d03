import { describe, expect, it } from 'vitest';
import { portLift } from '../../packages/core/src/combination/portValve.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';
import { pointsOf } from './engines.ts';

describe('how the engine breathes', () => {
  // NACA TR 46 (1919): indicated power is proportional to the density of the air at fixed temperature. Wall heat, which
  // falls a little slower than density, is why the slope comes out about 0.015 above one.
  it('indicated power goes with the density of the outside air at fixed temperature', () => {
    const base = bigBlock();
    const burn = { ...base.burn, timing: { mode: 'ca50', angle: 8 } as const, duration: 30 };
    const [thin, dense] = [80e3, 100e3].map((p) => {
      const weather = { ...base.weather, pressure: p };
      const [point] = pointsOf(bigBlock({ burn, weather, correction: 'none' }), [6000]);
      return point.imepBar * point.rpm;
    });
    const slope = Math.log(dense / thin) / Math.log(100 / 80);
    expect(Math.abs(slope - 1)).toBeLessThan(0.03);
  });

  // No quasi-steady valve passes more than its choked flow from outside stagnation air for as long as it is open:
  // VE <= (2/2.4)^3 / Z x open degrees / 180 = 0.5787 / Z x open / 180 at a ratio of specific heats of 1.4, where Z is
  // the mean inlet Mach index with the effective area averaged over the open period.
  it('volumetric efficiency stays under choked flow through the open valve', () => {
    const engine = bigBlock();
    const lift = portLift(engine.intake, 'intake', engine.friction.valvetrain);
    const open = lift.closes - lift.opens;
    for (const point of pointsOf(engine, [6000, 11_000])) {
      const bound = ((0.5787 / point.inletMachIndex) * open) / 180;
      expect(point.volumetricEfficiency, `${point.rpm}`).toBeLessThan(bound);
    }
  });

  // Volumetric efficiency falls sharply above an inlet Mach index of about 0.5 (JSME Mechanical Engineering Dictionary).
  it('volumetric efficiency falls beyond an inlet Mach index of 0.6, ever faster', () => {
    const points = pointsOf(bigBlock(), [6000, 7000, 8000, 9000]);
    const [near, past, far, farther] = points;
    expect(near.inletMachIndex).toBeGreaterThan(0.5);
    expect(near.inletMachIndex).toBeLessThan(0.6);
    expect(farther.inletMachIndex).toBeGreaterThan(0.8);
    expect(far.volumetricEfficiency).toBeLessThan(past.volumetricEfficiency - 0.03);
    expect(farther.volumetricEfficiency).toBeLessThan(far.volumetricEfficiency - 0.05);
    expect(farther.volumetricEfficiency).toBeLessThan(0.9 * near.volumetricEfficiency);
    expect(farther.powerKw).toBeLessThan(far.powerKw);
  });
});
