/** Connections between any two nodes, either way. */
import { describe, expect, it } from 'vitest';
import { fillDuct } from '../../src/network/duct.ts';
import type { Network } from '../../src/network/network.ts';
import { accountOf, createNetwork, decode, rates } from '../../src/network/network.ts';
import { orificeFlow } from '../../src/network/orifice.ts';
import { SIDE, stillGas } from '../../src/network/side.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';

const GAS = idealGas({ R: 287, freshGamma: 1.4, burnedGamma: 1.3, heat: 2.5e6 });
const volume = (index: number) => ({ kind: 'volume', index }) as const;
const reservoir = (index: number) => ({ kind: 'reservoir', index }) as const;

const VOLUMES = [
  { name: 'first', size: 2e-3 },
  { name: 'second', size: 1e-3 },
];

/** Mass, energy and burned mass of both volumes. */
const contents = ({ volumes }: Network, y: Float64Array) =>
  [0, 1, 2].map((q) => volumes.reduce((sum, { offset }) => sum + y[offset + q], 0));

describe('an orifice between two volumes', () => {
  const between = (from: number, to: number) =>
    createNetwork({
      tables: GAS,
      volumes: VOLUMES,
      orifices: [{ from: volume(from), to: volume(to), area: 1e-4 }],
    });

  it('passes 0.684731 A p / sqrt(R T) where it chokes, from the fuller, whichever way it is named', () => {
    for (const [from, to] of [
      [0, 1],
      [1, 0],
    ]) {
      const network = between(from, to);
      const y = new Float64Array(network.size);
      fillVolume(network.volumes[0], y, 4e5, 300, 0);
      fillVolume(network.volumes[1], y, 1e5, 500, 0);
      const d = new Float64Array(network.size);
      rates(network, 0, y, d);
      const choked = (0.684731 * 1e-4 * 4e5) / Math.sqrt(287 * 300);
      expect(d[network.volumes[1].offset] / choked).toBeCloseTo(1, 5);
      expect(d[network.volumes[0].offset] / -choked).toBeCloseTo(1, 5);
    }
  });

  it('keeps mass, energy and burned mass, and ends at one pressure', () => {
    const network = between(0, 1);
    const y = new Float64Array(network.size);
    fillVolume(network.volumes[0], y, 3e5, 900, 0.8);
    fillVolume(network.volumes[1], y, 1e5, 300, 0);
    const before = contents(network, y);
    const start = y.slice();
    marchTime(network, y, 0.1, 0.005);
    contents(network, y).forEach((sum, q) => {
      expect(Math.abs(sum / before[q] - 1)).toBeLessThan(1e-12);
    });
    decode(network, 0, y);
    const [a, b] = network.volumes.map(({ side }) => side[SIDE.p]);
    expect(a / b).toBeCloseTo(1, 4);
    // Nothing crossed the bounds.
    const { massIn, massOut, energyIn, energyOut } = accountOf(network, start, y);
    expect([massIn, massOut, energyIn, energyOut]).toEqual([0, 0, 0, 0]);
  });
});

describe('a balance tube, a duct between two volumes', () => {
  it('evens out their pressures and keeps what is in them and in it', () => {
    const network = createNetwork({
      tables: GAS,
      volumes: VOLUMES,
      ducts: [ductSpec(0.2, [2e-4, 2e-4], 4)],
      ends: [
        { duct: 0, at: 'left', to: volume(0), opening: { area: 1.9e-4 } },
        { duct: 0, at: 'right', to: volume(1), opening: { area: 1.9e-4 } },
      ],
    });
    const y = new Float64Array(network.size);
    const [tube] = network.ducts;
    fillVolume(network.volumes[0], y, 1.2e5, 350, 0);
    fillVolume(network.volumes[1], y, 1e5, 350, 0);
    fillDuct(tube, y, 1e5, 350, 0);
    const mass = () =>
      contents(network, y)[0] + y.slice(tube.offset, tube.offset + tube.cells).reduce((a, b) => a + b);
    const before = mass();
    marchTime(network, y, 0.2, 0.5);
    expect(Math.abs(mass() / before - 1)).toBeLessThan(1e-12);
    decode(network, 0, y);
    expect(network.volumes[0].side[SIDE.p] / network.volumes[1].side[SIDE.p]).toBeCloseTo(1, 2);
  });
});

describe('the account of a network', () => {
  it('counts what a supply gives as taken in, net of what flows back, and what goes elsewhere as given off', () => {
    const network = createNetwork({
      tables: GAS,
      reservoirs: [
        { p: 2e5, T: 300, b: 0, supplies: true },
        { p: 1e5, T: 600, b: 1 },
      ],
      volumes: VOLUMES.slice(0, 1),
      ducts: [ductSpec(0.3, [2e-4, 2e-4], 3)],
      ends: [
        { duct: 0, at: 'left', to: volume(0), opening: { area: 1e-4 } },
        { duct: 0, at: 'right', to: reservoir(1), opening: { area: 2e-4 }, weight: 3 },
      ],
      orifices: [{ from: reservoir(0), to: volume(0), area: 5e-5, weight: 3 }],
    });
    const y = new Float64Array(network.size);
    fillVolume(network.volumes[0], y, 1.5e5, 300, 0);
    fillDuct(network.ducts[0], y, 1.2e5, 300, 0);
    marchTime(network, y, 2, 0.5);
    const start = y.slice();
    const time = 0.01;
    marchTime(network, y, time, 0.5);
    const account = accountOf(network, start, y);
    const { side } = network.volumes[0];
    const flow = orificeFlow(stillGas(GAS, 2e5, 300, 0), side, 5e-5);
    expect(account.massIn / (3 * flow * time)).toBeCloseTo(1, 4);
    // Steady by now: it goes out as it came in, with the enthalpy that it had.
    expect(account.massOut / account.massIn).toBeCloseTo(1, 3);
    expect(account.energyOut / account.energyIn).toBeCloseTo(1, 3);
  });
});
