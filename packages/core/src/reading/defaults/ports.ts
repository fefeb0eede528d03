/** Length and area of a port, and flow against its usual direction. */
import type { Estimate } from '../../combination/ledger.ts';
import type { Side } from '../../combination/sides.ts';

/** How far the ports of a head have been worked: not at all, the bowls under the seats, or all the way. */
export const PORT_STATES = ['as-cast', 'bowls-blended', 'fully-ported'] as const;
export type PortState = (typeof PORT_STATES)[number];

/**
 * Usual narrow places of an intake port by its state, where none was measured: throat diameter over valve head, and smallest area
 * over the area of the throats [-]; from memory. A cast throat is so narrow that little behind it is narrower.
 */
export const USUAL_PORT: Readonly<Record<PortState, { readonly throat: number; readonly smallest: number }>> =
  {
    'as-cast': { throat: 0.8, smallest: 0.9 },
    'bowls-blended': { throat: 0.85, smallest: 0.83 },
    'fully-ported': { throat: 0.9, smallest: 0.8 },
  };

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

/**
 * Most effective area, by the compressible law, of a port's smallest area [-]: 92 % of the 147 cfm/in2 at 28 inH2O that no port
 * exceeds; from memory.
 */
export const MOST_FLOW_OF_MINIMUM = 0.955;

/** Smallest area of the port [m2] by the area of its throats, or what a measured flow asks for: its effective area, 0 for none. */
export function minimumArea(throats: number, side: Side, flowing: number): Estimate {
  const ratio = MINIMUM_AREA_RATIO[side];
  const needed = flowing / MOST_FLOW_OF_MINIMUM;
  if (needed > ratio * throats) {
    return {
      value: needed,
      spread: 0.05 * needed,
      reason: 'what the best flow of the sheet asks for; from memory',
    };
  }
  const value = ratio * throats;
  return {
    value,
    spread: 0.08 * value,
    reason: `${ofThroat(ratio)}; common practice, no source`,
  };
}

/** Throat of an intake port [m] by its state. */
export function throatByState(valve: number, ports: PortState): Estimate {
  const { throat } = USUAL_PORT[ports];
  return {
    value: throat * valve,
    spread: 0.02 * valve,
    reason: `${100 * throat} % of the valve head, usual for ports ${inWords(ports)}; from memory`,
  };
}

/**
 * Least and most throat over valve head where a production engine's follows its rated speed [-]. Most: what the trade leaves for a
 * seat. Least: two thirds of the usual area; engines rated that low have smaller valves too.
 */
export const PACED_THROAT = { min: 0.65, max: 0.9 } as const;

/**
 * Throat of an intake port [m] of a production engine by its rated speed: its area goes with the mean piston speed there, so that the gas is as fast
 * in every engine at its rated speed. Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6 (from memory): a
 * mean inlet Mach index of 0.5 to 0.6 at rated speed, past which filling falls off.
 *
 * So production ports go: six eights and three sixes with two valves, of 1975 to 2000, flow 1.17 cfm at 28 inH2O for a square inch of
 * piston and a m/s of its mean speed at rated power, standard deviation 0.11, from 11 to 17 m/s (flow as the trade tells it, from memory). Their
 * valves, 0.445 to 0.49 bores, don't follow that speed.
 *
 * @param pace - mean piston speed at rated speed over the usual one [-]
 */
export function throatByPace(valve: number, pace: number): Estimate {
  const { throat } = USUAL_PORT['as-cast'];
  const ratio = Math.min(PACED_THROAT.max, Math.max(PACED_THROAT.min, throat * Math.sqrt(pace)));
  return {
    value: ratio * valve,
    spread: 0.025 * valve,
    reason: `${(100 * ratio).toFixed(0)} % of the valve head: a port cast for the rated speed, ${100 * throat} % where that is usual; from memory`,
  };
}

function ofThroat(ratio: number): string {
  return ratio === 1 ? 'the area of the throat' : `${(100 * ratio).toFixed(0)} % of the area of the throat`;
}

/** Smallest area of an intake port [m2] by its state and the area of its throats. */
export function smallestByState(throats: number, ports: PortState): Estimate {
  const { smallest } = USUAL_PORT[ports];
  return {
    value: smallest * throats,
    spread: 0.08 * smallest * throats,
    reason: `${ofThroat(smallest)}, usual for ports ${inWords(ports)}; from memory`,
  };
}

function inWords(ports: PortState): string {
  if (ports === 'as-cast') return 'as cast';
  return ports === 'bowls-blended' ? 'with blended bowls' : 'worked all the way';
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
