/** Ringing of pipes and of a volume with a pipe, for checks against linear acoustics. */
import { type Duct, fillDuct } from '../../src/network/duct.ts';
import { createNetwork } from '../../src/network/network.ts';
import type { EndSpec } from '../../src/network/openEnd.ts';
import { SIDE } from '../../src/network/side.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';
import { amplitude } from './pulseBench.ts';

const R = 287;
const P = 1e5;
const T = 300;
const GAS = idealGas({ R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 });
/** Speed of sound [m/s]. */
export const C: number = Math.sqrt(1.4 * R * T);
/** [m2] */
export const AREA = 1e-3;
/** Small, so that waves stay linear [Pa]. */
const STEP = 100;

/** Lays gas at rest so far above the pressure of all of a duct [Pa], by distance from its left end, compressed without loss. */
function layPressure(duct: Duct, y: Float64Array, above: (x: number) => number): void {
  const { cells: n, offset: o, dx, volume } = duct;
  const [rho, c, e, RT] = [duct.rho[0], duct.c[0], duct.e[0], duct.R[0] * duct.T[0]];
  for (let i = 0; i < n; i++) {
    const dp = above((i + 0.5) * dx);
    y[o + i] = (rho + dp / (c * c)) * volume[i];
    y[o + n + i] = 0;
    y[o + 2 * n + i] = (rho * e + ((e + RT) * dp) / (c * c)) * volume[i];
  }
}

/** A closed pipe with a closed branch of its own area in the middle. */
export interface Branched {
  /** Pipe on either side of the branch, and the branch [m]. */
  readonly arm: number;
  readonly branch: number;
}

/** Wave number of its lowest note [1/m] in which gas swings between pipe and branch: the first root of 2 tan(k a) + tan(k b) = 0 past a quarter wave in `arm`. */
export function branchedNote({ arm, branch }: Branched): number {
  let low = (Math.PI / 2 / arm) * (1 + 1e-9);
  let high = Math.PI / arm;
  for (let i = 0; i < 100; i++) {
    const k = 0.5 * (low + high);
    if (2 * Math.tan(k * arm) + Math.tan(k * branch) < 0) low = k;
    else high = k;
  }
  return low;
}

export interface Swinging {
  readonly frequency: number;
  /** Of the height, in one swing [-]. */
  readonly lost: number;
}

/** How such a pipe swings once let go as its note has it, in so many cells, an odd number, and twice as fine ones in the branch. */
export function ringBranched(pipe: Branched, cells: number): Swinging {
  const { arm, branch } = pipe;
  const k = branchedNote(pipe);
  const still = { kind: 'reservoir', index: 0 } as const;
  const network = createNetwork({
    tables: GAS,
    reservoirs: [{ p: P, T, b: 0 }],
    ducts: [
      ductSpec(2 * arm, [AREA, AREA], cells),
      ductSpec(branch, [AREA, AREA], Math.round((cells * branch) / arm)),
    ],
    cells: [{ duct: 0, at: arm }],
    ends: [
      { duct: 0, at: 'left', to: still, opening: { area: 0 } },
      { duct: 0, at: 'right', to: still, opening: { area: 0 } },
      { duct: 1, at: 'left', to: { kind: 'cell', index: 0 }, opening: { area: AREA } },
      { duct: 1, at: 'right', to: still, opening: { area: 0 } },
    ],
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, P, T, 0);
  network.degreesPerSecond = 1;
  marchTime(network, y, 1e-9, 0.5);
  const [line, side] = network.ducts;
  const height = 0.05 * STEP;
  const inside = (height * Math.cos(k * arm)) / Math.cos(k * branch);
  layPressure(line, y, (x) => height * Math.cos(k * Math.min(x, 2 * arm - x)));
  layPressure(side, y, (x) => inside * Math.cos(k * (branch - x)));
  const samples: { t: number; p: number }[] = [];
  const swing = (2 * Math.PI) / (k * C);
  marchTime(network, y, 6.3 * swing, 0.4, (t) => samples.push({ t, p: line.p[0] }));
  const top = (n: number): number =>
    Math.max(...samples.map(({ t, p }) => (Math.abs(t - n * swing) < 0.25 * swing ? p - P : 0)));
  return { frequency: frequencyOf(samples), lost: 1 - (top(6) / top(1)) ** 0.2 };
}

/** Frequency from the first to the last crossing of the mean pressure, rising [Hz]. */
function frequencyOf(samples: readonly { readonly t: number; readonly p: number }[]): number {
  const crossings: number[] = [];
  for (let i = 1; i < samples.length; i++) {
    const a = samples[i - 1];
    const b = samples[i];
    if (a.p < P && b.p >= P) crossings.push(a.t + ((b.t - a.t) * (P - a.p)) / (b.p - a.p));
  }
  return (crossings.length - 1) / (crossings[crossings.length - 1] - crossings[0]);
}

/** Pipe of 0.5 m, closed at the left, with one end to still air of 1 bar; gas in it starts 100 Pa above. */
export function ringPipe(cells: number, opening: number): number {
  const network = createNetwork({
    tables: GAS,
    reservoirs: [{ p: P, T, b: 0 }],
    ducts: [ductSpec(0.5, [AREA, AREA], cells)],
    ends: [
      { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
      { duct: 0, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: opening } },
    ],
  });
  const [duct] = network.ducts;
  const y = new Float64Array(network.size);
  fillDuct(duct, y, P + STEP, T, 0);
  const samples: { t: number; p: number }[] = [];
  marchTime(network, y, 0.08, 0.8, (t) => samples.push({ t, p: duct.p[0] }));
  return frequencyOf(samples);
}

/** Volume of given size [m3] and a pipe of 0.3 m from it to still air. */
export function ringVolume(size: number, time: number, cells: number): number {
  const network = createNetwork({
    tables: GAS,
    reservoirs: [{ p: P, T, b: 0 }],
    volumes: [{ name: 'resonator', size }],
    ducts: [ductSpec(0.3, [AREA, AREA], cells)],
    ends: [
      { duct: 0, at: 'left', to: { kind: 'volume', index: 0 }, opening: { area: AREA } },
      { duct: 0, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: AREA } },
    ],
  });
  const y = new Float64Array(network.size);
  fillDuct(network.ducts[0], y, P, T, 0);
  fillVolume(network.volumes[0], y, P + STEP, T, 0);
  const samples: { t: number; p: number }[] = [];
  marchTime(network, y, time, 0.8, (t) => samples.push({ t, p: network.volumes[0].side[SIDE.p] }));
  return frequencyOf(samples);
}

