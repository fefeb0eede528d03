// Outside air through throats into pipes, as packages/core/src/network/feed.ts has it; the numbers of a feed come in the order of
// feedNumbers there.
import { get, put } from './columns';
import { ductFace } from './face';
import { B, GAMMA, H, P, R, RHO, T, W } from './gas';
import { powerNearOne } from './power';
import { DOWN, findPass, GAMMA as PASS_GAMMA, MASS, RT, SLOPE, UP } from './throat';

@inline const FROM = 0;
@inline const MIXTURE = 1;
@inline const DUCT = 2;
@inline const CELLS = 3;
@inline const GAIN = 4;
@inline const ALONG = 5;
@inline const AGAINST = 6;
@inline const FACE_AT = 7;
@inline const WAVE = 8;
@inline const OFFSET = 9;
@inline const AREA = 10;

/** Of a wave, by number, see `WAVE` of the script. */
@inline const STILL = 0;
@inline const Z = 1;
@inline const FOUND = 2;
@inline const START = 3;

@inline const TOLERANCE = 1e-10;
@inline const MAX_ITERATIONS = 40;
@inline const LEAST = 0.05;

/** Sets the fluxes at `count` feeds, whose blocks stand in `list`, and counts what passes in the rates at `d`. */
export function connectFeeds(list: usize, count: i32, d: usize): void {
  for (let j = 0; j < count; j++) connectFeed(<usize>load<i32>(list + (<usize>j << 2)), d);
}

/** Has the next searches start from what the last ones found. */
export function keepFeeds(list: usize, count: i32): void {
  for (let j = 0; j < count; j++) {
    const wave = <usize>get(<usize>load<i32>(list + (<usize>j << 2)), WAVE);
    put(wave, START, get(wave, FOUND));
  }
}

function findInflow(feed: usize, side: usize, wave: usize): void {
  const along = <usize>get(feed, ALONG);
  const still = get(wave, STILL);
  const perZ = get(feed, AREA) / (get(wave, Z) * get(feed, GAIN));
  put(along, PASS_GAMMA, get(side, GAMMA));
  put(along, RT, get(side, R) * get(side, T));
  put(along, UP, get(side, P));
  let low = max(still, LEAST * get(side, P));
  let high = get(side, P);
  let p = get(wave, START);
  if (!(p > low && p < high)) p = 0.5 * (low + high);
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    put(along, DOWN, p);
    findPass(along);
    const taken = perZ * (p - still);
    const over = get(along, MASS) * get(along, MASS) - taken * taken;
    if (over > 0) low = p;
    else high = p;
    const step = over / (get(along, SLOPE) - 2 * perZ * taken);
    if (abs(step) <= TOLERANCE * p) break;
    p -= step;
    if (!(p > low && p < high)) p = 0.5 * (low + high);
  }
  put(wave, FOUND, p);
}

function findOutflow(feed: usize, side: usize, face: usize, wave: usize): void {
  const against = <usize>get(feed, AGAINST);
  const still = get(wave, STILL);
  const z = get(wave, Z);
  const area = get(feed, AREA);
  const gamma = get(face, GAMMA);
  const gasRT = get(face, R) * get(face, T);
  put(against, PASS_GAMMA, gamma);
  put(against, DOWN, get(side, P));
  let low = get(side, P);
  let high = still;
  let p = 0.5 * (low + high);
  for (let i = 0; i < MAX_ITERATIONS && high - low > TOLERANCE * p; i++) {
    const g = (still - p) / z;
    const u = g / get(face, RHO);
    const warmer = 1 + (0.5 * (gamma - 1) * u * u) / (gamma * gasRT);
    put(against, RT, gasRT * warmer);
    put(against, UP, p * powerNearOne(warmer, gamma / (gamma - 1)));
    findPass(against);
    if (get(against, MASS) < g * area) low = p;
    else high = p;
    p = 0.5 * (low + high);
  }
  put(wave, FOUND, p);
}

@inline function leastPressure(still: usize): f64 {
  const gamma = get(still, GAMMA);
  return sqrt((2 * get(still, R) * get(still, T)) / (gamma * (gamma + 1)));
}

@inline function speedAt(still: usize, g: f64, p: f64): f64 {
  const gamma = get(still, GAMMA);
  const gasR = get(still, R);
  const hot = get(still, T);
  const perSpeed = p / (g * gasR);
  return (2 * hot) / (perSpeed + sqrt(perSpeed * perSpeed + (2 * hot * (gamma - 1)) / (gamma * gasR)));
}

function connectFeed(feed: usize, d: usize): void {
  const side = <usize>get(feed, FROM);
  const arrives = <usize>get(feed, MIXTURE);
  const duct = <usize>get(feed, DUCT);
  const face = <usize>get(feed, FACE_AT);
  const wave = <usize>get(feed, WAVE);
  const c = ductFace(duct, <i32>get(feed, CELLS), false, face);
  const u = -get(face, W);
  const z = c / (1 + u / c);
  const still = get(face, P) - z * get(face, RHO) * u;
  put(wave, Z, z);
  put(wave, STILL, still);
  const inward = still < get(side, P);
  if (inward) findInflow(feed, side, wave);
  else findOutflow(feed, side, face, wave);
  const area = get(feed, AREA);
  const found = get(wave, FOUND);
  const g = (found - still) / z;
  const mass = g * area;
  const p = inward ? max(found, g * leastPressure(arrives)) : found;
  const speed = inward ? speedAt(arrives, g, p) : g / get(face, RHO);
  const energy = mass * (inward ? get(arrives, H) : get(face, H) + 0.5 * u * u);
  put(duct, 12, mass);
  put(duct, 13, (p + g * speed) * area);
  put(duct, 14, energy);
  put(duct, 15, inward ? 0 : mass * get(face, B));
  const offset = <i32>get(feed, OFFSET);
  put(d, offset, get(d, offset) + mass);
  put(d, offset + 1, get(d, offset + 1) + energy);
}
