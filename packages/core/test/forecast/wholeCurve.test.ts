import { describe, expect, it } from 'vitest';
import { MARCH_DEFAULTS } from '../../src/cycle/march.ts';
import type { Curve } from '../../src/forecast/curve.ts';
import { marchedCurve } from '../../src/forecast/curveMarch.ts';
import { leftOutOf, marchedPoints, wholeCurve } from '../../src/forecast/wholeCurve.ts';
import { readExample } from '../reading/files.ts';

/** Steps a thousand times too long: no attempt with shorter ones can save such a march. */
function lostCurve(): Curve {
  const march = { ...MARCH_DEFAULTS, courant: 1000 * MARCH_DEFAULTS.courant, maxStep: 60 };
  return marchedCurve(readExample('minimum'), { rpm: [4000, 6000], march, fidelity: 'all' });
}

describe('a march that loses itself whatever its steps', () => {
  it('is a point that says so and has no figures, and never an error', () => {
    const curve = lostCurve();
    for (const point of curve.points) {
      expect(Object.keys(point).sort()).toEqual([
        'code',
        'cycles',
        'inletMachIndex',
        'meanPistonSpeedMs',
        'reason',
        'rpm',
        'status',
      ]);
      expect(point).toMatchObject({
        status: 'lost',
        code: 'lost',
        reason: expect.stringContaining('too fast to follow'),
      });
      expect(point.cycles).toBeGreaterThan(0);
      expect(point.meanPistonSpeedMs).toBeGreaterThan(0);
    }
    expect(curve.peak).toBe(null);
    expect(JSON.parse(JSON.stringify(curve))).toEqual(curve);
  });

  it('makes of its curve no whole one, and is left out by name', () => {
    const curve = lostCurve();
    expect(wholeCurve(curve)).toBe(null);
    expect(marchedPoints(curve)).toEqual([]);
    expect(leftOutOf('this engine', curve).map(({ curve: name, rpm }) => [name, rpm])).toEqual([
      ['this engine', 4000],
      ['this engine', 6000],
    ]);
    expect(leftOutOf('none', null)).toEqual([]);
  });

  it('is named in a warning with its speeds', () => {
    const { warnings } = lostCurve();
    const [lost] = warnings.filter(({ code }) => code === 'lost');
    expect(lost.message).toBe(
      'no figures at 4000, 6000 rpm: the gas moved too fast to follow, however short the steps',
    );
    expect(warnings.some(({ code }) => code === 'not-converged')).toBe(false);
  });
});
