/** Lines of a cam card that no lobe can have: lift that rises fast, then slowly, then fast again. */

interface Line {
  readonly duration: number;
  readonly lift: number;
}

/** Two lines of a card that can't both be right, and how far apart their durations would have to be. */
export interface CardFault {
  /** Index of the longer line, the one nearer the seat. */
  readonly longer: number;
  /** Index of the shorter line; the number of lines stands for the nose. */
  readonly shorter: number;
  /** What the durations of the two differ by now [crank deg]. */
  readonly apart: number;
  /** What they may differ by, with the other lines as they are [crank deg]. */
  readonly atLeast: number | null;
  readonly atMost: number | null;
}

/** How far a slope must lie above the lower of those around it [-]: the flank is made of straight pieces of acceleration. */
const ROOM = 0.005;

/** Most lift in a degree, in the mean between two lines [m/crank deg]: four times what the fastest lobes do. */
const STEEPEST = 0.5e-3;

/**
 * Longest ramp below the first line of a card [crank deg]. Ramps of real lobes take 20 to 40; a lobe that creeps longer than this
 * from line to line is a slip.
 */
export const LONGEST_RAMP = 90;

/** Ramp over the distance in which the mean slope between the first two lines would carry the lobe to its seat [-]. */
export const RAMP_OVER_STRAIGHT = 1.25;

/**
 * The lines that can't go together; null where one hump passes them all.
 *
 * From the seat to the nose a lobe gets steeper up to one inflection and flatter from there on. So do the mean slopes between the
 * lines, and where they fall and rise again no lobe passes them. The stretch below the first line is free: its seat is not on the card.
 *
 * @param points - lines of the card, longest first
 * @param maxLift - lobe lift at the nose [m]
 */
export function cardFault(points: readonly Line[], maxLift: number): CardFault | null {
  const lines = [...points, { duration: 0, lift: maxLift }];
  return creeping(points) ?? jumping(lines) ?? twiceSteep(lines);
}

/** Lift that rises fast, then slowly, then fast again. */
function twiceSteep(lines: readonly Line[]): CardFault | null {
  const apart = (i: number): number => lines[i].duration - lines[i + 1].duration;
  const rise = (i: number): number => lines[i + 1].lift - lines[i].lift;
  const slope = lines.slice(1).map((_, i) => (2 * rise(i)) / apart(i));
  for (let i = 1; i < slope.length - 1; i++) {
    const before = Math.max(...slope.slice(0, i));
    const after = Math.max(...slope.slice(i + 1));
    if (slope[i] >= (1 + ROOM) * Math.min(before, after) || slope[i] >= Math.max(before, after)) continue;
    const steep = slope.indexOf(before);
    // Either the steep stretch nearer the seat is too short, or the flat one behind it too long: name the smaller slip.
    const atLeast = (2 * rise(steep)) / slope[i];
    const atMost = (2 * rise(i)) / Math.min(before, after);
    return atLeast - apart(steep) <= apart(i) - atMost
      ? { longer: steep, shorter: steep + 1, apart: apart(steep), atLeast, atMost: null }
      : { longer: i, shorter: i + 1, apart: apart(i), atLeast: null, atMost };
  }
  return null;
}

/** Two lines so near each other for their lifts that no lifter could follow. */
function jumping(lines: readonly Line[]): CardFault | null {
  for (let i = 0; i + 1 < lines.length; i++) {
    const apart = lines[i].duration - lines[i + 1].duration;
    const atLeast = (2 * (lines[i + 1].lift - lines[i].lift)) / STEEPEST;
    if (!(apart >= atLeast)) return { longer: i, shorter: i + 1, apart, atLeast, atMost: null };
  }
  return null;
}

/** First two lines so far apart for their lifts that the ramp below them would be longer than any. */
function creeping(points: readonly Line[]): CardFault | null {
  if (points.length < 2 || !(points[0].lift > 0)) return null;
  const [first, second] = points;
  const apart = first.duration - second.duration;
  const atMost = (2 * LONGEST_RAMP * (second.lift - first.lift)) / (RAMP_OVER_STRAIGHT * first.lift);
  return apart <= atMost ? null : { longer: 0, shorter: 1, apart, atLeast: null, atMost };
}
