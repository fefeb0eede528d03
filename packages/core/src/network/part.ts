/** What a network asks of its parts: nodes, which hold gas, and connections, which move it between them. */
import type { GasTables } from '../gas/gasTables.ts';

/** Sums over a cycle of what crosses the engine's bounds, filled in by its parts; energies count formation enthalpies. */
export interface Account {
  /** From reservoirs that supply [kg], [J]. */
  massIn: number;
  energyIn: number;
  /** To all others [kg], [J]. */
  massOut: number;
  energyOut: number;
  /** On the pistons [J]. */
  work: number;
  /** From cylinder gas to walls, and from duct gas to walls [J]. */
  cylinderHeat: number;
  ductHeat: number;
  /** Chemical energy left unreleased [J]. */
  unreleased: number;
}

/** Fastest rates of two kinds [1/s]: of waves along ducts, which bear no longer steps, and at which gas at rest settles, which does. */
export const FASTEST = { wave: 0, settling: 1 } as const;

/**
 * All parts of one kind in a network. They are walked together, so that each loop meets one kind and compiles for it alone.
 * What a kind has no use for it leaves out.
 */
export interface PartGroup {
  /** Reads the parts' pieces of the state `y`: sets what the other functions, and other parts, see of them; nodes first. */
  decode?(y: Float64Array): void;
  /** Adds what the parts do to the rates of change `d`; every node is decoded. */
  addRates?(y: Float64Array, d: Float64Array): void;
  /** Raises an entry of {@link FASTEST} to the fastest rate of the parts [1/s]; steps are kept short of it. */
  raiseFastest?(fastest: Float64Array): void;
  /** False where the decoded state is not one of a gas: a step was too long. */
  isSound?(): boolean;
  /** Has the next searches start from what the last ones found. Until it is called again, rates depend on time and state alone. */
  keepStarts?(): void;
  /** Adds to the account of a cycle, from the states at its beginning and end. */
  account?(before: Float64Array, after: Float64Array, account: Account): void;
}

/** A node of gas at rest, or a place along a stream, to which any connection may lead. */
export interface StillNode {
  /** What connections see of it, see `SIDE`. */
  readonly side: Float64Array;
  /** Where its mass stands in the state; -1: a reservoir, which takes and gives without end. */
  readonly offset: number;
  /** Where its energy and burned mass stand. */
  readonly energyAt: number;
  readonly burnedAt: number;
  /** Where its momentum stands; -1: gas at rest. */
  readonly momentumAt: number;
  /**
   * Areas of all that opens into it [m2], counted up by the connections: once, or where they move, as they are decoded. An array of one,
   * since a number that is counted up in an object is put on the heap anew.
   */
  readonly opening: Float64Array;
}

/** Where mass, energy and burned mass of gas at rest stand, one after another. */
export function atRest(offset: number): Pick<StillNode, 'offset' | 'energyAt' | 'burnedAt' | 'momentumAt'> {
  return { offset, energyAt: offset + 1, burnedAt: offset + 2, momentumAt: -1 };
}

/** A node that a connection leads to. */
export interface NodeRef {
  readonly kind: 'volume' | 'cylinder' | 'reservoir' | 'cell';
  readonly index: number;
}

/** How many parts like it, itself included, a marching part stands for in the engine's accounts [-]; default 1. */
export interface Weighted {
  readonly weight?: number;
}

/** Where a part is made: what it may use of the network around it. */
export interface Site {
  readonly tables: GasTables;
  /** Crank angle of the state that is decoded [deg], at index 0. */
  readonly crankAngle: Float64Array;
  /** Takes so many entries of the state for a part; returns the first. */
  readonly take: (entries: number) => number;
  /** So many zeros [-] for what a part shows others of itself, where the network's kernel finds them. */
  readonly numbers: (count: number) => Float64Array;
}
