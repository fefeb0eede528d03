/** A small pulse let go at a shut exhaust valve of an assembled header, and what comes back to it. */
import { assembleNetwork } from '../../packages/core/src/assembly/assemble.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { planBurn } from '../../packages/core/src/cycle/burnPlan.ts';
import { buildGasTables } from '../../packages/core/src/gas/buildGasTables.ts';
import { fillDuct } from '../../packages/core/src/network/duct.ts';
import { createNetwork } from '../../packages/core/src/network/network.ts';
import { fillVolume } from '../../packages/core/src/network/volume.ts';
import { marchTime } from '../../packages/core/test/network/networks.ts';

export interface Echo {
  /** Times [s] and pressures at the valve [Pa above still]. */
  readonly t: readonly number[];
  readonly p: readonly number[];
  /** Speed of sound [m/s], and length from valve to first merge [m]. */
  readonly c: number;
  readonly primary: number;
}

const MESH = { intakeCell: 0.1, exhaustCell: 0.025, fewest: 4 };
/** Height [Pa] and width [m] of the pulse. */
const PULSE = { height: 1000, width: 0.1 };
const TIME = 0.0045;

/** Of cylinder 1, its exhaust full of still hot gas, all valves shut, walls that neither rub nor cool. */
export function headerEcho(combination: Combination): Echo {
  const { fuel, lambda, weather } = combination;
  const tables = buildGasTables({ fuel, lambda, ...weather });
  const burn = planBurn({ development: 20, main: 30 }, { ca50: 8 }, 1);
  const { spec } = assembleNetwork(combination, tables, 'all', burn, MESH);
  const first = spec.ducts.findIndex(({ name }) => name === 'exhaust 1');
  const outside = { kind: 'reservoir', index: 0 } as const;
  const p = weather.pressure;
  const T = 900;
  const network = createNetwork({
    tables,
    reservoirs: [{ p, T, b: 1 }],
    volumes: spec.volumes,
    ducts: spec.ducts.slice(first).map((duct) => ({ ...duct, heatMultiplier: 0, fanning: 0 })),
    ends: spec.ends
      .filter(({ duct }) => duct >= first)
      .map((end) => ({
        ...end,
        duct: end.duct - first,
        to: end.to.kind === 'volume' ? end.to : outside,
        opening: 'area' in end.opening ? end.opening : { area: 0 },
      })),
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, p, T, 1);
  for (const volume of network.volumes) fillVolume(volume, y, p, T, 1);
  network.degreesPerSecond = 1;
  marchTime(network, y, 1e-9, 0.5);
  const [pipe] = network.ducts;
  const { cells: n, offset: o, dx, volume } = pipe;
  const c = pipe.c[0];
  const enthalpy = y[o + 2 * n] / y[o] + pipe.R[0] * pipe.T[0];
  for (let i = 0; i < n; i++) {
    const mass = (PULSE.height / (c * c)) * Math.exp(-((((i + 0.5) * dx) / PULSE.width) ** 2)) * volume[i];
    y[o + i] += mass;
    // Compressed without loss: d(rho e) = h d rho; all of it burned.
    y[o + 2 * n + i] += enthalpy * mass;
    y[o + 3 * n + i] += mass;
  }
  const [times, pressures]: [number[], number[]] = [[], []];
  marchTime(network, y, TIME, 0.8, (t) => {
    times.push(t);
    pressures.push(pipe.p[0] - p);
  });
  const { profile } = spec.ducts[first];
  return { t: times, p: pressures, c, primary: profile[profile.length - 1].x };
}

/** Pressure at a time [Pa]. */
export function heardAt({ t, p }: Pick<Echo, 't' | 'p'>, time: number): number {
  const i = Math.max(
    1,
    t.findIndex((at) => at >= time),
  );
  return p[i - 1] + ((p[i] - p[i - 1]) * (time - t[i - 1])) / (t[i] - t[i - 1]);
}

/** Of a signal, between two times: when its middle comes [s], and how much it is in all [Pa s]. */
export function centre(signal: (t: number) => number, from: number, to: number): { at: number; all: number } {
  const STEPS = 400;
  let [all, first] = [0, 0];
  for (let i = 0; i < STEPS; i++) {
    const t = from + ((i + 0.5) * (to - from)) / STEPS;
    const part = (signal(t) * (to - from)) / STEPS;
    all += part;
    first += part * t;
  }
  return { at: first / all, all };
}
