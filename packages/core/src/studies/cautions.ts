/** What a change is warned of that its baseline was not. */
import type { Warning } from '../combination/combination.ts';
import type { Curve } from '../forecast/curve.ts';
import { marchedPoints } from '../forecast/wholeCurve.ts';

/** Warnings that both may raise, the candidate more so: by how much more is asked before it is told. */
const OCTANE_STEP = 0.5;

/** Messages of warnings that are new, or worse: knock that asks for more octane, lift further beyond the sheet. */
export function cautionsOf(baseline: Curve, candidate: Curve): readonly string[] {
  const before = new Map(baseline.warnings.map((warning) => [keyOf(warning), warning]));
  return candidate.warnings
    .filter((warning) => {
      // Told as what it breaks.
      if (warning.code === 'beyond-limit') return false;
      const old = before.get(keyOf(warning));
      if (old === undefined) return true;
      if (old.message === warning.message) return false;
      switch (warning.code) {
        case 'detonation':
        case 'knock-limited':
          return octaneOf(candidate) > octaneOf(baseline) + OCTANE_STEP;
        case 'piston-speed':
        case 'lift-beyond-sheet':
          return true;
        default:
          return false;
      }
    })
    .map(({ message }) => message);
}

function keyOf({ code, path }: Warning): string {
  return `${code} ${path}`;
}

/** Most octane that best timing asks for at any speed. */
function octaneOf(curve: Curve): number {
  return Math.max(...marchedPoints(curve).map(({ octaneAtBestTiming }) => octaneAtBestTiming));
}
