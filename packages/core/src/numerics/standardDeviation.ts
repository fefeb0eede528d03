/** How far some values scatter about their mean. */
import { mean } from './mean.ts';

/** Root of the mean square about the mean, over the count less one, in the unit of the values; not a number for fewer than two. */
export function standardDeviation(values: ArrayLike<number>): number {
  const middle = mean(values);
  let squares = 0;
  for (let i = 0; i < values.length; i++) squares += (values[i] - middle) ** 2;
  return Math.sqrt(squares / (values.length - 1));
}
