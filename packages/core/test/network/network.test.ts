/** What no network may do: move by itself, or make or lose mass, energy and burned gas. */
import { describe, expect, it } from 'vitest';
import { fillDuct } from '../../src/network/duct.ts';
import type { Network } from '../../src/network/network.ts';
import { createNetwork, decode, rates } from '../../src/network/network.ts';
import { SIDE } from '../../src/network/side.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';

const GAS = idealGas({ R: 287, freshGamma: 1.385, burnedGamma: 1.3, heat: 2.5e6 });

/** Two volumes joined by a tapered and a stepped pipe, the second open to a reservoir through a third of its mouth. */
function pipework(outletArea: number): Network {
  return createNetwork({
    tables: GAS,
    reservoirs: [{ p: 1e5, T: 350, b: 0 }],
    volumes: [
      { name: 'first', size: 2e-3 },
      { name: 'second', size: 5e-4 },
    ],
    ducts: [
      ductSpec(0.4, [1e-3, 3e-3, 5e-4], 12),
      ductSpec(0.2, [2e-3, 5e-4], 7),
      ductSpec(0.3, [1e-3, 1e-3], 1),
    ],
    ends: [
      { duct: 0, at: 'left', to: { kind: 'volume', index: 0 }, opening: { area: 1e-3 } },
      { duct: 0, at: 'right', to: { kind: 'volume', index: 1 }, opening: { area: 2e-4 } },
      { duct: 1, at: 'left', to: { kind: 'volume', index: 1 }, opening: { area: 1.9e-3 } },
      { duct: 1, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: outletArea } },
      { duct: 2, at: 'left', to: { kind: 'volume', index: 0 }, opening: { area: 5e-4 } },
      { duct: 2, at: 'right', to: { kind: 'volume', index: 1 }, opening: { area: 5e-4 } },
    ],
    orifices: [{ from: { kind: 'reservoir', index: 0 }, to: { kind: 'volume', index: 0 }, area: outletArea }],
  });
}

/** Mass [kg], energy [J] and burned mass [kg] of everything. */
function contents(network: Network, y: Float64Array): readonly [number, number, number] {
  const sum = [0, 0, 0];
  for (const v of network.volumes) for (let q = 0; q < 3; q++) sum[q] += y[v.offset + q];
  for (const d of network.ducts) {
    for (let i = 0; i < d.cells; i++) {
      sum[0] += y[d.offset + i];
      sum[1] += y[d.offset + 2 * d.cells + i];
      sum[2] += y[d.offset + 3 * d.cells + i];
    }
  }
  return [sum[0], sum[1], sum[2]];
}

describe('a network at rest', () => {
  it('stays at rest through tapers, partly open ends, volumes and an orifice', () => {
    const network = pipework(1.5e-4);
    const y = new Float64Array(network.size);
    for (const d of network.ducts) fillDuct(d, y, 1e5, 350, 0);
    for (const v of network.volumes) fillVolume(v, y, 1e5, 350, 0);
    const steps = marchTime(network, y, 0.1, 0.8);
    expect(steps).toBeGreaterThan(1000);
    for (const d of network.ducts) {
      for (const u of d.u) expect(Math.abs(u)).toBeLessThan(1e-9);
      for (const p of d.p) expect(Math.abs(p / 1e5 - 1)).toBeLessThan(1e-12);
    }
    for (const v of network.volumes) expect(Math.abs(v.side[SIDE.p] / 1e5 - 1)).toBeLessThan(1e-12);
  });

  it('feels no force from a taper: wall pressure balances the faces to rounding', () => {
    const network = pipework(0);
    const y = new Float64Array(network.size);
    const d = new Float64Array(network.size);
    for (const duct of network.ducts) fillDuct(duct, y, 2e5, 350, 0.3);
    for (const v of network.volumes) fillVolume(v, y, 2e5, 350, 0.3);
    rates(network, 0, y, d);
    for (const duct of network.ducts) {
      // Against the pressure force on the largest face.
      const force = 2e5 * Math.max(...duct.faceArea);
      for (let i = 0; i < duct.cells; i++)
        expect(Math.abs(d[duct.offset + duct.cells + i]) / force).toBeLessThan(1e-13);
    }
  });
});

describe('a closed network of ducts and volumes', () => {
  it('conserves mass, energy and burned mass to 1e-12 while it rings, chokes and mixes', () => {
    const network = pipework(0);
    const y = new Float64Array(network.size);
    network.ducts.forEach((d, i) => {
      fillDuct(d, y, (i + 1) * 1e5, 400 + 300 * i, 0.2 * i);
    });
    fillVolume(network.volumes[0], y, 5e5, 1500, 1);
    fillVolume(network.volumes[1], y, 1e5, 300, 0);
    const before = contents(network, y);
    let fastest = 0;
    const steps = marchTime(network, y, 0.05, 0.8, () => {
      for (const d of network.ducts) for (const u of d.u) fastest = Math.max(fastest, Math.abs(u));
    });
    const after = contents(network, y);
    expect(steps).toBeGreaterThan(1000);
    expect(fastest).toBeGreaterThan(200);
    for (let q = 0; q < 3; q++) expect(Math.abs(after[q] / before[q] - 1)).toBeLessThan(1e-12);
  });

  it('takes from the walls the heat it gains, to 1e-12 of its energy', () => {
    const network = createNetwork({
      tables: GAS,
      volumes: [
        { name: 'hot', size: 1e-3 },
        { name: 'cold', size: 1e-3 },
      ],
      ducts: [{ ...ductSpec(0.5, [1e-3, 2e-3], 10), fanning: 0.01, wallTemperature: 400, heatMultiplier: 1 }],
      ends: [
        { duct: 0, at: 'left', to: { kind: 'volume', index: 0 }, opening: { area: 1e-3 } },
        { duct: 0, at: 'right', to: { kind: 'volume', index: 1 }, opening: { area: 2e-3 } },
      ],
    });
    const y = new Float64Array(network.size);
    const [duct] = network.ducts;
    fillDuct(duct, y, 1e5, 900, 0.5);
    fillVolume(network.volumes[0], y, 3e5, 1200, 1);
    fillVolume(network.volumes[1], y, 1e5, 300, 0);
    const before = contents(network, y)[1];
    marchTime(network, y, 0.03, 0.8);
    const heat = y[duct.offset + 4 * duct.cells];
    // Gas hotter than its wall loses heat.
    expect(heat).toBeLessThan(-1);
    expect(Math.abs(contents(network, y)[1] - before - heat) / Math.abs(before)).toBeLessThan(1e-12);
  });

  it('comes to one pressure in the end', () => {
    const network = pipework(0);
    const y = new Float64Array(network.size);
    for (const d of network.ducts) fillDuct(d, y, 1e5, 350, 0.3);
    fillVolume(network.volumes[0], y, 2e5, 350, 0.3);
    fillVolume(network.volumes[1], y, 1e5, 350, 0.3);
    marchTime(network, y, 0.5, 0.8);
    decode(network, 0, y);
    const [a, b] = network.volumes.map((v) => v.side[SIDE.p]);
    expect(Math.abs(a / b - 1)).toBeLessThan(1e-3);
    // Energy of the same gas in the same room: the mean of the pressures by volume, here 1 bar and the extra bar's share.
    const room = network.volumes.reduce((s, v) => s + v.size, 0);
    const pipes = network.ducts.reduce((s, d) => s + d.volume.reduce((x, v) => x + v, 0), 0);
    expect(a / (1e5 * (1 + network.volumes[0].size / (room + pipes)))).toBeCloseTo(1, 2);
  });
});
