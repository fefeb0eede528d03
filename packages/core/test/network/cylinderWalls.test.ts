import { describe, expect, it } from 'vitest';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { CYL } from '../../src/network/cylinder.ts';
import { balanceCylinder } from '../../src/network/cylinderBalance.ts';
import { bigBlock } from '../support/bigBlock.ts';

/** Wall heat [W] with a share of the charge burned, zones as hot as given [K]. */
function wallHeat(x: number, burned: number, unburned: number): number {
  const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(5000);
  const [cylinder] = march.network.cylinders;
  Object.assign(cylinder, { burning: true, firing: false, residual: 0.05 });
  cylinder.side.fill(1);
  cylinder.side.set([4e6, 1800, 287, 1.3]);
  Object.assign(cylinder.now, { angle: 5, V: 1.2e-4, dV: 0, x, Tb: burned, Tu: unburned, T: 1800 });
  const d = new Float64Array(march.network.size);
  balanceCylinder(cylinder, march.y, d);
  return d[cylinder.offset + CYL.heat];
}

describe('the walls of a cylinder while it burns', () => {
  // Linear in both zones' temperatures: a kelvin of either tells the share of the walls that it touches.
  const burnedShare = (x: number): number => {
    const perBurned = wallHeat(x, 2501, 800) - wallHeat(x, 2500, 800);
    const perUnburned = wallHeat(x, 2500, 801) - wallHeat(x, 2500, 800);
    return perBurned / (perBurned + perUnburned);
  };

  // Ferguson (1986), ch. 4 (from memory): the burned gas is the lighter and touches more than its share of the mass.
  it.each([
    [0.04, 0.2],
    [0.25, 0.5],
    [0.81, 0.9],
  ])('are touched by burned gas, a share %f of the mass, over a share %f', (x, share) => {
    expect(burnedShare(x)).toBeCloseTo(share, 6);
  });
});

describe('the gas ahead of the flame', () => {
  it('uses up its delay as long as enough of it is left, and then no more', () => {
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(5000);
    const [cylinder] = march.network.cylinders;
    Object.assign(cylinder, { burning: false, firing: false });
    cylinder.side.set([10 * 101_325, 760, 287, 1.3]);
    Object.assign(cylinder.now, { V: 1.2e-4, dV: 0, T: 760, Tu: 760, m: 1e-3, x: 0 });
    const usedUp = (endGas: boolean): number => {
      cylinder.endGas = endGas;
      const d = new Float64Array(march.network.size);
      balanceCylinder(cylinder, march.y, d);
      return d[cylinder.offset + CYL.knock];
    };
    // The delay of an octane number of 100 at 10 atm and 760 K: 17.68 ms 10^-1.7 e^5 = 52.3546 ms.
    expect(usedUp(true)).toBeCloseTo(1 / 52.3546e-3, 3);
    expect(usedUp(false)).toBe(0);
  });
});

describe('the walls of an assembled cylinder', () => {
  it('are a roof of 1.2 times the bore area, and a tenth of it that stays uncovered at top centre', () => {
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(5000);
    const [{ walls, pistonArea }] = march.network.cylinders;
    // A bore of 4.5 in.
    expect(pistonArea).toBeCloseTo(0.010261, 6);
    expect(walls.headRatio).toBeCloseTo(1.2, 12);
    expect(walls.clearanceWall).toBeCloseTo(0.0010261, 7);
  });
});
