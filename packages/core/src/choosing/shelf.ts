/** A shelf: what may be fitted, what may be spent, and what for. */
import type { Change } from '../changes/change.ts';
import type { BandWeighting, SpeedBand } from '../forecast/band.ts';

/** Alternatives that exclude each other: parts for one place, or values of one size. */
export interface ShelfGroup {
  /** What it is a choice of. */
  readonly name: string;
  /** The alternatives, each a change of the engine as it is. */
  readonly alternatives: readonly Change[];
  /** Whether the engine may stay as it is here. */
  readonly mayStay: boolean;
  /** The field whose rising values the alternatives are; null for parts, which have no order. */
  readonly field: string | null;
}

/** What a build must keep beside the limits of the combination's file; null: no limit. */
export interface ShelfLimits {
  /** Money, in the currency of the shelf. */
  readonly cost: number | null;
  /** Working hours. */
  readonly hours: number | null;
  /** Largest value of a field, by its path, as it would stand in a file. */
  readonly largest: Readonly<Record<string, number | string>>;
}

/** What makes a build good: its mean power or torque over a band, or how soon it is through it. */
export interface ShelfAim {
  /** Speeds that count. */
  readonly band: SpeedBand;
  /**
   * What is averaged; `time`: the time in which the engine brings a constant inertia through the band. Its gain is that of the mean rate,
   * 2 % where 100 s become 98.04.
   */
  readonly of: 'power' | 'torque' | 'time';
  /** How; of no consequence for `time`. */
  readonly weighting: BandWeighting;
  /** How much it counts beside the other aims. */
  readonly weight: number;
}

/** A shelf as read. */
export interface Shelf {
  /** In the order of the file, parts before sizes. */
  readonly groups: readonly ShelfGroup[];
  /** What a build must keep. */
  readonly limits: ShelfLimits;
  /** Empty: mean power over the band that a study is given. */
  readonly aims: readonly ShelfAim[];
}
