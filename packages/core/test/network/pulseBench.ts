/** A pipe with something in its middle, and a small pulse sent down it: what comes through and what comes back, by frequency. */
import type { GasTables } from '../../src/gas/gasTables.ts';
import { type DuctEnd, fillDuct } from '../../src/network/duct.ts';
import { createNetwork, type NetworkSpec } from '../../src/network/network.ts';
import type { EndSpec } from '../../src/network/openEnd.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { ductSpec, marchTime } from './networks.ts';

export const PRESSURE = 101_325;
export const TEMPERATURE = 300;
/** Height of the pulse [Pa]: small enough that waves don't steepen. */
const HEIGHT = 20;

/** What stands between two long pipes: everything but these pipes themselves, which are ducts 0 and 1. */
export type Middle = Omit<NetworkSpec, 'tables' | 'reservoirs' | 'cylinders'>;

export interface PulseBench {
  readonly tables: GasTables;
  /** Areas of the pipe before and behind [m2]. */
  readonly areas: readonly [number, number];
  /** Length of each [m] and of a cell [m]. */
  readonly length: number;
  readonly cell: number;
  /** Width of the pulse [m]. */
  readonly width: number;
  /** Time watched [s]: before anything comes back from the far ends. */
  readonly time: number;
  /** Where the end of duct 0 and the beginning of duct 1 lead, and what else there is. */
  readonly middle: Middle;
}

/** Pressures over time half way along both pipes [Pa above still], with the times [s]. */
export interface Heard {
  readonly t: readonly number[];
  readonly before: readonly number[];
  readonly behind: readonly number[];
}

