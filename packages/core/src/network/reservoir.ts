/** Gas that never changes: outside air, or what stands beyond an exhaust outlet. */
import type { GasTables } from '../gas/gasTables.ts';
import type { Account, Site, StillNode } from './part.ts';
import { SIDE, SIDE_SIZE, writeStill } from './side.ts';

/** Still gas: pressure [Pa], temperature [K], burned share. */
export interface ReservoirSpec {
  readonly p: number;
  readonly T: number;
  readonly b: number;
  /** Gas that is another than the network's; left out: the network's. */
  readonly tables?: GasTables | undefined;
  /** Outside air that an orifice draws from: its own gas constant [J/(kg K)] and ratio of specific heats. */
  readonly R?: number;
  readonly gamma?: number;
  /** What leaves it is counted as taken in by the engine; without this, what goes to it is counted as given off. */
  readonly supplies?: boolean;
}

export interface Reservoir extends StillNode {
  readonly supplies: boolean;
}

/** A reservoir has no state. */
const NOWHERE = { offset: -1, energyAt: -1, burnedAt: -1, momentumAt: -1 } as const;

export function createReservoir(
  spec: ReservoirSpec,
  { tables, numbers }: Pick<Site, 'tables' | 'numbers'>,
): Reservoir {
  const side = numbers(SIDE_SIZE);
  writeStill(spec.tables ?? tables, spec.p, spec.T, spec.b, side);
  if (spec.R !== undefined) side[SIDE.R] = spec.R;
  if (spec.gamma !== undefined) side[SIDE.gamma] = spec.gamma;
  return { side, ...NOWHERE, opening: new Float64Array(1), supplies: spec.supplies ?? false };
}

/** Counts what a node gave [kg], [J], less than nothing where it took: only what crosses the engine's bounds, that of a reservoir. */
export function countGiven(
  node: StillNode | Reservoir,
  mass: number,
  energy: number,
  account: Account,
): void {
  if (!('supplies' in node)) return;
  if (node.supplies) {
    account.massIn += mass;
    account.energyIn += energy;
  } else {
    account.massOut -= mass;
    account.energyOut -= energy;
  }
}
