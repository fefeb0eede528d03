/** How wide to print: what the terminal has, 80 where there is none, within what stays readable. */
import type { Sink } from '../io.ts';

export function widthOf(sink: Sink): number {
  return Math.min(200, Math.max(40, sink.columns ?? 80));
}
