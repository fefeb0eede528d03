/** Ringing of pipes and of a volume with a pipe, for checks against linear acoustics. */
import { fillDuct } from '../../src/network/duct.ts';
import { createNetwork } from '../../src/network/network.ts';
import { SIDE } from '../../src/network/side.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';

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
      { duct: 0, right: false, to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
      { duct: 0, right: true, to: { kind: 'reservoir', index: 0 }, opening: { area: opening } },
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
      { duct: 0, right: false, to: { kind: 'volume', index: 0 }, opening: { area: AREA } },
      { duct: 0, right: true, to: { kind: 'reservoir', index: 0 }, opening: { area: AREA } },
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
