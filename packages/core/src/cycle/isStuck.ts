/** Whether copies come no closer. */

/** Cycles over which copies must have come closer. */
const WATCHED = 8;

/**
 * Copies that swing, or wait for a slow volume: over eight cycles not halved. Every cylinder marching settles sooner, then, than
 * more such cycles do.
 *
 * @param worsts - largest change from one cycle to the next, of each cycle so far [-]
 * @param patience - first cycles, which are not looked at
 */
export function isStuck(worsts: readonly number[], patience: number): boolean {
  const recent = Math.max(...worsts.slice(-WATCHED));
  return (
    worsts.length >= 2 * WATCHED + patience &&
    recent > 0.5 * Math.max(...worsts.slice(-2 * WATCHED, -WATCHED))
  );
}
