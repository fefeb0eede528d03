import { expect, it } from 'vitest';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { engineFile } from './engines.ts';

// Its merge of 0.19 l rings with the primaries here: copies that recall the newest cycle alone swing for ever.
it('one cylinder settles for all in a small merge that rings, on the work of all', () => {
  const base = engineFile('examples/club-racer/engine.yaml');
  const engine = { ...base, burn: { ...base.burn, timing: { mode: 'ca50', angle: 8 } as const } };
  const [one, all] = (['representative', 'all'] as const).map((fidelity) =>
    createSimulation(engine, { fidelity }).runSpeed(2500),
  );
  expect(one.cycle.converged).toBe(true);
  expect(one.cycle.totals.work / all.cycle.totals.work).toBeCloseTo(1, 2);
});
