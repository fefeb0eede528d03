import { describe, expect, it } from 'vitest';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';
import { pointsOf } from '../physics/engines.ts';

/** Well below, below and above the torque peak. */
const RPM = [2500, 4500, 7000];

describe('one cylinder that stands for all', () => {
  it.each([1, 2.5, 8, 50])('agrees with all cylinders marching on a shared plenum of %d litres', (litres) => {
    const { induction } = bigBlock();
    const plenums = induction.plenums.map((p) => ({ ...p, volume: litres * 1e-3 }));
    const engine = bigBlock({ induction: { ...induction, plenums } });
    const all = pointsOf(engine, RPM, { fidelity: 'all' });
    pointsOf(engine, RPM).forEach((point, i) => {
      expect([point.status, all[i].status], `${point.rpm}`).toEqual(['settled', 'settled']);
      expect(Math.abs(point.torqueNm / all[i].torqueNm - 1), `${point.rpm}`).toBeLessThan(0.01);
      expect(point.volumetricEfficiency).toBeCloseTo(all[i].volumetricEfficiency, 2);
    });
  });
});
