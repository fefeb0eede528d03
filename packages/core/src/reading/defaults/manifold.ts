/** Manifold by style: plenum, runners, flow loss. */
import { INCH } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { Manifold } from '../schema/inductionSection.ts';

interface StyleFacts {
  /** Plenum over displacement [-]; from memory. */
  readonly plenum: number;
  /** Runner from plenum to head [m] on a 4 in bore; common practice, no source. */
  readonly runner: number;
  /** Runner area at the plenum over area at the head [-]; from memory. */
  readonly taper: number;
  /** Share of the head's flow lost with the manifold bolted on [-]; common practice, no source. */
  readonly loss: number;
}

/** Figures of each style; runner lengths and losses are common practice, plenums and tapers from memory. */
export const MANIFOLD_STYLES: Readonly<Record<Manifold, StyleFacts>> = {
  'single-plane': { plenum: 0.3, runner: 5.5 * INCH, taper: 1.15, loss: 0.06 },
  'dual-plane': { plenum: 0.2, runner: 8 * INCH, taper: 1, loss: 0.12 },
  'individual-runner': { plenum: 0.3, runner: 8 * INCH, taper: 1.1, loss: 0.02 },
  'individual-throttles': { plenum: 0, runner: 9 * INCH, taper: 1.1, loss: 0.02 },
  'long-runner': { plenum: 1, runner: 12 * INCH, taper: 1.1, loss: 0.06 },
};

/** Runner area at the head over mean port area [-]: faces are cut a little above the port; from memory. */
export const EXIT_OVER_PORT = 1.03;

const REFERENCE_BORE = 4 * INCH;

/** Speed at rated power from which a carbureted V8 has a single plane [rpm]: dual planes end at 6000 to 6500; common practice, no source. */
export const SINGLE_PLANE_FROM = 6500;

/** @param isPlain - nothing is said of a plenum or of what belongs to one */
export function manifoldStyle(
  kind: 'carburetor' | 'throttle',
  engine: {
    readonly cylinders: number;
    readonly isV: boolean;
    readonly isPlain: boolean;
    /** Carburetors or throttles, where the file says. */
    readonly count?: number | undefined;
    /** [rpm] */
    readonly ratedSpeed: () => number;
  },
): WordEstimate<Manifold> {
  const { cylinders, isV, isPlain, count, ratedSpeed } = engine;
  if (cylinders === 1 && isPlain)
    return { value: 'individual-throttles', reason: 'one cylinder has nothing to share a plenum with' };
  if (count === cylinders && isPlain)
    return { value: 'individual-throttles', reason: `one ${kind} a cylinder` };
  if (kind === 'throttle') return { value: 'long-runner', reason: 'usual with a throttle body' };
  if (!(isV && cylinders === 8)) return { value: 'single-plane', reason: 'usual with a carburetor' };
  return ratedSpeed() > SINGLE_PLANE_FROM
    ? { value: 'single-plane', reason: 'usual on a carbureted V8 rated above 6500 rpm' }
    : { value: 'dual-plane', reason: 'usual on a carbureted V8' };
}

/** `an individual-runner manifold`, as a reason has it. */
function named(style: Manifold): string {
  if (style === 'individual-throttles') return 'individual throttles';
  return style === 'individual-runner' ? 'an individual-runner manifold' : `a ${style} manifold`;
}

export function plenumVolume(style: Manifold, displacement: number): Estimate {
  const share = MANIFOLD_STYLES[style].plenum;
  const value = share * displacement;
  return {
    value,
    spread: 0.3 * value,
    reason: `${share} of the displacement for ${named(style)}; from memory`,
  };
}

/**
 * Length from valve to mouth times turns in a second [m/s] up to which runners are as long as usual: production engines of 1993 and 2004
 * (tests/data), of this program's lengths, reach 40.
 */
export const USUAL_TRACT_SPEED = 42;
/**
 * How tracts of faster engines shorten with that product: trumpets of engines rated at 9 000 to 18 500 rpm are 0.2 to 0.3 m from valve to mouth
 * (from memory), longer than waves alone ask for.
 */
export const TRACT_EXPONENT = 0.6;

/**
 * @param portLength - [m]
 * @param ratedSpeed - [rpm]
 */
export function runnerLength(
  style: Manifold,
  bore: number,
  portLength: number,
  ratedSpeed: number,
): Estimate {
  const usual = (MANIFOLD_STYLES[style].runner * bore) / REFERENCE_BORE;
  const tract = usual + portLength;
  const pace = ((ratedSpeed / 60) * tract) / USUAL_TRACT_SPEED;
  const value = pace > 1 ? Math.max(0.3 * usual, tract * pace ** -TRACT_EXPONENT - portLength) : usual;
  return {
    value,
    spread: 0.2 * value,
    reason:
      pace > 1
        ? `usual for ${named(style)}, with the bore, and shorter for its rated speed; from memory`
        : `usual for ${named(style)}, with the bore; common practice, no source`,
  };
}

/** A bent runner's middle line is measured, its ends and its bends are not. */
export function runnerLengthMultiplier(): Estimate {
  return {
    value: 1,
    spread: 0.04,
    reason: 'waves see the measured length, give or take its ends; from memory',
  };
}

export function runnerExitArea(portArea: number): Estimate {
  const value = EXIT_OVER_PORT * portArea;
  return { value, spread: 0.05 * value, reason: 'port area plus 3 %; from memory' };
}

export function runnerEntryArea(style: Manifold, exitArea: number): Estimate {
  const { taper } = MANIFOLD_STYLES[style];
  const value = taper * exitArea;
  return {
    value,
    spread: 0.08 * value,
    reason: `${taper === 1 ? 'the area' : `${taper} of the area`} at the head for ${named(style)}; from memory`,
  };
}

export function flowLoss(style: Manifold): Estimate {
  return {
    value: MANIFOLD_STYLES[style].loss,
    spread: 0.04,
    reason: `usual for ${named(style)}; common practice, no source`,
  };
}

/** A throttle or carburetor stands nearer to the mouth than to the valve. */
export function throttleAt(length: number): Estimate {
  const value = 0.4 * length;
  return { value, spread: 0.1 * length, reason: 'two fifths of the way from the mouth; from memory' };
}

/** Effective over geometric area of a mouth [-]: losses of 0.05 and of 0.8 dynamic pressures of textbooks of flow in pipes; from memory. */
export const MOUTH_COEFFICIENT = { bell: 0.976, plain: 0.745 } as const;

export function mouth(): WordEstimate<'bell'> {
  return { value: 'bell', reason: 'trumpets are rolled at their mouths' };
}
