/** A line that says how far the forecast is. */
import type { Io } from '../io.ts';
import type { Detail } from '../render/detail.ts';
import { progressLine } from './progressLine.ts';

export interface Progress {
  readonly report: (done: number, total: number) => void;
  /** Leaves the terminal's line empty. */
  readonly clear: () => void;
}

export function progressFor(io: Io, detail: Detail): Progress {
  const { show, clear } = progressLine(io, detail);
  return { report: (done, total) => show(`${done} of ${total} speeds`), clear };
}
