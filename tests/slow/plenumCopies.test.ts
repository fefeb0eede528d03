import { describe, expect, it } from 'vitest';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';
import { pointsOf } from '../physics/engines.ts';

describe('one cylinder that stands for all', () => {
  // Below 2 litres copied flows would diverge by themselves: the smallest plenum is seen well below, below and above the torque peak.
  it.each([
    [1, [2500, 4500, 7000]],
    [2.5, [4500]],
    [50, [2500]],
  ])('agrees with all cylinders marching on a shared plenum of %d litres', (litres, rpm) => {
    const { induction } = bigBlock();
    const plenums = induction.plenums.map((p) => ({ ...p, volume: litres * 1e-3 }));
    const engine = bigBlock({ induction: { ...induction, plenums } });
    const all = pointsOf(engine, rpm, { fidelity: 'all' });
    const one = wholeForecast(engine, { rpm });
    // Where copies don't settle all cylinders march in their place, and would agree with themselves.
    expect(one.warnings.map(({ code }) => code)).not.toContain('every-cylinder-marched');
    one.points.forEach((point, i) => {
      expect([point.status, all[i].status], `${point.rpm}`).toEqual(['settled', 'settled']);
      expect(Math.abs(point.torqueNm / all[i].torqueNm - 1), `${point.rpm}`).toBeLessThan(0.01);
      expect(point.volumetricEfficiency).toBeCloseTo(all[i].volumetricEfficiency, 2);
    });
  });
});
