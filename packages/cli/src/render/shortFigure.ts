/** Torque and power in a sentence. */
import { fixed } from './fixed.ts';

/** In whole units where one is a hundredth of it at most, else with a tenth: a small engine has few of them. */
export function peakFigure(value: number): string {
  return fixed(value, Math.abs(value) < 99.95 ? 1 : 0);
}

/** One standard deviation of such a figure, to two digits. */
export function spreadFigure(value: number): string {
  return fixed(value, Math.abs(value) < 9.95 ? 1 : 0);
}
