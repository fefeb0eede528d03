/** Rates that depend on time and state alone, whatever was worked out before. */
import { describe, expect, it } from 'vitest';
import { marchDegrees } from '../../src/cycle/march.ts';
import { layGrid } from '../../src/cycle/stepGrid.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { renewCopies } from '../../src/network/copiedEnds.ts';
import { keepStarts, rates } from '../../src/network/network.ts';
import { bigBlock } from '../support/bigBlock.ts';

describe('rates(network, t, y, d)', () => {
  // Every 40 deg of a cycle: somewhere each valve stands open and each cylinder burns.
  it.each(['representative', 'all'] as const)(
    'are the same bits with another state between, %s',
    (fidelity) => {
      const { march } = createSimulation(bigBlock(), { fidelity }).startSpeed(5000);
      const { network, y } = march;
      layGrid(march);
      renewCopies(network, y);
      marchDegrees(march, 0, 720);
      const first = new Float64Array(network.size);
      const again = new Float64Array(network.size);
      let burned = 0;
      for (let theta = 0; theta < 720; theta += 40) {
        marchDegrees(march, 720 + theta, 40);
        const t = (760 + theta) / network.degreesPerSecond;
        rates(network, t, y, first);
        burned += network.cylinders.filter((c) => c.now.x > 0).length;
        // Everything two thousandths denser, and an instant later.
        rates(
          network,
          t + 1e-5,
          y.map((v) => 1.002 * v),
          again,
        );
        rates(network, t, y, again);
        expect(again).toEqual(first);
      }
      expect(burned).toBeGreaterThan(2);
    },
  );

  it('move by no more than the searches leave open once these start elsewhere', () => {
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(5000);
    const { network, y } = march;
    layGrid(march);
    renewCopies(network, y);
    marchDegrees(march, 0, 500);
    const t = 500 / network.degreesPerSecond;
    const first = new Float64Array(network.size);
    const again = new Float64Array(network.size);
    rates(network, t, y, first);
    keepStarts(network);
    rates(network, t, y, again);
    const scale = Math.max(...first.map(Math.abs));
    for (const [i, value] of first.entries()) expect(Math.abs(again[i] - value) / scale).toBeLessThan(1e-5);
  });
});
