/** A steady stream through each kind of connection: what closed forms say of it, within half a percent. */
import { describe, expect, it } from 'vitest';
import { isentropicFluxFunction } from '../../src/gas/isentropic.ts';
import { fillDuct } from '../../src/network/duct.ts';
import { accountOf, createNetwork, type NetworkSpec } from '../../src/network/network.ts';
import type { EndSpec } from '../../src/network/openEnd.ts';
import type { NodeRef } from '../../src/network/part.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';

const R = 287;
const T = 300;
const P = 1e5;
const A = 1e-3;
const IN: NodeRef = { kind: 'reservoir', index: 0 };
const OUT: NodeRef = { kind: 'reservoir', index: 1 };
const volume = (index: number): NodeRef => ({ kind: 'volume', index });
const CELL: NodeRef = { kind: 'cell', index: 0 };

/** Mass flow [kg/s] once it is steady, at a drop [Pa] from still air to still air; all begins at `from` above the lower. */
function flowOf(parts: Omit<NetworkSpec, 'tables' | 'reservoirs'>, drop: number, from = drop / 2): number {
  const network = createNetwork({
    tables: idealGas({ R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 }),
    reservoirs: [
      { p: P + drop, T, b: 0, supplies: true },
      { p: P, T, b: 0 },
    ],
    ...parts,
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, P + from, T, 0);
  for (const one of network.volumes) fillVolume(one, y, P + from, T, 0);
  marchTime(network, y, 0.25, 0.8);
  const start = y.slice();
  marchTime(network, y, 0.02, 0.8);
  return accountOf(network, start, y).massOut / 0.02;
}

/** Through an effective area [m2]: a nozzle, its jet lost. */
function nozzle(area: number, drop: number): number {
  const p0 = P + drop;
  return (area * p0 * isentropicFluxFunction(P / p0, 1.4)) / Math.sqrt(R * T);
}

const within = (got: number, said: number): void => expect(Math.abs(got / said - 1)).toBeLessThan(0.005);

describe('a steady stream', () => {
  it('through a smooth open pipe is that of a nozzle of its area', () => {
    const open = { area: A };
    const ends: EndSpec[] = [
      { duct: 0, at: 'left', to: IN, opening: open },
      { duct: 0, at: 'right', to: OUT, opening: open },
    ];
    within(flowOf({ ducts: [ductSpec(0.3, [A, A], 8)], ends }, 5e3), nozzle(A, 5e3));
  });

  it.each([
    [0.4, 0.95],
    [0.95, 0.5],
    [0.6, 0.6],
  ])('loses the jet behind an entry of %s and what an exit of %s of the pipe keeps back', (entry, exit) => {
    const ends: EndSpec[] = [
      { duct: 0, at: 'left', to: IN, opening: { area: entry * A } },
      { duct: 0, at: 'right', to: OUT, opening: { area: exit * A } },
    ];
    // The jet of the entry keeps the stream's own dynamic pressure, which helps through the exit.
    const whole = A / Math.sqrt(1 / entry ** 2 + 1 / exit ** 2 - 1);
    within(flowOf({ ducts: [ductSpec(0.3, [A, A], 8)], ends }, 400), nozzle(whole, 400));
  });

  it('through a pipe, a box and a tail-pipe loses a jet into the box and one into the open', () => {
    const tail = 0.7 * A;
    const ends: EndSpec[] = [
      { duct: 0, at: 'left', to: IN, opening: { area: A } },
      { duct: 0, at: 'right', to: volume(0), opening: { area: A } },
      { duct: 1, at: 'left', to: volume(0), opening: { area: tail } },
      { duct: 1, at: 'right', to: OUT, opening: { area: tail } },
    ];
    const ducts = [ductSpec(0.3, [A, A], 8), ductSpec(0.2, [tail, tail], 6)];
    const whole = 1 / Math.sqrt(1 / A ** 2 + 1 / tail ** 2);
    within(flowOf({ volumes: [{ name: 'box', size: 3e-3 }], ducts, ends }, 400), nozzle(whole, 400));
  });

  it.each([
    ['holes in the middle', 'holes', 0.15],
    ['holes at the blind end', 'holes', 0.29],
    ['a branch in the middle', 'branch', 0.15],
    ['a branch at the blind end', 'branch', 0.29],
  ])('through %s of a blind pipe, a twentieth of it, is that of a nozzle', (_, kind, at) => {
    const side = A / 20;
    const blind: EndSpec[] = [
      { duct: 0, at: 'left', to: IN, opening: { area: A } },
      { duct: 0, at: 'right', to: OUT, opening: { area: 0 } },
    ];
    const pipe = ductSpec(0.3, [A, A], 8);
    const branch: EndSpec[] = [
      { duct: 1, at: 'left', to: CELL, opening: { area: side } },
      { duct: 1, at: 'right', to: OUT, opening: { area: side } },
    ];
    const parts =
      kind === 'holes'
        ? {
            ducts: [pipe],
            cells: [{ duct: 0, at, holes: true }],
            ends: blind,
            orifices: [{ from: CELL, to: OUT, area: side }],
          }
        : {
            ducts: [pipe, ductSpec(0.2, [side, side], 6)],
            cells: [{ duct: 0, at }],
            ends: [...blind, ...branch],
          };
    // Begun at the pressure in front: what rings in a blind pipe would ring on for long.
    within(flowOf(parts, 400, 400), nozzle(side, 400));
  });
});
