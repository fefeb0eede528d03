/** Throats that give back part of their drop, alone or two in series: venturi of a carburetor, restrictor plate, sonic restrictor. */
import { powerNearOne } from '../numerics/powerNearOne.ts';
import type { Site } from './part.ts';

/** The narrowest place of a stream between gas at rest. */
export interface Throat {
  /** Effective [m2]. */
  readonly area: number;
  /**
   * Of the pressure drop from still gas to the throat, the share that is lost behind it [-]. 1: the jet is lost whole, as behind a plate;
   * below: a diffuser gives some back, and the throat chokes at a smaller drop in all; above: more is lost beside the jet.
   */
  readonly lost: number;
}

/**
 * What passes one or two throats. In: areas [m2] and lost shares of the first and the second, an area of 0 for no second; ratio of
 * specific heats, gas constant times temperature [J/kg], and pressures [Pa] in front and behind. Out: mass flow [kg/s], slope of its
 * square by the pressure behind, and the pressure between the two.
 */
export const PASS = {
  area: 0,
  lost: 1,
  secondArea: 2,
  secondLost: 3,
  gamma: 4,
  RT: 5,
  up: 6,
  down: 7,
  mass: 8,
  slope: 9,
  between: 10,
} as const;
export const PASS_SIZE = 11;

/** One or two throats in the way of the stream, or against it. What gives pressure back one way doesn't the other. */
export function passOf(
  throats: readonly Throat[],
  way: 'along' | 'against',
  numbers: Site['numbers'] = (count) => new Float64Array(count),
): Float64Array {
  const against = way === 'against';
  const [first, second] = against ? [...throats].reverse() : throats;
  const share = ({ lost }: Throat): number => (against ? Math.max(1, lost) : lost);
  const pass = numbers(PASS_SIZE);
  pass[PASS.area] = first.area;
  pass[PASS.lost] = share(first);
  if (second !== undefined) {
    pass[PASS.secondArea] = second.area;
    pass[PASS.secondLost] = share(second);
  }
  return pass;
}

/** Relative pressure drop below which the square root is made straight, so that the rate stays finite. */
const STRAIGHT = 1e-4;
/** Relative error of the drops at which the pressure between two throats is found. */
const TOLERANCE = 1e-9;
const MAX_ITERATIONS = 40;

/** One throat from `up` to `down`, see {@link squareOf}: in an array, since numbers handed to a function are put on the heap one by one. */
const ONE = { area: 0, lost: 1, up: 2, down: 3, square: 4, byUp: 5, byDown: 6 } as const;
/** Scratch of {@link findPass}: written and read within one call, never kept. */
const first = new Float64Array(7);
const second = new Float64Array(7);
const gas = new Float64Array(3);
const GAS = { gamma: 0, RT: 1, critical: 2 } as const;

/**
 * Square of the mass flow through one throat with its slopes: isentropic from still gas to the throat, whose drop is the whole drop over
 * the share lost, and no further than to the speed of sound.
 *
 * @see Heywood, Internal Combustion Engine Fundamentals (1988), appendix C, eq. C.8 and C.9, for a share of 1
 */
function squareOf(one: Float64Array): void {
  const gamma = gas[GAS.gamma];
  const up = one[ONE.up];
  const perLost = 1 / one[ONE.lost];
  let pr = 1 - (1 - one[ONE.down] / up) * perLost;
  const choked = pr < gas[GAS.critical];
  if (choked) pr = gas[GAS.critical];
  const y = powerNearOne(pr, 1 / gamma);
  const most = (one[ONE.area] * one[ONE.area] * up * up * 2 * gamma) / ((gamma - 1) * gas[GAS.RT]);
  const square = most * y * (y - pr);
  const slope = choked ? 0 : (most * (y * (2 * y - pr) - gamma * pr * y) * perLost) / (gamma * pr);
  one[ONE.square] = square;
  one[ONE.byDown] = slope / up;
  one[ONE.byUp] = (2 * square - (slope * one[ONE.down]) / up) / up;
}

/**
 * Mass flow through the throats of a {@link PASS}, pressure falling from `up` to `down`. Behind the first of two the gas is at rest again,
 * but for the share of its jet that it gives back as pressure; the pressure between them is the one at which both pass the same.
 */
export function findPass(pass: Float64Array): void {
  const up = pass[PASS.up];
  const drop = (up - pass[PASS.down]) / up;
  const straight = drop < STRAIGHT;
  const down = straight ? up * (1 - STRAIGHT) : pass[PASS.down];
  const gamma = pass[PASS.gamma];
  gas[GAS.gamma] = gamma;
  gas[GAS.RT] = pass[PASS.RT];
  gas[GAS.critical] = powerNearOne(2 / (gamma + 1), gamma / (gamma - 1));
  first[ONE.area] = pass[PASS.area];
  first[ONE.lost] = pass[PASS.lost];
  first[ONE.up] = up;
  first[ONE.down] = down;
  let square: number;
  if (pass[PASS.secondArea] === 0) {
    squareOf(first);
    square = first[ONE.square];
    pass[PASS.slope] = first[ONE.byDown];
    pass[PASS.between] = down;
  } else {
    second[ONE.area] = pass[PASS.secondArea];
    second[ONE.lost] = pass[PASS.secondLost];
    second[ONE.down] = down;
    findBetween();
    square = second[ONE.square];
    pass[PASS.slope] = (first[ONE.byDown] * second[ONE.byDown]) / (first[ONE.byDown] - second[ONE.byUp]);
    pass[PASS.between] = first[ONE.down];
  }
  const scale = straight ? drop / STRAIGHT : 1;
  pass[PASS.mass] = Math.sqrt(square) * scale;
  // Where the flow is straight in the drop its square is a parabola.
  if (straight) pass[PASS.slope] = (-2 * square * drop) / (STRAIGHT * STRAIGHT * up);
}

/** Pressure between two throats: Newton's method on the difference of the squared flows, within bounds that close in. */
function findBetween(): void {
  const up = first[ONE.up];
  const down = second[ONE.down];
  const drop = up - down;
  // Of two incompressible losses each takes its share of the drop.
  const one = first[ONE.lost] / (first[ONE.area] * first[ONE.area]);
  const two = second[ONE.lost] / (second[ONE.area] * second[ONE.area]);
  let between = up - (drop * one) / (one + two);
  let low = down;
  let high = up;
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    first[ONE.down] = between;
    second[ONE.up] = between;
    squareOf(first);
    squareOf(second);
    const over = first[ONE.square] - second[ONE.square];
    if (over > 0) low = between;
    else high = between;
    const step = over / (first[ONE.byDown] - second[ONE.byUp]);
    if (Math.abs(step) <= TOLERANCE * drop) return;
    between -= step;
    if (!(between > low && between < high)) between = 0.5 * (low + high);
  }
}
