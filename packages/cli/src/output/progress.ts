/** A line that says how far the forecast is. */
import type { OperatingPoint } from '@valvetide/core';
import type { Io } from '../io.ts';
import { fixed } from '../render/fixed.ts';
import { progressLine } from './progressLine.ts';

export interface Progress {
  readonly report: (done: number, total: number, point: OperatingPoint) => void;
  /** Leaves the terminal's line empty. */
  readonly clear: () => void;
}

export function progressFor(io: Io, quiet: boolean, verbose: boolean): Progress {
  const { show, clear } = progressLine(io, quiet);
  return {
    report: (done, total, point) => {
      const detail = verbose
        ? `, ${point.cycles} cycles${point.status === 'settled' ? '' : point.status === 'lost' ? ', lost' : ', not settled'}`
        : '';
      show(`${done} of ${total} speeds, ${fixed(point.rpm)} rpm${detail}`);
    },
    clear,
  };
}
