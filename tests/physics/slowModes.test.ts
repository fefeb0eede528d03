import { describe, expect, it } from 'vitest';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
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
