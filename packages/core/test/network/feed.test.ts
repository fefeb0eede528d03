/** Outside air through throats into a pipe, and through throats into a volume: steady flow against closed forms, and what is kept. */
import { describe, expect, it } from 'vitest';
import { fillDuct } from '../../src/network/duct.ts';
import { accountOf, createNetwork, keepStarts, rates } from '../../src/network/network.ts';
import { SIDE } from '../../src/network/side.ts';
import type { Throat } from '../../src/network/throat.ts';
import { findPass, PASS, passOf } from '../../src/network/throat.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';

const R = 287;
const GAS = idealGas({ R, freshGamma: 1.4, burnedGamma: 1.3, heat: 2.5e6 });
const AREA = 1.5e-3;
const reservoir = (index: number) => ({ kind: 'reservoir', index }) as const;

const air = (p: number) => ({ p, T: 300, b: 0, supplies: true });

/** Flow [kg/s] that the throats alone pass from still air of 300 K. */
function alone(throats: readonly Throat[], up: number, down: number): number {
  const pass = passOf(throats, 'along');
  pass[PASS.gamma] = 1.4;
  pass[PASS.RT] = R * 300;
  pass[PASS.up] = up;
  pass[PASS.down] = down;
  findPass(pass);
  return pass[PASS.mass];
}

const pipeOf = (throats: readonly Throat[], up: number, down: number, gain = 1, cells = 8, length = 0.25) =>
  createNetwork({
    tables: GAS,
    reservoirs: [air(up), { p: down, T: 300, b: 0 }],
    ducts: [ductSpec(length, [AREA, AREA], cells)],
    feeds: [{ from: reservoir(0), becomes: reservoir(0), throats, duct: 0, gain }],
    ends: [{ duct: 0, at: 'right', to: reservoir(1), opening: { area: AREA } }],
  });

/** Steady flow through the pipe [kg/s], once what it began with has blown through. */
function steady(
  throats: readonly Throat[],
  up: number,
  down: number,
  gain = 1,
  cells = 8,
  length = 0.25,
): number {
  const network = pipeOf(throats, up, down, gain, cells, length);
  const y = new Float64Array(network.size);
  fillDuct(network.ducts[0], y, down, 300, 0);
  const time = 0.08 * length;
  // A stream at the speed of sound settles slowly: what is amiss goes with one over the square of the time.
  marchTime(network, y, 9 * time, 0.5);
  const start = y.slice();
  marchTime(network, y, time, 0.5);
  const { massIn, massOut, energyIn, energyOut } = accountOf(network, start, y);
  expect(massOut / massIn).toBeCloseTo(1, 4);
  expect(energyOut / energyIn).toBeCloseTo(1, 4);
  return massIn / time;
}

