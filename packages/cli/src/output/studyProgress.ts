/** A line that says how far a study is and how long it may still take, on a terminal only. */
import type { Io } from '../io.ts';

export interface StudyProgress {
  readonly report: (done: number, total: number) => void;
  /** Leaves the terminal's line empty. */
  readonly clear: () => void;
}

/** `now` gives milliseconds. */
export function studyProgress(
  io: Io,
  quiet: boolean,
  now: () => number = () => performance.now(),
): StudyProgress {
  if (quiet || !io.stderr.isTTY || io.env.TERM === 'dumb') return { report: () => {}, clear: () => {} };
  const begun = now();
  let drawn = 0;
  const draw = (text: string): void => {
    io.stderr.write(`\r${text.padEnd(drawn)}`);
    drawn = text.length;
  };
  return {
    report: (done, total) => {
      const left =
        done > 0 && done < total ? `, ${duration(((now() - begun) / done) * (total - done))} left` : '';
      draw(`${done} of ${total} forecasts${left}`);
    },
    clear: () => {
      if (drawn === 0) return;
      io.stderr.write(`\r${' '.repeat(drawn)}\r`);
      drawn = 0;
    },
  };
}

/** Milliseconds in words, as exact as an estimate deserves. */
function duration(milliseconds: number): string {
  const seconds = milliseconds / 1000;
  if (seconds < 10) return 'a few seconds';
  if (seconds < 90) return `about ${Math.round(seconds / 10) * 10} s`;
  return `about ${Math.round(seconds / 60)} min`;
}
