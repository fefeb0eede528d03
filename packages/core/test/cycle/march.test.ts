import { describe, expect, it } from 'vitest';
import { MARCH_DEFAULTS, type March, marchDegrees } from '../../src/cycle/march.ts';
import { layGrid } from '../../src/cycle/stepGrid.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { renewCopies } from '../../src/network/copiedEnds.ts';
import { CYL } from '../../src/network/cylinder.ts';
import { stiffness } from '../../src/network/network.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { runReference } from './referenceRun.ts';

/** A race engine of still gas, ready for its first cycle. */
function still(rpm: number): March {
  const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(rpm);
  layGrid(march);
  renewCopies(march.network, march.y);
  return march;
}

describe('marchDegrees', () => {
  it('stays a gas where fifty atmospheres are let into pipes of still air', () => {
    const march = still(5000);
    const { network, y } = march;
    for (const { offset } of network.cylinders) {
      y[offset + CYL.mass] *= 50;
      y[offset + CYL.energy] *= 50;
      y[offset + CYL.burned] *= 50;
    }
    marchDegrees(march, 0, 720);
    expect(y.every(Number.isFinite)).toBe(true);
    for (const { rho, p } of network.ducts) expect(Math.min(...rho, ...p)).toBeGreaterThan(0);
  });

  it('ends at once where a step is lost, with a state that is no number', () => {
    const march = still(5000);
    const [duct] = march.network.ducts;
    march.y[duct.offset] *= -1; // a cell with less than nothing in it
    let steps = 0;
    marchDegrees(march, 0, 720, () => {
      steps++;
    });
    expect(march.y.every(Number.isNaN)).toBe(true);
    expect(steps).toBe(0);
  });

  it('takes no longer steps than asked for while a cylinder burns, and longer ones else', () => {
    const march = createSimulation(bigBlock(), {
      fidelity: 'representative',
      mesh: { intakeCell: 0, exhaustCell: 0 },
      march: { ...MARCH_DEFAULTS, maxBurnStep: 0.5 },
    }).startSpeed(7000).march;
    layGrid(march);
    renewCopies(march.network, march.y);
    const [cylinder] = march.network.cylinders;
    const longest = { burning: 0, else: 0 };
    let [before, burning] = [0, cylinder.burning];
    marchDegrees(march, 0, 720, (theta) => {
      const phase = burning ? 'burning' : 'else';
      longest[phase] = Math.max(longest[phase], theta - before);
      [before, burning] = [theta, cylinder.burning];
    });
    expect(longest.burning).toBeCloseTo(0.5, 9);
    expect(longest.else).toBeGreaterThan(0.6);
  });

  it.each([2000, 3000, 5000])('repeats a cycle of one cylinder with strong waves, at %i rpm', (speed) => {
    expect(Math.abs(runReference(speed).drift)).toBeLessThan(1e-6);
  });

  it.each([2500, 5000, 7500])('keeps its steps short of where waves in ducts grow, at %i rpm', (speed) => {
    const march = still(speed);
    marchDegrees(march, 0, 720);
    layGrid(march);
    let most = 0;
    marchDegrees(march, 0, 720, (_theta, h) => {
      most = Math.max(most, h * stiffness(march.network));
    });
    expect(most).toBeGreaterThan(1);
    expect(most).toBeLessThan(2.7);
  });
});

describe('layGrid(march)', () => {
  // Copies hand on what chatters: they get 0.92 of a step.
  it.each([
    ['all', 6, 5],
    ['representative', 7, 6],
  ] as const)(
    'cuts each stretch of 15 degrees into equal steps as long as the fastest rate met there allows: %s',
    (fidelity, first, last) => {
      const { march } = createSimulation(bigBlock(), { fidelity }).startSpeed(5000);
      const { grid, network, options } = march;
      const limit = options.courant * network.degreesPerSecond;
      // Met in steps of 10 deg: the second one, from 10 to 20, reaches into two stretches.
      grid.edges = Float64Array.from({ length: 73 }, (_, k) => 10 * k);
      grid.rates = new Float64Array(72);
      grid.rates[1] = limit / 2.5;
      grid.rates[71] = limit / 3;
      layGrid(march);
      const counts = Array.from(
        { length: 48 },
        (_, i) => grid.edges.filter((edge) => edge > 15 * i + 1e-6 && edge < 15 * i + 15 + 1e-6).length,
      );
      const usual = Math.ceil(15 / options.maxStep);
      expect(counts).toEqual([first, first, ...Array.from({ length: 45 }, () => usual), last]);
      expect([grid.edges[0], grid.edges[1], grid.edges[grid.edges.length - 1]]).toEqual([0, 15 / first, 720]);
    },
  );
});
