// One throat or two in series, as packages/core/src/network/throat.ts has them; `pass` is its PASS.
import { get, put } from './columns';
import { powerNearOne } from './power';

@inline const AREA = 0;
@inline const LOST = 1;
@inline const SECOND_AREA = 2;
@inline const SECOND_LOST = 3;
@inline export const GAMMA = 4;
@inline export const RT = 5;
@inline export const UP = 6;
@inline export const DOWN = 7;
@inline export const MASS = 8;
@inline export const SLOPE = 9;
@inline const BETWEEN = 10;

@inline const STRAIGHT = 1e-4;
@inline const TOLERANCE = 1e-9;
@inline const MAX_ITERATIONS = 40;

/** The gas, and what `squareOf` finds: written and read within one call of `findPass`, never kept. */
let gamma: f64 = 0;
let perGamma: f64 = 0;
let critical: f64 = 0;
let gasRT: f64 = 0;
let square: f64 = 0;
let byUp: f64 = 0;
let byDown: f64 = 0;

function squareOf(area: f64, lost: f64, up: f64, down: f64): void {
  const perLost = 1 / lost;
  let pr = 1 - (1 - down / up) * perLost;
  const choked = pr < critical;
  if (choked) pr = critical;
  const y = powerNearOne(pr, perGamma);
  const most = (area * area * up * up * 2 * gamma) / ((gamma - 1) * gasRT);
  square = most * y * (y - pr);
  const slope = choked ? 0 : (most * (y * (2 * y - pr) - gamma * pr * y) * perLost) / (gamma * pr);
  byDown = slope / up;
  byUp = (2 * square - (slope * down) / up) / up;
}

export function findPass(pass: usize): void {
  const up = get(pass, UP);
  const drop = (up - get(pass, DOWN)) / up;
  const straight = drop < STRAIGHT;
  const down = straight ? up * (1 - STRAIGHT) : get(pass, DOWN);
  gamma = get(pass, GAMMA);
  perGamma = 1 / gamma;
  gasRT = get(pass, RT);
  critical = powerNearOne(2 / (gamma + 1), gamma / (gamma - 1));
  if (get(pass, SECOND_AREA) === 0) {
    squareOf(get(pass, AREA), get(pass, LOST), up, down);
    put(pass, SLOPE, byDown);
    put(pass, BETWEEN, down);
  } else findBetween(pass, up, down);
  const scale = straight ? drop / STRAIGHT : 1;
  put(pass, MASS, sqrt(square) * scale);
  if (straight) put(pass, SLOPE, (-2 * square * drop) / (STRAIGHT * STRAIGHT * up));
}

/** Pressure between two throats, and what passes both. */
function findBetween(pass: usize, up: f64, down: f64): void {
  const area = get(pass, AREA);
  const lost = get(pass, LOST);
  const secondArea = get(pass, SECOND_AREA);
  const secondLost = get(pass, SECOND_LOST);
  const drop = up - down;
  const one = lost / (area * area);
  const two = secondLost / (secondArea * secondArea);
  let between = up - (drop * one) / (one + two);
  let low = down;
  let high = up;
  let met = between;
  let firstByDown: f64 = 0;
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    met = between;
    squareOf(area, lost, up, between);
    const firstSquare = square;
    firstByDown = byDown;
    squareOf(secondArea, secondLost, between, down);
    const over = firstSquare - square;
    if (over > 0) low = between;
    else high = between;
    const step = over / (firstByDown - byUp);
    if (abs(step) <= TOLERANCE * drop) break;
    between -= step;
    if (!(between > low && between < high)) between = 0.5 * (low + high);
  }
  put(pass, SLOPE, (firstByDown * byDown) / (firstByDown - byUp));
  put(pass, BETWEEN, met);
}
