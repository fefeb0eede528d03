/** How much of a spray of drops of many sizes is gone after a while in a stream of air. */

/** Steps of the sum over sizes, and where it ends [mean diameters]: drops above hold 7e-5 of the volume. */
const STEPS = 240;
const LARGEST = 4;

/**
 * Share of a spray that has evaporated [-]. Each drop keeps to the law of the square of its diameter (Spalding), so that of one of `d` mean
 * diameters `1 - (1 - x/d^2)^(3/2)` is gone. Sizes are spread as Nukiyama and Tanasawa found for sprays torn by air: numbers as `d^2 exp(-b d)`, so that
 * volumes go as `d^5 exp(-5 d)` where the Sauter mean is one; from memory.
 *
 * @param x - what the square of the Sauter mean diameter would have lost, over what it was [-]
 */
export function sprayEvaporated(x: number): number {
  const step = LARGEST / STEPS;
  let whole = 0;
  let left = 0;
  for (let i = 0; i < STEPS; i++) {
    const d = (i + 0.5) * step;
    const volume = d ** 5 * Math.exp(-5 * d);
    whole += volume;
    left += volume * Math.max(0, 1 - x / (d * d)) ** 1.5;
  }
  return 1 - left / whole;
}
