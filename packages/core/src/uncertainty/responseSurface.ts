/** Power as a surface over what is not known of an engine: the baseline's, and each candidate's. */

import { heldWithin, type Reach } from './heldWithin.ts';

/** How mean power over the band, relative to its own nominal value, follows one unknown z [standard deviations]. */
export interface Response {
  /** Per z [-]. */
  readonly linear: number;
  /** Per z^2 [-]. */
  readonly curved: number;
  /** How far the unknown can go down and up [standard deviations]: beyond it is held there, a loss at none. Left out: any way. */
  readonly reach?: Reach;
}

/** A combination whose responses are known: the baseline, or a candidate. */
export interface Subject {
  readonly name: string;
  /** Mean power over the band with every unknown at its nominal value [kW]. */
  readonly power: number;
  /** By the unknown's id; an unknown that is missing leaves the subject alone. */
  readonly responses: Readonly<Record<string, Response>>;
  /**
   * What draws of everything at once, the same ones for every candidate, moved the relative gain beyond the responses, each over the
   * root of their number [-]: loadings on independent errors, so that what two candidates have in common cancels between them.
   */
  readonly missed: readonly number[];
  /** What the relative gain takes of independent errors of the model, one standard deviation each, by name [-]; left out: nothing. */
  readonly modelError?: Readonly<Record<string, number>>;
  /** Standard deviation of its own power where cycles never repeat, over that power [-]; left out: they all do. */
  readonly scatter?: number;
}

/** What an unknown that is off by z standard deviations adds to power, over its nominal value [-]. */
export function movedBy({ linear, curved, reach }: Response, z: number): number {
  const held = heldWithin(reach, z);
  return held * (linear + curved * held);
}

/** Standard deviation of the relative gain from what the responses miss [-]. */
export function remainderOf({ missed }: Subject): number {
  return Math.hypot(...missed);
}

/** Ids of all unknowns that move any of them, in the order of the alphabet. */
export function unknownIds(subjects: readonly Subject[]): readonly string[] {
  return [...new Set(subjects.flatMap(({ responses }) => Object.keys(responses)))].sort();
}
