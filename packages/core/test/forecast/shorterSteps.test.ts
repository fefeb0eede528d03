/** A march whose steps were too long is begun anew in shorter ones, three times at most. */
import { describe, expect, it } from 'vitest';
import { MARCH_DEFAULTS } from '../../src/cycle/march.ts';
import type { OperatingPoint } from '../../src/forecast/curve.ts';
import { marchedCurve } from '../../src/forecast/curveMarch.ts';
import { readExample } from '../reading/files.ts';

/** The scrambler at one speed, in steps of so many times what waves take to cross a cell. */
function at(courant: number): OperatingPoint {
  const engine = readExample('scrambler');
  const burn = { ...engine.burn, timing: { mode: 'ca50', angle: 9 } as const };
  const march = { ...MARCH_DEFAULTS, courant };
  const [point] = marchedCurve({ ...engine, burn }, { rpm: [6000], march, onlyCompared: true }).points;
  return point;
}

describe('a march in steps that waves outrun', () => {
  it.each([8, 18])('of %d cells is found again in shorter ones, with the torque of usual ones', (courant) => {
    const usual = at(MARCH_DEFAULTS.courant);
    const found = at(courant);
    if (usual.status === 'lost' || found.status === 'lost') throw new Error('lost');
    expect(found.status).toBe('settled');
    expect(Math.abs(found.torqueNm / usual.torqueNm - 1)).toBeLessThan(0.005);
  });

  it('is lost, and says so, where an eighth is too long as well', () => {
    expect(at(400)).toMatchObject({
      status: 'lost',
      code: 'lost',
      reason: 'the gas moved too fast to follow, even in steps an eighth as long',
    });
  });
});
