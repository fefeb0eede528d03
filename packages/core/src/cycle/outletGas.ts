/** Gas that flows back in at the outlets: exhaust that left, as warm as it was, with air drawn in from around. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { END } from '../network/ductEnd.ts';
import { SIDE, writeStill } from '../network/side.ts';
import type { March } from './march.ts';

/** Watches what leaves over a cycle, and makes of it what flows back in the next. */
export interface OutletGas {
  /** Feed it every accepted step, its length in seconds. */
  readonly add: (h: number) => void;
  /** To be called between cycles: the gas outside is from now on what the last cycle let out. */
  readonly renew: () => void;
  /** Its temperature [K], to be read and set between cycles. */
  readonly temperature: () => number;
  readonly set: (T: number) => void;
}

/**
 * What left an open pipe is a jet on its way; what the pipe then draws in comes from all around it. Of what flows back the stated
 * share is exhaust at the mean temperature at which it left, the rest air. The network knows no air without fuel, so that it
 * all counts as burned: what gets as far as a cylinder does not burn either way.
 */
export function outletGas(engine: EngineNetwork, march: March): OutletGas {
  const { network } = march;
  const { outlet, spec } = engine;
  const outlets = network.ends.filter(
    ({ spec: { to } }) => to.kind === 'reservoir' && to.index === outlet.reservoir,
  );
  const { side } = network.reservoirs[outlet.reservoir];
  let mass = 0;
  let warmth = 0;
  let temperature = side[SIDE.T];
  const set = (T: number): void => {
    temperature = T;
    writeStill(spec.tables, side[SIDE.p], T, 1, side);
  };
  return {
    add: (h) => {
      for (const { flow, face } of outlets) {
        if (!(flow[END.mass] > 0)) continue;
        mass += h * flow[END.mass];
        warmth += h * flow[END.mass] * face[SIDE.T];
      }
    },
    renew: () => {
      // A cycle that let nothing out, or was lost, leaves the gas outside as it was.
      const left = warmth / mass;
      mass = 0;
      warmth = 0;
      if (!Number.isFinite(left)) return;
      const T = outlet.returned * left + (1 - outlet.returned) * outlet.air;
      set(T);
    },
    temperature: () => temperature,
    set,
  };
}