describe('a pipe behind throats', () => {
  it.each([
    ['a carburetor', [{ area: 6e-4, lost: 0.8 }], 9.5e4],
    ['a plate', [{ area: 6e-4, lost: 1 }], 9.5e4],
    [
      'a carburetor and the plate under it',
      [
        { area: 6e-4, lost: 0.8 },
        { area: 7e-4, lost: 1 },
      ],
      9.2e4,
    ],
    [
      'a sonic restrictor at its limit and a throttle',
      [
        { area: 3e-4, lost: 0.2 },
        { area: 9e-4, lost: 1 },
      ],
      8.5e4,
    ],
  ] as const)('passes what %s alone passes to the pressure at its end, within 0.5 %%', (_, throats, down) => {
    expect(Math.abs(steady(throats, 1e5, down) / alone(throats, 1e5, down) - 1)).toBeLessThan(0.005);
  });

  it.each([1, 2, 8])(
    'passes what throats at their limit pass also where the pipe is hardly wider, in %i cells',
    (cells) => {
      // 0.9 of the pipe choked: the stream behind it could only be drawn faster than sound.
      const throats = [{ area: 0.9 * AREA, lost: 1 }];
      const m = steady(throats, 1e5, 3e4, 1, cells);
      expect(Math.abs(m / ((0.684731 * 0.9 * AREA * 1e5) / Math.sqrt(R * 300)) - 1)).toBeLessThan(0.005);
    },
  );

  it('lets the stream behind throats at their limit go as fast as sound', () => {
    const network = pipeOf([{ area: 0.9 * AREA, lost: 1 }], 1e5, 3e4, 1, 1, 0.005);
    const [duct] = network.ducts;
    const y = new Float64Array(network.size);
    fillDuct(duct, y, 3e4, 300, 0);
    marchTime(network, y, 0.03, 0.5);
    // 0.684731 p0 / sqrt(R T0) through the throats; sonic, a stream of as much has 0.528282 of the pressure it would have at rest.
    expect(Math.abs(duct.p[0] / (0.9 * 0.528282 * 1e5) - 1)).toBeLessThan(0.005);
    expect(Math.abs(duct.u[0] / duct.c[0] - 1)).toBeLessThan(0.01);
  });

  // In ever less of a pipe the jet has ever less room to mix in: what the stream is faster it is colder, and denser.
  it.each([0.5, 0.7, 0.85, 0.95])(
    'gives nothing of the jet back where %f of it is open, drawing or blowing, up to the speed of sound, within half a thousandth',
    (open) => {
      const throats = [{ area: open * AREA, lost: 1 }];
      for (const low of [9.9e4, 9e4, 8e4, 7e4, 6e4, 4e4]) {
        const closed = alone(throats, 1e5, low);
        expect(Math.abs(steady(throats, 1e5, low, 1, 1, 0.005) / closed - 1), `to ${low}`).toBeLessThan(5e-4);
        expect(
          Math.abs(-steady(throats, low, 1e5, 1, 1, 0.005) / closed - 1),
          `back from ${low}`,
        ).toBeLessThan(5e-4);
      }
    },
  );

  it('carries the mixture that the air becomes', () => {
    const throats = [{ area: 6e-4, lost: 1 }];
    expect(Math.abs(steady(throats, 1e5, 9.5e4, 1.06) / alone(throats, 1e5, 9.5e4) / 1.06 - 1)).toBeLessThan(
      0.005,
    );
  });

  it('blows back out through the same throats', () => {
    const throats = [{ area: 6e-4, lost: 1 }];
    const back = -steady(throats, 9.5e4, 1e5);
    expect(Math.abs(back / alone(throats, 1e5, 9.5e4) - 1)).toBeLessThan(0.005);
  });

  it('has rates of time and state alone, and next to the same once its search starts elsewhere', () => {
    const network = pipeOf([{ area: 6e-4, lost: 0.8 }], 1e5, 9.5e4);
    const y = new Float64Array(network.size);
    fillDuct(network.ducts[0], y, 9.7e4, 300, 0);
    const [first, again] = [new Float64Array(network.size), new Float64Array(network.size)];
    rates(network, 0, y, first);
    rates(
      network,
      0,
      y.map((v) => 1.002 * v),
      again,
    );
    rates(network, 0, y, again);
    expect(again).toEqual(first);
    keepStarts(network);
    rates(network, 0, y, again);
    const scale = Math.max(...first.map(Math.abs));
    for (const [i, value] of first.entries()) expect(Math.abs(again[i] - value) / scale).toBeLessThan(1e-7);
  });
});

describe('a volume behind throats', () => {
  it('is filled through both as the closed form has it, and given back through the last first', () => {
    const throats = [
      { area: 4e-4, lost: 0.3 },
      { area: 5e-4, lost: 1 },
    ];
    const rateAt = (p: number): number => {
      const network = createNetwork({
        tables: GAS,
        reservoirs: [air(1e5)],
        volumes: [{ name: 'plenum', size: 2e-3 }],
        orifices: [{ from: reservoir(0), to: { kind: 'volume', index: 0 }, area: 4e-4, throats }],
      });
      const y = new Float64Array(network.size);
      fillVolume(network.volumes[0], y, p, 300, 0);
      const d = new Float64Array(network.size);
      rates(network, 0, y, d);
      expect(network.volumes[0].side[SIDE.p]).toBeCloseTo(p, 6);
      return d[network.volumes[0].offset];
    };
    expect(rateAt(9e4) / alone(throats, 1e5, 9e4)).toBeCloseTo(1, 6);
    const back = [
      { area: 5e-4, lost: 1 },
      { area: 4e-4, lost: 1 },
    ];
    expect(rateAt(1.1e5) / -alone(back, 1.1e5, 1e5)).toBeCloseTo(1, 6);
  });
});
