/** Lobes the tests of this room share: cards in degrees and inches, and a lobe of known shape. */
import type { LobeShape } from '../../src/geometry/lobe.ts';

export const IN = 0.0254;

/** A card in degrees and inches. */
export const card = (points: readonly (readonly [duration: number, lift: number])[], maxLift: number) => ({
  kind: 'card' as const,
  points: points.map(([duration, lift]) => ({ duration, lift: lift * IN })),
  maxLift: maxLift * IN,
});

/** The raised cosine ((1 + cos(pi x))/2)^k, 0.050 in at half the duration, half-length (duration + 46)/2. */
export const cosine = (duration: number, maxLift: number) => {
  const half = (duration + 46) / 2;
  const power = Math.log(0.05 / maxLift) / Math.log((1 + Math.cos((Math.PI * duration) / 2 / half)) / 2);
  return {
    half,
    liftAt: (angle: number) =>
      Math.abs(angle) >= half ? 0 : maxLift * ((1 + Math.cos((Math.PI * angle) / half)) / 2) ** power,
    duration: (lift: number) => ((2 * half) / Math.PI) * Math.acos(2 * (lift / maxLift) ** (1 / power) - 1),
  };
};

/** Changes of sign of the acceleration from seat to nose, those of rounding overlooked. */
export const inflections = (lobe: LobeShape): number => {
  const h = 0.25;
  const steps = Math.floor(lobe.closingHalf / h);
  const seconds = Array.from({ length: steps - 1 }, (_, i) => {
    const at = lobe.closingHalf - (i + 1) * h;
    return lobe.liftAt(at + h) - 2 * lobe.liftAt(at) + lobe.liftAt(at - h);
  });
  const largest = seconds.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const signs = seconds.filter((value) => Math.abs(value) > 1e-6 * largest).map(Math.sign);
  return signs.filter((sign, i) => i > 0 && sign !== signs[i - 1]).length;
};
