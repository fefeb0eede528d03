import { describe, expect, it } from 'vitest';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { renewCopies } from '../../src/network/copiedEnds.ts';
import { fillCylinder } from '../../src/network/cylinder.ts';
import { rates } from '../../src/network/network.ts';
import { TOTAL } from '../../src/network/openEnd.ts';
import { bigBlock } from '../support/bigBlock.ts';

/** Flow out of the runner at a valve hardly open [kg/s], cylinder gas at a pressure [Pa]. */
function throughIntakeValve(pressure: number, reverseRatio: number): number {
  const base = bigBlock();
  const { intake } = base;
  const engine = { ...base, intake: { ...intake, flow: { ...intake.flow, reverseRatio } } };
  const simulation = createSimulation(engine, { fidelity: 'representative' });
  const { march } = simulation.startSpeed(3000);
  const { engine: assembled } = simulation;
  const { network, y } = march;
  renewCopies(network, y);
  const [cylinder] = network.cylinders;
  const opened = cylinder.firingAngle + assembled.intakeValve.opens + 12;
  fillCylinder(cylinder, y, opened, pressure, 400, 0);
  const d = new Float64Array(network.size);
  rates(network, opened / network.degreesPerSecond, y, d);
  return d[network.ends[assembled.intakeEnds[0]].offset + TOTAL.mass];
}

describe('a valve that gas passes the wrong way', () => {
  it('passes as much less as the flow curve says', () => {
    const full = throughIntakeValve(2e5, 1);
    expect(full).toBeLessThan(-1e-3);
    // Of the sheet's flow half; the valve's own area is a little less, since less flow gains less from the widening port.
    expect(throughIntakeValve(2e5, 0.5) / full).toBeCloseTo(0.5, 1.5);
  });

  it('is not asked the usual way', () => {
    const usual = throughIntakeValve(0.5e5, 1);
    expect(usual).toBeGreaterThan(1e-3);
    expect(throughIntakeValve(0.5e5, 0.5)).toBe(usual);
  });
});
