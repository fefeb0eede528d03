/** Powers that the forecasts of responses came to, over all speeds or at one of them. */

import { scatterOf } from '../forecast/cycleScatter.ts';
import type { ResponseWorld } from './askedForecasts.ts';
import type { Reach } from './heldWithin.ts';
import type { Readings } from './subjects.ts';

/** Mean power over the speeds, or power at one of them. */
export function readings(
  { queue, unknowns }: ResponseWorld,
  reach: ReadonlyMap<string, Reach> = new Map(),
  speed?: number,
): Readings {
  return {
    unknowns,
    reach,
    power: (name) =>
      speed === undefined ? queue.meanPower(name) : (queue.curve(name)?.points[speed]?.powerKw ?? null),
    scatter: (name) => {
      if (speed === undefined) return queue.meanScatter(name);
      const point = queue.curve(name)?.points[speed];
      return point === undefined ? 0 : scatterOf(point);
    },
  };
}