/** Sends the pulse from a quarter of the first pipe, and listens half way along each. */
export function sendPulse({ tables, areas, length, cell, width, time, middle }: PulseBench): Heard {
  const cells = Math.round(length / cell);
  const network = createNetwork({
    tables,
    reservoirs: [{ p: PRESSURE, T: TEMPERATURE, b: 0 }],
    ...middle,
    ducts: [...areas.map((area) => ductSpec(length, [area, area], cells)), ...(middle.ducts ?? [])],
    ends: [wall(0, 'left'), ...(middle.ends ?? []), wall(1, 'right')],
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, PRESSURE, TEMPERATURE, 0);
  for (const volume of network.volumes) fillVolume(volume, y, PRESSURE, TEMPERATURE, 0);
  network.degreesPerSecond = 1;
  marchTime(network, y, 1e-9, 0.5);
  rightPulse(network.ducts[0], y, length / 4, width);
  const [first, second] = network.ducts;
  const [a, b] = [Math.floor(cells / 2), Math.floor(cells / 2)];
  const heard = { t: [] as number[], before: [] as number[], behind: [] as number[] };
  marchTime(network, y, time, 0.8, (t) => {
    heard.t.push(t);
    heard.before.push(first.p[a] - PRESSURE);
    heard.behind.push(second.p[b] - PRESSURE);
  });
  return heard;
}

/** A pipe as one duct, whatever its areas do in the middle, and what opens into its side there. */
export interface LineBench extends Pick<PulseBench, 'tables' | 'cell'> {
  /** Before the middle as behind it [m]. */
  readonly length: number;
  /** Areas along the middle [m2], at equal distances over `middle` [m]; the pipe before has the first, the pipe behind the last. */
  readonly areas: readonly number[];
  readonly middle: number;
  /** Of the pulse [m]; left out: 0.25. */
  readonly width?: number;
  /** Closed at the middle: what is sent comes back whole. Or open there. */
  readonly end?: 'closed' | 'open';
  /** Ducts from 1 on, their ends, and the cells of the line (duct 0) that they open into. */
  readonly beside?: Pick<NetworkSpec, 'ducts' | 'ends' | 'cells'>;
}

/** Sends a pulse from a quarter of the pipe before the middle, and listens half way along both pipes. */
export function sendAlong({
  tables,
  cell,
  length,
  areas,
  middle,
  width = 0.25,
  end,
  beside = {},
}: LineBench): Heard {
  const before = Math.round(length / cell);
  const within = Math.round(middle / cell);
  const cells = before + within + (end === undefined ? before : 0);
  const x = (i: number): number => length + (i * middle) / (areas.length - 1);
  const profile = [{ x: 0, area: areas[0] }, ...areas.map((area, i) => ({ x: x(i), area }))];
  if (middle === 0) profile.splice(1);
  const last = areas[areas.length - 1];
  if (end === undefined || middle === 0) profile.push({ x: cells * cell, area: last });
  const network = createNetwork({
    tables,
    reservoirs: [{ p: PRESSURE, T: TEMPERATURE, b: 0 }],
    ducts: [{ ...ductSpec(1, [1, 1], cells), profile }, ...(beside.ducts ?? [])],
    cells: beside.cells ?? [],
    ends: [
      wall(0, 'left'),
      end === 'open' ? { ...wall(0, 'right'), opening: { area: last } } : wall(0, 'right'),
      ...(beside.ends ?? []),
    ],
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, PRESSURE, TEMPERATURE, 0);
  marchTime(network, y, 1e-9, 0.5);
  const [line] = network.ducts;
  rightPulse(line, y, length / 4, width);
  const [a, b] = [Math.floor(before / 2), Math.min(cells - 1, before + within + Math.floor(before / 2))];
  const heard = { t: [] as number[], before: [] as number[], behind: [] as number[] };
  // Until the far ends have answered.
  marchTime(network, y, (2.15 * length) / line.c[0], 0.8, (t) => {
    heard.t.push(t);
    heard.before.push(line.p[a] - PRESSURE);
    heard.behind.push(line.p[b] - PRESSURE);
  });
  return heard;
}

/** A closed end. */
export function wall(duct: number, at: DuctEnd): EndSpec {
  return { duct, at, to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } };
}

/** Lays a pulse that runs to the right: pressure, velocity and density of a simple wave. */
function rightPulse(
  duct: ReturnType<typeof createNetwork>['ducts'][number],
  y: Float64Array,
  at: number,
  width: number,
): void {
  const { cells: n, offset: o, dx, volume } = duct;
  const [rho, c, e, R, T] = [duct.rho[0], duct.c[0], duct.e[0], duct.R[0], duct.T[0]];
  for (let i = 0; i < n; i++) {
    const x = ((i + 0.5) * dx - at) / width;
    const dp = HEIGHT * Math.exp(-x * x);
    const mass = (rho + dp / (c * c)) * volume[i];
    const u = dp / (rho * c);
    // Internal energy of an isentropic change: d(rho e) = h d rho.
    const energy = (rho * e + ((e + R * T) * dp) / (c * c)) * volume[i];
    y[o + i] = mass;
    y[o + n + i] = mass * u;
    y[o + 2 * n + i] = energy + 0.5 * mass * u * u;
  }
}

/** Amplitude of a signal at a frequency [1/s], by the rule of trapezes; `from` and `to` cut a stretch of time [s] out. */
export function amplitude(
  t: readonly number[],
  p: readonly number[],
  frequency: number,
  from = 0,
  to = Number.POSITIVE_INFINITY,
): number {
  const { re, im } = spectrum(t, p, frequency, from, to);
  return Math.hypot(re, im);
}

/** The same with its phase. */
export function spectrum(
  t: readonly number[],
  p: readonly number[],
  frequency: number,
  from = 0,
  to = Number.POSITIVE_INFINITY,
): { readonly re: number; readonly im: number } {
  let re = 0;
  let im = 0;
  for (let i = 1; i < t.length; i++) {
    if (t[i - 1] < from || t[i] > to) continue;
    const h = t[i] - t[i - 1];
    for (const k of [i - 1, i]) {
      const angle = 2 * Math.PI * frequency * t[k];
      re += 0.5 * h * p[k] * Math.cos(angle);
      im -= 0.5 * h * p[k] * Math.sin(angle);
    }
  }
  return { re, im };
}