/** First root of k L tan(k L) = A L / V, stiff volume and massive pipe, as a frequency [Hz]. */
export function resonance(size: number, length: number): number {
  let low = 0;
  let high = Math.PI / 2;
  for (let i = 0; i < 100; i++) {
    const x = 0.5 * (low + high);
    if (x * Math.tan(x) < (AREA * length) / size) low = x;
    else high = x;
  }
  return (low * C) / (2 * Math.PI * length);
}

/** Two pipes closed at one end that meet in a merge, and the pipe from there to still air: a first merge with its secondary. */
export interface Pair {
  /** Of one primary, valve to merge [m], and of the secondary, with what waves see beyond its end. */
  readonly primary: number;
  readonly secondary: number;
  /** Areas of the same [m2]. */
  readonly areas: readonly [primary: number, secondary: number];
  /** [m3] */
  readonly merge: number;
}

/** Loudest frequency of the pair [Hz], looked for around one, once gas in it starts 100 Pa above still air: other notes of it are no multiples. */
export function ringPair({ primary, secondary, areas: [one, two], merge }: Pair, around: number): number {
  const still = { kind: 'reservoir', index: 0 } as const;
  const meet = { kind: 'volume', index: 0 } as const;
  const primaries = [0, 1].map((duct): EndSpec[] => [
    { duct, at: 'left', to: still, opening: { area: 0 } },
    { duct, at: 'right', to: meet, opening: { area: one } },
  ]);
  const network = createNetwork({
    tables: GAS,
    reservoirs: [{ p: P, T, b: 0 }],
    volumes: [{ name: 'merge', size: merge }],
    ducts: [
      ductSpec(primary, [one, one], 12),
      ductSpec(primary, [one, one], 12),
      ductSpec(secondary, [two, two], Math.ceil(secondary / 0.025)),
    ],
    ends: [
      ...primaries.flat(),
      { duct: 2, at: 'left', to: meet, opening: { area: two } },
      { duct: 2, at: 'right', to: still, opening: { area: two } },
    ],
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, P + STEP, T, 0);
  fillVolume(network.volumes[0], y, P + STEP, T, 0);
  const [t, p]: [number[], number[]] = [[], []];
  const time = 0.2;
  marchTime(network, y, time, 0.8, (at) => {
    t.push(at);
    // Faded in and out, so that neighbours of a note don't count.
    p.push((network.ducts[0].p[0] - P) * Math.sin((Math.PI * at) / time) ** 2);
  });
  const tried = Array.from({ length: 81 }, (_, i) => around * (0.9 + 0.0025 * i));
  const heard = tried.map((frequency) => amplitude(t, p, frequency));
  return tried[heard.indexOf(Math.max(...heard))];
}

/** Wave number of its quarter wave [1/m]: the first root of 2 S1 tan(k l) + k V = S2 cot(k L), pressure and flow continuous at the merge. */
export function quarterWave({ primary, secondary, areas: [one, two], merge }: Pair): number {
  let low = 0;
  let high = Math.PI / (2 * secondary);
  for (let i = 0; i < 100; i++) {
    const k = 0.5 * (low + high);
    if (2 * one * Math.tan(k * primary) + k * merge < two / Math.tan(k * secondary)) low = k;
    else high = k;
  }
  return low;
}
