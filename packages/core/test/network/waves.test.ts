/** Ringing of pipes and of a volume with a pipe, against linear acoustics. */
import { describe, expect, it } from 'vitest';
import { fillDuct } from '../../src/network/duct.ts';
import { SIDE } from '../../src/network/ductEnd.ts';
import { createNetwork } from '../../src/network/network.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';

const R = 287;
const P = 1e5;
const T = 300;
const GAS = idealGas({ R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 });
/** Speed of sound [m/s]. */
const C = Math.sqrt(1.4 * R * T);
const AREA = 1e-3;
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
function ringPipe(cells: number, opening: number): number {
  const network = createNetwork({
    tables: GAS,
    reservoirs: [{ p: P, T, b: 0 }],
    volumes: [],
    cylinders: [],
    ducts: [ductSpec(0.5, [AREA, AREA], cells)],
    ends: [
      { duct: 0, right: false, to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
      { duct: 0, right: true, to: { kind: 'reservoir', index: 0 }, opening: { area: opening } },
    ],
    orifices: [],
    copies: [],
  });
  const [duct] = network.ducts;
  const y = new Float64Array(network.size);
  fillDuct(duct, y, P + STEP, T, 0);
  const samples: { t: number; p: number }[] = [];
  marchTime(network, y, 0.08, 0.8, (t) => samples.push({ t, p: duct.p[0] }));
  return frequencyOf(samples);
}

/** Volume of given size [m3] and a pipe of 0.3 m from it to still air. */
function ringVolume(size: number, time: number, cells: number): number {
  const network = createNetwork({
    tables: GAS,
    reservoirs: [{ p: P, T, b: 0 }],
    volumes: [{ name: 'resonator', size }],
    cylinders: [],
    ducts: [ductSpec(0.3, [AREA, AREA], cells)],
    ends: [
      { duct: 0, right: false, to: { kind: 'volume', index: 0 }, opening: { area: AREA } },
      { duct: 0, right: true, to: { kind: 'reservoir', index: 0 }, opening: { area: AREA } },
    ],
    orifices: [],
    copies: [],
  });
  const y = new Float64Array(network.size);
  fillDuct(network.ducts[0], y, P, T, 0);
  fillVolume(network.volumes[0], y, P + STEP, T, 0);
  const samples: { t: number; p: number }[] = [];
  marchTime(network, y, time, 0.8, (t) => samples.push({ t, p: network.volumes[0].side[SIDE.p] }));
  return frequencyOf(samples);
}

/** First root of k L tan(k L) = A L / V, stiff volume and massive pipe, as a frequency [Hz]. */
function resonance(size: number, length: number): number {
  let low = 0;
  let high = Math.PI / 2;
  for (let i = 0; i < 100; i++) {
    const x = 0.5 * (low + high);
    if (x * Math.tan(x) < (AREA * length) / size) low = x;
    else high = x;
  }
  return (low * C) / (2 * Math.PI * length);
}

describe('a pipe closed at one end and open at the other', () => {
  it('rings at a quarter wave, c / (4 L), within 0.5 %', () => {
    expect(Math.abs(ringPipe(20, AREA) / (C / (4 * 0.5)) - 1)).toBeLessThan(0.005);
  });

  it('rings at the same note with few cells, within 2 %', () => {
    expect(Math.abs(ringPipe(8, AREA) / (C / (4 * 0.5)) - 1)).toBeLessThan(0.02);
  });
});

describe('a volume with a pipe', () => {
  it('rings at the Helmholtz frequency c / (2 pi) sqrt(A / (L V)) when its volume dwarfs the pipe, within 2 %', () => {
    // V = 100 A L: the gas in the pipe stores 1 % of what the volume does, worth 0.17 % of frequency.
    const size = 100 * AREA * 0.3;
    const helmholtz = (C / (2 * Math.PI)) * Math.sqrt(AREA / (0.3 * size));
    expect(Math.abs(ringVolume(size, 0.5, 8) / helmholtz - 1)).toBeLessThan(0.02);
  });

  it.each([1, 3, 10])(
    'rings at k L tan(k L) = A L / V when V is %d times A L, within a hundredth',
    (times) => {
      const size = times * AREA * 0.3;
      expect(Math.abs(ringVolume(size, 0.12, 20) / resonance(size, 0.3) - 1)).toBeLessThan(0.01);
    },
  );
});
