import { describe, expect, it } from 'vitest';
import type { PeriodicCycle } from '../../packages/core/src/cycle/periodic.ts';
import { createSimulation, type SimulationOptions } from '../../packages/core/src/forecast/simulation.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { engineFile, pointsOf } from './engines.ts';

describe('slow modes', () => {
  // Its muffler's box keeps 0.72 of what it is off by from cycle to cycle: ln(5e-5) / ln(0.72) is 30 cycles.
  it('of a box behind one cylinder are worked out, not waited for, and lead to the same cycle', () => {
    const engine = engineFile('examples/scrambler/engine.yaml');
    const { cycle } = createSimulation(engine, { fidelity: 'all' }).runSpeed(5000);
    expect(cycle.converged).toBe(true);
    expect(cycle.cycles).toBeLessThanOrEqual(16);
    const waited = createSimulation(engine, {
      fidelity: 'all',
      periodic: { maxCycles: 100, tolerance: 1e-7 },
    }).runSpeed(5000).cycle;
    expect(waited.converged).toBe(true);
    expect(Math.abs(cycle.totals.work / waited.totals.work - 1)).toBeLessThan(2e-5);
  });

  // Under a carburetor whose gas swings above the plenum: what copies recall keeps half of what it is off by from cycle to cycle.
  it('of copies that ring in a plenum are worked out with what the copies recall', () => {
    const base = engineFile('examples/hill-climb/engine.yaml');
    const engine = { ...base, burn: { ...base.burn, timing: { mode: 'ca50', angle: 12 } as const } };
    const of = (options: Partial<SimulationOptions>): PeriodicCycle =>
      createSimulation(engine, { fidelity: 'representative', ...options }).runSpeed(8000).cycle;
    const cycle = of({});
    expect(cycle.converged).toBe(true);
    const waited = of({
      periodic: { maxCycles: 100, tolerance: 1e-6, stepTolerance: Number.POSITIVE_INFINITY },
    });
    // Its balance closes no closer than copies are cut into steps; what is left of the ringing is a tenth of what is asked below.
    expect(waited.change).toBeLessThan(1e-6);
    expect(cycle.cycles).toBeLessThanOrEqual(20);
    expect(Math.abs(cycle.totals.closedWork / waited.totals.closedWork - 1)).toBeLessThan(1e-5);
  });

  // Copies of one cylinder would wait for it, each cycle closing 7 % of what is left: 130 cycles.
  it('of thirty litres behind a small throttle are left to every cylinder marching', () => {
    const read = readCombination(`
engine: { bore: 105 mm, stroke: 150 mm, cylinders: 2 }
chamber: { compression: 7.5 }
heads: { valvesPerCylinder: 2 }
induction: { throttle: { diameter: 50 mm }, plenum: 30 l }
correction: none
`);
    if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
    const [point] = pointsOf(read.value, [900]);
    expect(point.status).toBe('settled');
    expect(point.cycles).toBeLessThan(30);
  });
});
