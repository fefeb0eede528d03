/** A line that says how far the forecast is, on a terminal only. */
import type { OperatingPoint } from '@valvetide/core';
import type { Io } from '../io.ts';
import { fixed } from '../render/fixed.ts';

export interface Progress {
  readonly report: (done: number, total: number, point: OperatingPoint) => void;
  /** Leaves the terminal's line empty. */
  readonly clear: () => void;
}

export function progressFor(io: Io, quiet: boolean, verbose: boolean): Progress {
  if (quiet || !io.stderr.isTTY || io.env.TERM === 'dumb') return { report: () => {}, clear: () => {} };
  let drawn = 0;
  const draw = (text: string): void => {
    io.stderr.write(`\r${text.padEnd(drawn)}`);
    drawn = text.length;
  };
  return {
    report: (done, total, point) => {
      const detail = verbose
        ? `, ${point.cycles} cycles${point.status === 'settled' ? '' : point.status === 'lost' ? ', lost' : ', not settled'}`
        : '';
      draw(`${done} of ${total} speeds, ${fixed(point.rpm)} rpm${detail}`);
    },
    clear: () => {
      if (drawn === 0) return;
      io.stderr.write(`\r${' '.repeat(drawn)}\r`);
      drawn = 0;
    },
  };
}
