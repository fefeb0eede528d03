/** A job cut into one job a speed, and their curves put together again: every speed starts alone, so that the bytes are the same. */

import { checkSpeeds } from '../forecast/checkSpeeds.ts';
import type { Curve } from '../forecast/curve.ts';
import { curveOf } from '../forecast/curveMarch.ts';
import { heldToHeard } from '../forecast/heardKnock.ts';
import type { StudyJob } from './job.ts';

/** The pieces of a job. */
export interface SplitJob {
  /** One a speed, in the order of the speeds. */
  readonly pieces: readonly StudyJob[];
  /** The curve of the whole job; null where a piece was not run. */
  readonly join: (curves: readonly (Curve | null)[]) => Curve | null;
}

/**
 * Cuts a job into its speeds, so that several threads or machines may share it.
 *
 * @throws {@link DomainError} where speeds are missing, not rising or out of 100 to 30 000 rpm
 *
 * @example
 * ```ts
 * const { pieces, join } = splitJob({ combination, rpm: [3000, 4000, 5000] });
 * const curve = join(await runJobsHere(pieces));
 * ```
 */
export function splitJob(job: StudyJob): SplitJob {
  const { combination, rpm, mesh } = job;
  checkSpeeds(rpm);
  if (rpm.length < 2) return { pieces: [job], join: ([curve]) => curve ?? null };
  // What was heard is held to once, not once a speed: it takes forecasts of its own.
  const held = heldToHeard(combination, mesh === undefined ? {} : { mesh });
  const pieces = rpm.map((n) => ({ ...job, combination: held.combination, rpm: [n] }));
  const join = (curves: readonly (Curve | null)[]): Curve | null => {
    const done = curves.filter((curve) => curve !== null);
    if (done.length < pieces.length) return null;
    return curveOf(combination, {
      fidelity: done[0].fidelity,
      points: done.flatMap(({ points }) => points),
      complete: done.every(({ complete }) => complete),
      marchedWhole: rpm.filter((_, i) =>
        done[i].warnings.some(({ code }) => code === 'every-cylinder-marched'),
      ),
      heard: held.warnings,
    });
  };
  return { pieces, join };
}
