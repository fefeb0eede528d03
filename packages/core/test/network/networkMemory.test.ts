/** The compiled step of a network against the plain one. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { marchDegrees } from '../../src/cycle/march.ts';
import { layGrid } from '../../src/cycle/stepGrid.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { renewCopies } from '../../src/network/copiedEnds.ts';
import { balanceDuct, decodeDuct, ductGroup, fillDuct } from '../../src/network/duct.ts';
import { END, NOZZLE, SHUT } from '../../src/network/ductEnd.ts';
import { kernelNetwork } from '../../src/network/kernelNetwork.ts';
import {
  createNetwork,
  decode,
  isSound,
  keepStarts,
  ratesOfDecoded,
  stiffness,
} from '../../src/network/network.ts';
import { BLOCK_HEAD, networkMemory } from '../../src/network/networkMemory.ts';
import { SIDE } from '../../src/network/side.ts';
import { fillVolume } from '../../src/network/volume.ts';
import {
  createStepper,
  finishStep,
  type Rhs,
  RK4,
  SSP2,
  SSP2_FOUR,
  SSP3,
  TIME,
} from '../../src/numerics/rungeKutta.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { ductSpec } from './networks.ts';

/** The place of ducts among a network's nodes. */
const DUCTS = 2;

describe('the kernel', () => {
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.resetModules();
  });

  it('decodes and balances to the same bits as the plain functions, over a cycle of an engine', () => {
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(5000);
    const { network, y, stepper } = march;
    const [rates] = stepper.stages;
    expect(y.buffer).toBe(network.ducts[0].block.buffer);
    layGrid(march);
    renewCopies(network, y);
    let [opened, back] = [0, 0];
    for (let theta = 0; theta < 720; theta += 60) {
      marchDegrees(march, theta, 60);
      decode(network, theta + 60, y);
      ratesOfDecoded(network, y, rates);
      const columns = network.ducts.map(({ block }) => block.slice());
      const seen = () => [
        ...network.volumes.map(({ side }) => side.slice()),
        // The wall's pressure and the sound speed are scratch of the plain path.
        ...network.ends.flatMap(({ flow, lifted, nozzle }) =>
          [flow, lifted, nozzle.subarray(0, NOZZLE.wall)].map((numbers) => numbers.slice()),
        ),
        ...network.cylinders.map(({ opening }) => opening.slice()),
        ...network.ducts.flatMap(({ left, right }) => [left.slice(), right.slice()]),
      ];
      const compiled = seen();
      for (const { side } of network.volumes) side.fill(400);
      for (const { flow, lifted } of network.ends) for (const numbers of [flow, lifted]) numbers.fill(0);
      for (const { left, right } of network.ducts) for (const flux of [left, right]) flux.fill(0);
      decode(network, theta + 60, y.slice());
      const plain = new Float64Array(network.size);
      for (const group of network.connections) group.addRates?.(y, plain);
      expect(seen()).toEqual(compiled);
      for (const { spec, nozzle, flow } of network.ends) {
        if ('valve' in spec.opening && nozzle[NOZZLE.area] > SHUT) opened++;
        if (spec.fuelling !== undefined && flow[END.mass] < 0) back++;
      }
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
      }
      for (const group of network.nodes) if (group !== network.nodes[DUCTS]) group.addRates?.(y, plain);
      // Cylinders are worked out before ducts; nothing of theirs stands where a duct's stands.
      expect(rates).toEqual(plain);
    }
    expect(opened).toBeGreaterThan(4);
    expect(back).toBeGreaterThan(0);
  });

  it('marches to the same bits as where a page forbids WebAssembly', async () => {
    const marched = async (): Promise<Float64Array> => {
      const { createSimulation: create } = await import('../../src/forecast/simulation.ts');
      const { marchDegrees: on } = await import('../../src/cycle/march.ts');
      const { march } = create(bigBlock(), { fidelity: 'all' }).startSpeed(6000);
      expect(march.y.buffer === march.network.ducts[0].block.buffer).toBe(typeof WebAssembly === 'object');
      on(march, 0, 90);
      return march.y.slice();
    };
    const compiled = await marched();
    vi.resetModules();
    vi.stubGlobal('WebAssembly', undefined);
    expect(await marched()).toEqual(compiled);
    expect(compiled.every(Number.isFinite)).toBe(true);
  });

  it('tells the fastest rate and a state of no gas as the plain functions do', () => {
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(5000);
    const { network, y } = march;
    layGrid(march);
    renewCopies(network, y);
    marchDegrees(march, 0, 30);
    const plain = () => {
      const fastest = new Float64Array(2);
      for (const group of network.nodes) group.raiseFastest?.(fastest);
      return [Math.max(...fastest), network.nodes.every((group) => group.isSound?.() ?? true)];
    };
    const compiled = () => [stiffness(network), isSound(network)];
    expect(compiled()).toEqual(plain());
    expect(compiled()[0]).toBeGreaterThan(1e3);
    expect(compiled()[1]).toBe(true);
    for (const wrong of [-1, 0, Number.NaN])
      for (const place of ['p', 'c'] as const) {
        const last = network.ducts[network.ducts.length - 1];
        decode(network, 30, y);
        last[place][last.cells - 1] = wrong;
        expect(compiled()).toEqual(plain());
        expect(compiled()[1]).toBe(false);
      }
  });

  it('meets every kind of flow through an end to the same bits', () => {
    const { tables } = createSimulation(bigBlock(), { fidelity: 'representative' });
    const network = createNetwork({
      tables,
      reservoirs: [{ p: 1e5, T: 900, b: 0.7 }],
      volumes: [{ name: 'box', size: 1e-3 }],
      ducts: [ductSpec(0.1, [1.2e-3, 0.8e-3], 3)],
      ends: [
        { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: 1 } },
        { duct: 0, at: 'right', to: { kind: 'volume', index: 0 }, opening: { area: 1 } },
      ],
    });
    const [duct] = network.ducts;
    const { offset: o } = duct;
    const y = network.vector();
    const compiled = network.vector();
    fillVolume(network.volumes[0], y, 1.3e5, 500, 0.2);
    const kinds = new Set<string>();
    for (const p of [0.1e5, 0.5e5, 0.99e5, 1.01e5, 1.5e5, 6e5])
      for (const u of [-700, -300, -40, 0, 40, 300, 700])
        for (const share of [0, 0.02, 0.6, 1, 1.3]) {
          fillDuct(duct, y, p, 800, 0.4);
          for (let i = 0; i < 3; i++) y[o + 3 + i] = (u + 5 * i) * y[o + i];
          for (const { nozzle } of network.ends) nozzle[NOZZLE.area] = share * nozzle[NOZZLE.ductArea];
          decode(network, 0, y);
          ratesOfDecoded(network, y, compiled);
          const plain = new Float64Array(network.size);
          const flows = network.ends.map(({ flow }) => flow.slice());
          for (const { flow } of network.ends) flow.fill(Number.NaN);
          ratesOfDecoded(network, y, plain);
          expect(network.ends.map(({ flow }) => flow)).toEqual(flows);
          expect([...compiled]).toEqual([...plain]);
          for (const { flow, face, nozzle } of network.ends) {
            const sound = face[SIDE.w] > nozzle[NOZZLE.c] ? ' faster than sound' : '';
            kinds.add(`${Math.sign(flow[END.mass])}${flow[END.speed] === 0 ? ' at a wall' : ''}${sound}`);
          }
          keepStarts(network);
        }
    for (const kind of ['0 at a wall', '1', '-1', '1 faster than sound']) expect(kinds.has(kind)).toBe(true);
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
      const y = network.vector();
      const compiled = network.vector();
      fillDuct(duct, y, 2e5, 900, 0.3);
      for (let i = 0; i < cells; i++) {
        y[o + i] *= 1 + 0.1 * i;
        y[o + cells + i] = (150 - 90 * i) * y[o + i];
        y[o + 3 * cells + i] = [0.3, -1e-9, 1.2, 0.9, 0][i] * y[o + i];
      }
      duct.left.set([0.1, 900, 5e4, 0.02]);
      duct.right.set([0.2, 400, 9e4, 0.05]);
      const group = ductGroup(network.ducts);
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

  it.each([SSP2, SSP2_FOUR, SSP3, RK4])('takes steps of $name to the same bits as the stepper', (tableau) => {
    const { tables } = createSimulation(bigBlock(), { fidelity: 'representative' });
    const blowdown = () => {
      const network = createNetwork({
        tables,
        reservoirs: [{ p: 1e5, T: 300, b: 0 }],
        volumes: [{ name: 'box', size: 1e-3 }],
        ducts: [ductSpec(0.1, [1.2e-3, 0.8e-3], 5)],
        ends: [
          { duct: 0, at: 'left', to: { kind: 'volume', index: 0 }, opening: { area: 8e-4 } },
          { duct: 0, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: 1 } },
        ],
      });
      const y = network.vector();
      const behind = network.vector().fill(7);
      fillVolume(network.volumes[0], y, 3e5, 900, 0.7);
      fillDuct(network.ducts[0], y, 1e5, 300, 0);
      network.degreesPerSecond = 6e3;
      decode(network, 0, y);
      return { network, y, behind };
    };
    const plain = blowdown();
    const here = createStepper(tableau, plain.network.size);
    const { network, y, behind } = blowdown();
    const taken = network.kernel?.stepsOf(createStepper(tableau, network.size, network.vector));
    for (let from = 0; from < 2; from += 0.125) {
      const clock = Float64Array.of(from, from + 0.125, 0.125 / 6e3, 6e3);
      ratesOfDecoded(plain.network, plain.y, here.stages[0]);
      keepStarts(plain.network);
      here.time.set([0, from / 6e3, 0.125 / 6e3]);
      const rhs: Rhs = (t, at, d) => {
        decode(plain.network, t[TIME.stage] * 6e3, at);
        ratesOfDecoded(plain.network, at, d);
      };
      finishStep(here, rhs, plain.y);
      decode(plain.network, from + 0.125, plain.y);
      expect(taken?.(y, clock)).toBe(true);
      expect(network.crankAngle[0]).toBe(from + 0.125);
      expect(stiffness(network)).toBe(stiffness(plain.network));
      expect([...y]).toEqual([...plain.y]);
    }
    expect(y[0]).toBeLessThan(0.99 * blowdown().y[0]);
    expect(behind.every((number) => number === 7)).toBe(true);
    y.fill(-1);
    expect(taken?.(y, Float64Array.of(2, 2.125, 0.125 / 6e3, 6e3))).toBe(false);
  });

  it('takes no steps of a method whose vectors stand elsewhere', () => {
    const { network } = createSimulation(bigBlock(), { fidelity: 'representative' }).startSpeed(3000).march;
    expect(network.kernel?.stepsOf(createStepper(SSP2, network.size))).toBeNull();
  });

  it('is asked for no part once its memory is full: what found no room has no address', () => {
    // A page of memory, which holds fewer numbers than this.
    const memory = networkMemory(1);
    expect(memory.kernel).not.toBeNull();
    expect(memory.isFull()).toBe(false);
    memory.take(10_000);
    expect(memory.isFull()).toBe(true);
    const none = { volumes: [], cylinders: [], ducts: [], cells: [], ends: [], joints: [] };
    const parts = { ...none, orifices: [], feeds: [], copies: [], crankAngle: new Float64Array(1), size: 0 };
    expect(kernelNetwork(parts, memory)).toBeNull();
    expect(kernelNetwork(parts, networkMemory(1))).not.toBeNull();
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
