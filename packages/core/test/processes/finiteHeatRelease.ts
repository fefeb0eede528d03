/** Ideal cycle with heat released over a finite angle by Wiebe; everything over p1 and V1. */
import { wiebeFraction, wiebeRate } from './plainWiebe.ts';

/**
 * Inputs of Ferguson and Kirkpatrick, Internal Combustion Engines, chapter 2 (from memory): compression ratio 10, heat 20 p1 V1,
 * a = 5, exponent of y 3, duration 40 deg, V = (1 + (r - 1)(1 - cos) / 2) / r. The burn is not cut at the end of its
 * duration, where 0.7 % of the heat is still to come.
 */
export const RATIO = 10;
export const HEAT = 20;
const DURATION = 40;
const A = 5;
const M = 2;

/** Air-standard efficiency, 1 - r^(1 - gamma). */
export function otto(r: number, gamma: number): number {
  return 1 - r ** (1 - gamma);
}

/**
 * d(p V^gamma) = (gamma - 1) V^(gamma - 1) dQ: pressure by one quadrature over the burn, work by the first law. After
 * 2.2 durations all but 1e-23 is burned.
 */
export function finiteHeatRelease(
  gamma: number,
  start: number,
  length: number = DURATION,
  r: number = RATIO,
): { peak: number; peakAngle: number; work: number } {
  const volume = (deg: number) => (1 + ((r - 1) / 2) * (1 - Math.cos((deg * Math.PI) / 180))) / r;
  const rate = (deg: number) =>
    (gamma - 1) * HEAT * wiebeRate(deg, start, length, A, M) * volume(deg) ** (gamma - 1);
  const n = 8000;
  const h = (2.2 * length) / n;
  let polytrope = 1;
  let peak = 0;
  let peakAngle = 0;
  const pressure: number[] = [1 / volume(start) ** gamma];
  for (let i = 0; i < n; i += 1) {
    const x = start + i * h;
    polytrope += (h / 6) * (rate(x) + 4 * rate(x + h / 2) + rate(x + h));
    pressure.push(polytrope / volume(x + h) ** gamma);
  }
  for (let i = 1; i < n; i += 1) {
    const [p0, p1, p2] = [pressure[i - 1], pressure[i], pressure[i + 1]];
    if (p1 >= p0 && p1 >= p2) {
      const shift = (p0 - p2) / (2 * (p0 - 2 * p1 + p2));
      peakAngle = start + (i + shift) * h;
      peak = p1 + ((p2 - p0) / 4) * shift;
    }
  }
  const released = HEAT * wiebeFraction(start + n * h, start, length, A, M);
  return { peak, peakAngle, work: released - (polytrope - 1) / (gamma - 1) };
}
