import { beforeAll, describe, expect, it } from 'vitest';
import { DEFAULT_MESH } from '../../packages/core/src/assembly/mesh.ts';
import { MARCH_DEFAULTS } from '../../packages/core/src/cycle/march.ts';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import type { CurveMarchOptions } from '../../packages/core/src/forecast/curveMarch.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';
import { engineFile, pointsOf } from '../physics/engines.ts';

const RPM = [2500, 4500, 6000, 7500];

const finerMesh = {
  intakeCell: DEFAULT_MESH.intakeCell / 2,
  exhaustCell: DEFAULT_MESH.exhaustCell / 2,
  fewest: 2 * (DEFAULT_MESH.fewest ?? 1),
};
const finerMarch = {
  ...MARCH_DEFAULTS,
  courant: MARCH_DEFAULTS.courant / 2,
  maxStep: MARCH_DEFAULTS.maxStep / 2,
  maxBurnStep: MARCH_DEFAULTS.maxBurnStep / 2,
};

describe('numerical settings', () => {
  let usual: readonly MarchedPoint[] = [];
  beforeAll(() => {
    usual = pointsOf(bigBlock(), RPM);
  }, 300_000);

  /** Largest change of torque that a numerical setting makes over the speeds [%]. */
  function largestMove(options: Omit<CurveMarchOptions, 'rpm'>): number {
    const moves = pointsOf(bigBlock(), RPM, options).map((p, i) => p.torqueNm / usual[i].torqueNm - 1);
    return 100 * Math.max(...moves.map(Math.abs));
  }

  it('twice the cells move torque by less than 0.7 % at every speed', () => {
    expect(largestMove({ mesh: finerMesh })).toBeLessThan(0.7);
  });

  it('half the step moves torque by less than 0.3 % at every speed', () => {
    expect(largestMove({ march: finerMarch })).toBeLessThan(0.3);
  });

  it('a single cell a duct moves it by far more: the refinement is felt', () => {
    expect(largestMove({ mesh: { intakeCell: 0, exhaustCell: 0 } })).toBeGreaterThan(3);
  });
});

describe('steps at low speed', () => {
  /** Percent that steps a quarter as long move torque by. */
  function moved(file: string, rpm: number, mesh = DEFAULT_MESH): number {
    const engine = engineFile(file);
    const march = {
      ...MARCH_DEFAULTS,
      // Short for the cylinder too, whatever the usual steps are.
      settling: 1,
      courant: MARCH_DEFAULTS.courant / 4,
      maxStep: MARCH_DEFAULTS.maxStep / 4,
      maxBurnStep: MARCH_DEFAULTS.maxBurnStep / 4,
    };
    const [usual] = pointsOf(engine, [rpm], { mesh });
    const [fine] = pointsOf(engine, [rpm], { mesh, march });
    return 100 * Math.abs(fine.torqueNm / usual.torqueNm - 1);
  }

  // Of this, the smallest file and the club racer the one that it moves most, by 0.09 %.
  it('a quarter as long move torque by less than three thousandths', () => {
    expect(moved('examples/scrambler/engine.yaml', 900)).toBeLessThan(0.3);
  });

  // Pipes of one cell let steps be long: a cylinder near top centre, both valves open, is then the fastest part by far. Usual
  // steps that took no heed of it would be off by 0.26 %.
  it('a quarter as long move it by less than a thousandth where a cylinder asks for the shortest', () => {
    expect(moved('examples/tow-truck/engine.yaml', 500, { intakeCell: 0, exhaustCell: 0 })).toBeLessThan(0.1);
  });
});
