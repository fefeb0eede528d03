/** Figures of a combination as a file would have them. */
import { INCH } from '../../base/constants.ts';

/** As many digits as a calculation holds. */
export function digits(value: number): number {
  return Number(value.toPrecision(12));
}

/** An angle [crank deg]. */
export function degrees(angle: number): string {
  return `${digits(angle)} deg`;
}

/** An area [m2]. */
export function squareInch(area: number): string {
  return `${digits(area / INCH ** 2)} in2`;
}

/** Inside diameter of a pipe of this area [m2]. */
export function inside(area: number): string {
  return `${digits((2 * Math.sqrt(area / Math.PI)) / INCH)} in`;
}
