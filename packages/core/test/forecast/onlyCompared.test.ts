import { describe, expect, it } from 'vitest';
import { MARCH_COMPARED, MARCH_DEFAULTS } from '../../src/cycle/march.ts';
import { PERIODIC_COMPARED, type PeriodicCycle } from '../../src/cycle/periodic.ts';
import { createSimulation, type SimulationOptions } from '../../src/forecast/simulation.ts';
import { readExample } from '../reading/files.ts';

/** The smallest file on coarse cells, where its merge and open cylinders are what asks for short steps. */
function marched(options: Partial<SimulationOptions>): PeriodicCycle {
  const engine = readExample('minimum');
  const burn = { ...engine.burn, timing: { mode: 'ca50', angle: 9 } as const };
  const mesh = { intakeCell: 0.06, exhaustCell: 0.15 };
  const all = { fidelity: 'representative', mesh, ...options } as const;
  return createSimulation({ ...engine, burn }, all).runSpeed(4500).cycle;
}

const close = { ...PERIODIC_COMPARED, tolerance: 1e-6 };

describe('a cycle that is only compared', () => {
  it('repeats closely enough for work to stand to 0.05 %', () => {
    const cycle = marched({ march: MARCH_COMPARED, periodic: PERIODIC_COMPARED });
    const settled = marched({ march: MARCH_COMPARED, periodic: close });
    expect(cycle.cycles).toBeLessThan(settled.cycles);
    expect(Math.abs(cycle.totals.work / settled.totals.work - 1)).toBeLessThan(5e-4);
  });

  it('takes a quarter fewer steps, which move its work by less than 0.2 %', () => {
    const longer = marched({ march: MARCH_COMPARED, periodic: close });
    const usual = marched({ march: MARCH_DEFAULTS, periodic: close });
    const each = ({ steps, cycles }: PeriodicCycle): number => steps / cycles;
    expect(each(longer)).toBeLessThan(0.75 * each(usual));
    expect(Math.abs(longer.totals.work / usual.totals.work - 1)).toBeLessThan(2e-3);
  });
});
