/** The compiled stage of ducts against the plain one. */
import { describe, expect, it } from 'vitest';
import { marchDegrees } from '../../src/cycle/march.ts';
import { layGrid } from '../../src/cycle/stepGrid.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { renewCopies } from '../../src/network/copiedEnds.ts';
import { balanceDuct, decodeDuct, ductGroup } from '../../src/network/duct.ts';
import { decode, ratesOfDecoded } from '../../src/network/network.ts';
import { bigBlock } from '../support/bigBlock.ts';

describe('the kernel of ducts', () => {
  it('decodes and balances to the same bits as the plain functions, over a cycle of an engine', () => {
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(5000);
    const { network, y, stepper } = march;
    const [rates] = stepper.stages;
    expect(y.buffer).toBe(network.ducts[0].block.buffer);
    layGrid(march);
    renewCopies(network, y);
    for (let theta = 0; theta < 720; theta += 60) {
      marchDegrees(march, theta, 60);
      decode(network, theta + 60, y);
      ratesOfDecoded(network, y, rates);
      const columns = network.ducts.map(({ block }) => block.slice());
      const plain = new Float64Array(network.size);
      for (const group of network.connections) group.addRates?.(y, plain);
      for (const duct of network.ducts) {
        decodeDuct(duct, y);
        balanceDuct(duct, plain);
        for (const name of ['rho', 'u', 'p', 'T', 'b', 'R', 'cv', 'c', 'e', 'eBurn', 'slope'] as const)
          expect(duct[name]).toEqual(
            columns[network.ducts.indexOf(duct)].subarray(
              (duct[name].byteOffset - duct.block.byteOffset) / 8,
              (duct[name].byteOffset - duct.block.byteOffset) / 8 + duct[name].length,
            ),
          );
        const { offset, cells } = duct;
        const here = (d: Float64Array) => d.slice(offset, offset + 4 * cells + 1);
        expect(here(rates)).toEqual(here(plain));
      }
    }
  });

  it('leaves a state that stands elsewhere to the plain functions', () => {
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(3000);
    const { network, y } = march;
    const group = ductGroup(network.ducts);
    group.decode?.(y);
    const first = network.ducts.map(({ p }) => p.slice());
    decode(network, 0, y.slice());
    network.ducts.forEach(({ p }, i) => {
      expect(p).toEqual(first[i]);
    });
  });
});
