/** Length and area of a port, and flow against its usual direction. */
import type { Estimate } from '../ledger.ts';
import type { Side } from './side.ts';

/** Port length over bore [-]: 5 in intake and 3 in exhaust on a 4 in bore; common practice, no source. */
export const PORT_LENGTH_RATIO: Readonly<Record<Side, number>> = { intake: 1.25, exhaust: 0.75 };

/** Smallest port area over throat area [-]; common practice, no source. An exhaust port is about as wide as its throat. */
export const MINIMUM_AREA_RATIO: Readonly<Record<Side, number>> = { intake: 0.8, exhaust: 1 };

/** Smallest over mean area of a port [-]; common practice, no source. */
export const MINIMUM_OVER_MEAN = 0.88;

/** Share of the usual flow that passes the wrong way [-]: sharp edges meet the flow; from memory. */
export const REVERSE_FLOW: Readonly<Record<Side, number>> = { intake: 0.85, exhaust: 0.9 };

export function portLength(bore: number, side: Side): Estimate {
  const ratio = PORT_LENGTH_RATIO[side];
  return {
    value: ratio * bore,
    spread: 0.15 * ratio * bore,
    reason: `${ratio} bores; common practice, no source`,
  };
}

/** Smallest area of the port [m2] by the area of its throats. */
export function minimumArea(throats: number, side: Side): Estimate {
  const ratio = MINIMUM_AREA_RATIO[side];
  const value = ratio * throats;
  return {
    value,
    spread: 0.08 * value,
    reason: `${ratio} of the area of the throat; common practice, no source`,
  };
}

/** Smallest over mean area of the port [-]. */
export function areaRatio(): Estimate {
  return {
    value: MINIMUM_OVER_MEAN,
    spread: 0.05,
    reason: 'smallest over mean area of a port; common practice, no source',
  };
}

export function reverseFlow(side: Side): Estimate {
  return {
    value: REVERSE_FLOW[side],
    spread: 0.08,
    reason: 'edges meet the flow from the wrong side; from memory',
  };
}
