import { describe, expect, it } from 'vitest';
import { MARCH_DEFAULTS } from '../../src/cycle/march.ts';
import type { Curve } from '../../src/forecast/curve.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { isWhole } from '../../src/forecast/lostPoint.ts';
import { readExample } from '../reading/files.ts';

/** Steps a thousand times too long: no attempt with shorter ones can save such a march. */
function lostCurve(): Curve {
  const march = { ...MARCH_DEFAULTS, courant: 1000 * MARCH_DEFAULTS.courant, maxStep: 60 };
  return forecast(readExample('minimum'), { rpm: [4000, 6000], march, fidelity: 'all' });
}

describe('a march that loses itself whatever its steps', () => {
  it('is a point that says so, in numbers all, and never an error', () => {
    const curve = lostCurve();
    expect(curve.points.map(({ rpm, lost, converged }) => ({ rpm, lost, converged }))).toEqual([
      { rpm: 4000, lost: true, converged: false },
      { rpm: 6000, lost: true, converged: false },
    ]);
    for (const point of curve.points)
      for (const [key, value] of Object.entries(point))
        expect(typeof value === 'number' ? Number.isFinite(value) : true, key).toBe(true);
    expect(JSON.parse(JSON.stringify(curve))).toEqual(curve);
    expect(isWhole(curve)).toBe(false);
    expect(curve.points[0].cycles).toBeGreaterThan(0);
  });

  it('is named in a warning with its speeds', () => {
    const { warnings } = lostCurve();
    const [lost] = warnings.filter(({ code }) => code === 'lost');
    expect(lost.message).toBe('the march lost itself at 4000, 6000 rpm: there are no figures there');
    expect(warnings.some(({ code }) => code === 'not-converged')).toBe(false);
  });
});
