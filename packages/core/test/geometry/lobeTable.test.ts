/** Lobes from a measured table. */

import { describe, expect, it } from 'vitest';
import { buildLobe, lobeAngleAt } from '../../src/geometry/lobe.ts';
import { lobeDuration } from './lobeMeasures.ts';
import { cosine, IN } from './lobes.ts';

describe('buildLobe(table)', () => {
  const sampled = (step: number) => {
    const exact = cosine(240, 0.39);
    const count = Math.floor(exact.half / step);
    const angle = Array.from({ length: 2 * count + 1 }, (_, i) => (i - count) * step);
    return {
      exact,
      spec: { kind: 'table' as const, angle, lift: angle.map((at) => exact.liftAt(at) * IN) },
    };
  };

  it('follows a raised cosine sampled every 2 deg within 3e-4 in', () => {
    const { exact, spec } = sampled(2);
    const lobe = buildLobe(spec);
    for (let at = -150; at <= 150; at += 0.3) {
      expect(Math.abs(lobe.liftAt(at) / IN - exact.liftAt(at))).toBeLessThan(3e-4);
    }
    expect(lobeDuration(lobe, 0.05 * IN)).toBeCloseTo(240, 2);
    expect(lobe.closingHalf).toBeCloseTo(143, 0);
  });

  it('mirrors a table that starts at the centre', () => {
    const { spec } = sampled(2);
    const middle = (spec.angle.length - 1) / 2;
    const half = buildLobe({ kind: 'table', angle: spec.angle.slice(middle), lift: spec.lift.slice(middle) });
    const whole = buildLobe(spec);
    for (const at of [-140, -77.7, -3, 0, 12.3, 99, 141])
      expect(half.liftAt(at)).toBeCloseTo(whole.liftAt(at), 12);
  });

  it('keeps a lopsided lobe lopsided and passes every entry', () => {
    const angle = [-120, -80, -40, 0, 30, 60, 90];
    const lift = [0, 0.002, 0.006, 0.008, 0.006, 0.002, 0];
    const lobe = buildLobe({ kind: 'table', angle, lift });
    angle.forEach((at, i) => {
      expect(lobe.liftAt(at)).toBeCloseTo(lift[i], 15);
    });
    expect(lobe.openingHalf).toBe(120);
    expect(lobe.closingHalf).toBe(90);
    expect(lobeAngleAt(lobe, 0.002, 'opening')).toBeCloseTo(-80, 6);
    expect(lobeAngleAt(lobe, 0.002, 'closing')).toBeCloseTo(60, 6);
    expect(lobeAngleAt(lobe, 0.009, 'closing')).toBeNull();
  });

  it('refuses a table that ends far above the seat or has no other side', () => {
    const short = {
      kind: 'table' as const,
      angle: [-40, -20, 0, 20, 40],
      lift: [0.004, 0.006, 0.008, 0.006, 0.004],
    };
    expect(() => buildLobe(short)).toThrow('lift must be near zero at both ends of the table, got 0.004');
    expect(() => buildLobe({ ...short, lift: [0, 0.1, Number.NaN, 0.1, 0] })).toThrow(
      'lift[2] must be zero or positive',
    );
    expect(() => buildLobe({ kind: 'table', angle: [10, 20, 30, 40, 50], lift: [0, 1, 2, 1, 0] })).toThrow(
      'angle must be on both sides of the centre of the lobe, 0',
    );
  });
});
