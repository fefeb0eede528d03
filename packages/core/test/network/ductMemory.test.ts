/** The compiled stage of ducts against the plain one. */
import { describe, expect, it } from 'vitest';
import { marchDegrees } from '../../src/cycle/march.ts';
import { layGrid } from '../../src/cycle/stepGrid.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { renewCopies } from '../../src/network/copiedEnds.ts';
import { balanceDuct, decodeDuct, ductGroup, fillDuct } from '../../src/network/duct.ts';
import { BLOCK_HEAD, ductMemory } from '../../src/network/ductMemory.ts';
import { createNetwork, decode, ratesOfDecoded } from '../../src/network/network.ts';
import { plainSums, WEIGHT } from '../../src/numerics/rungeKutta.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { ductSpec } from './networks.ts';

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

  it.each([1, 2, 3, 4, 5])(
    'decodes and balances %i cells of a hot, half burned stream to the same bits',
    (cells) => {
      const network = createNetwork({
        tables: createSimulation(bigBlock(), { fidelity: 'representative' }).tables,
        ducts: [
          {
            ...ductSpec(0.1, [1.2e-3, 0.8e-3], cells),
            fanning: 0.006,
            wallTemperature: 400,
            heatMultiplier: 1,
          },
        ],
      });
      const [duct] = network.ducts;
      const { offset: o } = duct;
      const y = network.space.vector();
      const compiled = network.space.vector();
      fillDuct(duct, y, 2e5, 900, 0.3);
      for (let i = 0; i < cells; i++) {
        y[o + i] *= 1 + 0.1 * i;
        y[o + cells + i] = (150 - 90 * i) * y[o + i];
        y[o + 3 * cells + i] = [0.3, -1e-9, 1.2, 0.9, 0][i] * y[o + i];
      }
      duct.left.set([0.1, 900, 5e4, 0.02]);
      duct.right.set([0.2, 400, 9e4, 0.05]);
      const group = ductGroup(network.ducts, null);
      decode(network, 0, y);
      ratesOfDecoded(network, y, compiled);
      const block = duct.block.slice();
      const plain = new Float64Array(network.size);
      group.decode?.(y);
      group.addRates?.(y, plain);
      expect(compiled.buffer).toBe(duct.block.buffer);
      expect(plain.some((rate) => rate !== 0)).toBe(true);
      expect([...compiled]).toEqual([...plain]);
      // Of the duct's eleven decoded columns, velocity times area is the kernel's own.
      const decoded = 10 * cells;
      expect([...duct.slope]).toEqual([...block.subarray(BLOCK_HEAD + 11 * cells, BLOCK_HEAD + 15 * cells)]);
      expect([...duct.block.subarray(BLOCK_HEAD, BLOCK_HEAD + decoded)]).toEqual([
        ...block.subarray(BLOCK_HEAD, BLOCK_HEAD + decoded),
      ]);
    },
  );

  it.each([1, 2, 7])(
    'sums vectors of %i numbers to the same bits, and to the digits of the formula',
    (count) => {
      const { take, sums } = ductMemory(64);
      const drawn = (k: number) => Float64Array.from({ length: count + 1 }, (_, i) => Math.sin(3 * i + k));
      const of = (k: number) => {
        const kept = take(count + 1);
        kept.set(drawn(k));
        return kept.subarray(0, count);
      };
      const [y, trial, k] = [of(0), of(1), of(2)];
      const [yPlain, trialPlain, kPlain] = [drawn(0), drawn(1), drawn(2)].map((v) => v.subarray(0, count));
      const plain = plainSums();
      for (const { weights } of [sums, plain]) {
        weights[WEIGHT.rate] = 0.3;
        weights[WEIGHT.trial] = 0.75;
      }
      sums.addScaled(y, k);
      expect(y[0]).toBe(Math.sin(0) + 0.3 * Math.sin(2));
      sums.carryOver(y, trial, k);
      plain.addScaled(yPlain, kPlain);
      plain.carryOver(yPlain, trialPlain, kPlain);
      expect([...y]).toEqual([...yPlain]);
      expect(new Float64Array(y.buffer, y.byteOffset, count + 1)[count]).toBe(drawn(0)[count]);
    },
  );

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
