/** What isn't known of torque and of gains, speed by speed, from the same responses as over the band. */

import type { SpeedBand } from '../forecast/band.ts';
import { linearTable } from '../numerics/interpolate.ts';
import { standardDeviation } from '../numerics/standardDeviation.ts';
import { deviatesOf } from './deviates.ts';
import { type Correlated, pairedDraws } from './pairedDraws.ts';
import type { Responses } from './responses.ts';

/** One standard deviation at a speed, in shares of the torque of the engine as it is. */
export interface Spread {
  /** Of the engine's own torque, or of a gain in torque [N m over N m: -]. */
  readonly torque: number;
  /** Of a gain in percent, each draw against the engine as it is in that draw [-]; as `torque` for the engine itself. */
  readonly ratio: number;
}

/** The spread at a speed [1/min]; null where none was worked out. */
export type SpreadAt = (rpm: number) => Spread | null;

/** Spreads of the engine as it is, and of each change by its name. */
export interface SpeedSpreads {
  readonly baseline: SpreadAt;
  readonly changes: ReadonlyMap<string, SpreadAt>;
}

/**
 * Spreads at the speeds that responses were taken at, straight between them, and out to the ends of the band held at the
 * nearest: spreads are of one sign, and to draw a straight line between the draws instead would let what is independent
 * at two speeds average out half way. Outside the band nothing was looked at.
 */
export function speedSpreads(
  responses: Responses,
  band: SpeedBand,
  draws: { readonly seed: number; readonly correlated: Correlated | null },
): SpeedSpreads {
  const rpm: number[] = [];
  const own: Spread[] = [];
  const gains = new Map<string, Spread[]>();
  const deviates = deviatesOf(draws.seed);
  for (const { rpm: n, baseline, candidates } of responses.complete ? responses.bySpeed : []) {
    if (baseline === null) continue;
    const known = candidates.filter((subject) => subject !== null);
    const drawn = pairedDraws(baseline, known, { ...draws, deviates });
    rpm.push(n);
    const alone = standardDeviation(drawn.baseline);
    own.push({ torque: alone, ratio: alone });
    known.forEach(({ name }, i) => {
      const ratio = drawn.gains[i].map((gain) => gain / 100);
      const torque = ratio.map((gain, k) => gain * (1 + drawn.baseline[k]));
      const spread: Spread = { torque: standardDeviation(torque), ratio: standardDeviation(ratio) };
      gains.set(name, [...(gains.get(name) ?? []), spread]);
    });
  }
  return {
    baseline: spreadAt(rpm, own, band),
    changes: new Map([...gains].map(([name, spreads]) => [name, spreadAt(rpm, spreads, band)])),
  };
}

function spreadAt(
  rpm: readonly number[],
  spreads: readonly Spread[],
  { fromRpm, toRpm }: SpeedBand,
): SpreadAt {
  if (rpm.length === 0) return () => null;
  const between = (of: keyof Spread): ((n: number) => number) =>
    rpm.length === 1
      ? () => spreads[0][of]
      : linearTable(
          rpm,
          spreads.map((spread) => spread[of]),
        ).valueAt;
  const [torque, ratio] = [between('torque'), between('ratio')];
  return (n) => (n >= fromRpm && n <= toRpm ? { torque: torque(n), ratio: ratio(n) } : null);
}
