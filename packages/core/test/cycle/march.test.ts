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
