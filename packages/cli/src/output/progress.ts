/** A line that says how far a forecast is, or a study and how long that may still take. */
import type { Io } from '../io.ts';
import type { Detail } from '../render/detail.ts';
import { progressLine } from './progressLine.ts';

export interface Progress {
  readonly report: (done: number, total: number) => void;
  /** Leaves the terminal's line empty. */
  readonly clear: () => void;
}

export function forecastProgress(io: Io, detail: Detail): Progress {
  const { show, clear } = progressLine(io, detail);
  return { report: (done, total) => show(`${done} of ${total} speeds`), clear };
}

export function studyProgress(io: Io, detail: Detail): Progress {
  const begun = io.now();
  const { show, clear } = progressLine(io, detail);
  return {
    report: (done, total) => {
      const left =
        done > 0 && done < total ? `, ${duration(((io.now() - begun) / done) * (total - done))} left` : '';
      show(`${done} of ${total} forecasts${left}`);
    },
    clear,
  };
}

/** Milliseconds in words, as exact as an estimate deserves. */
function duration(milliseconds: number): string {
  const seconds = milliseconds / 1000;
  if (seconds < 10) return 'a few seconds';
  if (seconds < 90) return `about ${Math.round(seconds / 10) * 10} s`;
  return `about ${Math.round(seconds / 60)} min`;
}
