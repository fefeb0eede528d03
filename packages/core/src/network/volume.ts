/** A well-mixed volume of fixed size at rest: plenum or collector merge. */

import { frozenR, frozenU } from '../gas/frozenBlend.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { atRest, FASTEST, type PartGroup, type Site, type StillNode } from './part.ts';
import { SIDE, SIDE_SIZE, writeSide } from './side.ts';

export interface VolumeSpec {
  readonly name: string;
  /** [m3] */
  readonly size: number;
  /** Its own gas, where it isn't the network's. */
  readonly tables?: GasTables | undefined;
}

/** Its state: mass `y[offset]` [kg], internal energy `y[offset + 1]` [J], burned mass `y[offset + 2]` [kg]. */
export interface Volume extends VolumeSpec, StillNode {
  readonly tables: GasTables;
  /** Its gas, size and side in one piece, as the kernel meets them. */
  readonly block: Float64Array;
}

/** Places in a volume's block behind those of its gas, see `networkMemory.ts`. */
const VOLUME_BLOCK = { size: 7, side: 8, opening: 8 + SIDE_SIZE } as const;
const VOLUME_BLOCK_SIZE = VOLUME_BLOCK.opening + 1;

const VOLUME_STATE = 3;

export function createVolume(
  { name, size, tables: own }: VolumeSpec,
  { tables, take, numbers }: Site,
): Volume {
  const block = numbers(VOLUME_BLOCK_SIZE);
  block[VOLUME_BLOCK.size] = size;
  const side = block.subarray(VOLUME_BLOCK.side, VOLUME_BLOCK.opening).fill(400);
  const offset = take(VOLUME_STATE);
  const { energyAt, burnedAt, momentumAt } = atRest(offset);
  const opening = numbers(1);
  block[VOLUME_BLOCK.opening] = opening.byteOffset;
  return { name, tables: own ?? tables, size, offset, energyAt, burnedAt, momentumAt, side, opening, block };
}

/** Writes still gas into the volume's part of `y`: p [Pa], T [K], burned share b [-]. */
export function fillVolume(volume: Volume, y: Float64Array, p: number, T: number, b: number): void {
  const { tables } = volume;
  const m = (p * volume.size) / (frozenR(tables, b) * T);
  y[volume.offset] = m;
  y[volume.offset + 1] = m * frozenU(tables, T, b);
  y[volume.offset + 2] = m * b;
}

export function decodeVolume(volume: Volume, y: Float64Array): void {
  const { offset, side } = volume;
  const m = y[offset];
  side[SIDE.rho] = m / volume.size;
  side[SIDE.e] = y[offset + 1] / m;
  side[SIDE.b] = y[offset + 2] / m;
  writeSide(volume.tables, side);
}

/**
 * How much of a volume's rate counts beside that of ducts [-]. It settles without swinging, and would bear steps twice as
 * long as a wave does; the rest is for accuracy.
 */
const VOLUME_SHARE = 0.8;

export function volumeGroup(volumes: readonly Volume[]): PartGroup {
  return {
    decode(y) {
      for (const volume of volumes) decodeVolume(volume, y);
    },
    // Areas that open into it times sound speed over size: the rate at which it would settle if they were pipe ends.
    raiseFastest(fastest) {
      for (const { side, size, opening } of volumes) {
        const sound = Math.sqrt(side[SIDE.gamma] * side[SIDE.R] * side[SIDE.T]);
        const rate = (VOLUME_SHARE * opening[0] * sound) / size;
        if (rate > fastest[FASTEST.settling]) fastest[FASTEST.settling] = rate;
      }
    },
    isSound() {
      for (const { side } of volumes) if (!(side[SIDE.p] > 0 && side[SIDE.T] > 0)) return false;
      return true;
    },
  };
}
