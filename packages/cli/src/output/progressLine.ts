/** How far the work is: one line that is drawn over on a terminal, at most a line a minute in a log. */
import type { Io } from '../io.ts';
import type { Detail } from '../render/detail.ts';

export interface ProgressLine {
  readonly show: (text: string) => void;
  /** Leaves the terminal's line empty. */
  readonly clear: () => void;
}

/** Time between two lines of a log [ms]. */
const EVERY = 60_000;

export function progressLine(io: Io, detail: Detail): ProgressLine {
  if (detail === 'quiet') return { show: () => {}, clear: () => {} };
  return io.stderr.isTTY && io.env.TERM !== 'dumb' ? drawnLine(io) : loggedLines(io);
}

function drawnLine(io: Io): ProgressLine {
  let drawn = 0;
  return {
    show: (text) => {
      io.stderr.write(`\r${text.padEnd(drawn)}`);
      drawn = text.length;
    },
    clear: () => {
      if (drawn === 0) return;
      io.stderr.write(`\r${' '.repeat(drawn)}\r`);
      drawn = 0;
    },
  };
}

/** The first minute is silent: most commands are done by then, and say nothing. */
function loggedLines(io: Io): ProgressLine {
  let last = io.now();
  return {
    show: (text) => {
      const now = io.now();
      if (now - last < EVERY) return;
      io.stderr.write(`${text}\n`);
      last = now;
    },
    clear: () => {},
  };
}
