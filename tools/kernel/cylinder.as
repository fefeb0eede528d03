// Cylinders, as packages/core/src/network/cylinder.ts has them. Their blocks are laid out and filled by
// packages/core/src/network/kernelCylinder.ts.
import { get, put } from './columns';
import { B, E, GAMMA, H, P, R, T } from './gas';
import { cos, expLessOne, pow, sin } from './power';
import { decodeOneZone, decodeTwoZones } from './zones';

@inline export const OFFSET = 0;
@inline export const SIDE = 1;
@inline export const OPENING = 2;
@inline const FIRING_ANGLE = 3;
@inline export const BORE = 4;
@inline export const STROKE = 5;
@inline const ROD = 6;
@inline export const CLEARANCE = 7;
@inline export const PISTON_AREA = 8;
@inline const SPRAYED = 16;
@inline const LIQUID_R = 17;
@inline const LATENT_HEAT = 18;
@inline export const GAS = 23;
@inline export const SPEED = 24;
@inline export const BURNING = 25;
@inline export const RESIDUAL = 28;
@inline export const BURN_START = 29;
@inline export const BURN_DURATION = 30;
@inline export const BURN_A = 31;
@inline export const BURN_M = 32;
@inline export const START_P = 37;
@inline export const START_TB = 38;
@inline export const ANGLE = 39;
@inline export const V = 40;
@inline export const DV = 41;
@inline export const M = 42;
@inline export const U = 43;
@inline export const S = 44;
@inline export const X = 45;
@inline export const TU = 46;
@inline export const TB = 47;
@inline export const TM = 48;

/** Places in a cylinder's part of the state, see `CYL` of the script. */
@inline export const MASS = 0;
@inline export const ENERGY = 1;
@inline export const BURNED = 2;
@inline export const ENTROPY = 3;
@inline export const LIQUID = 8;

@inline const PI = 3.141592653589793;
@inline const T_REFERENCE = 298.15;

/** Decodes `count` cylinders, whose blocks stand in `list`, from the state at `y`; the crank angle stands at `theta`. */
export function decodeCylinders(list: usize, count: i32, theta: usize, y: usize): void {
  for (let j = 0; j < count; j++) {
    const cylinder = <usize>load<i32>(list + (<usize>j << 2));
    const a = get(theta, 0) - get(cylinder, FIRING_ANGLE);
    put(cylinder, ANGLE, a - 720 * floor((a + 360) / 720));
    decodeAtAngle(cylinder, y + (<usize>get(cylinder, OFFSET) << 3));
    put(<usize>get(cylinder, OPENING), 0, 0);
  }
}

function decodeAtAngle(cylinder: usize, y: usize): void {
  const side = <usize>get(cylinder, SIDE);
  moveVolume(cylinder, (get(cylinder, ANGLE) * PI) / 180);
  put(cylinder, DV, get(cylinder, DV) * get(cylinder, SPEED));
  const m = get(y, MASS);
  put(cylinder, M, m);
  if (get(cylinder, BURNING) !== 0) {
    const x = burnedShare(cylinder);
    put(cylinder, X, x);
    if (x > 1e-7) {
      put(cylinder, U, get(y, ENERGY));
      put(cylinder, S, get(y, ENTROPY));
      decodeTwoZones(cylinder, side);
      return;
    }
  }
  put(cylinder, X, 0);
  put(side, B, get(y, BURNED) / m);
  if (get(cylinder, SPRAYED) !== 0 && get(y, LIQUID) > 0) decodeSpray(cylinder, side, y);
  else {
    put(side, E, get(y, ENERGY) / m);
    decodeOneZone(cylinder, side);
  }
  put(cylinder, TM, get(side, T));
  put(cylinder, TU, get(side, T));
}

@inline function moveVolume(cylinder: usize, angle: f64): void {
  const radius = get(cylinder, STROKE) / 2;
  const rod = get(cylinder, ROD);
  const half = sin(angle / 2);
  const sine = 2 * radius * half * cos(angle / 2);
  const lift = 2 * radius * half * half;
  const along = sqrt(rod * rod - sine * sine);
  const area = get(cylinder, PISTON_AREA);
  put(cylinder, V, get(cylinder, CLEARANCE) + area * (lift + (sine * sine) / (rod + along)));
  put(cylinder, DV, area * sine * (1 + (radius - lift) / along));
}

function burnedShare(cylinder: usize): f64 {
  const y = (get(cylinder, ANGLE) - get(cylinder, BURN_START)) / get(cylinder, BURN_DURATION);
  if (!(y > 0)) return 0;
  const a = get(cylinder, BURN_A);
  return y < 1 ? expLessOne(-a * pow(y, get(cylinder, BURN_M) + 1)) / expLessOne(-a) : 1;
}

function decodeSpray(cylinder: usize, side: usize, y: usize): void {
  const m = get(cylinder, M);
  const liquid = get(y, LIQUID);
  const fuelR = get(cylinder, LIQUID_R);
  put(side, E, (get(y, ENERGY) + liquid * (get(cylinder, LATENT_HEAT) - fuelR * T_REFERENCE)) / m);
  decodeOneZone(cylinder, side);
  const cv = get(side, R) / (get(side, GAMMA) - 1);
  const Rm = get(side, R) - (liquid / m) * fuelR;
  put(side, R, Rm);
  put(side, GAMMA, 1 + Rm / cv);
  put(side, P, (m * Rm * get(side, T)) / get(cylinder, V));
  put(side, H, get(y, ENERGY) / m + Rm * get(side, T));
}

/** Has the next searches of zones of `count` cylinders start from what the last ones found. */
export function keepZones(list: usize, count: i32): void {
  for (let j = 0; j < count; j++) {
    const cylinder = <usize>load<i32>(list + (<usize>j << 2));
    if (get(cylinder, BURNING) === 0) continue;
    put(cylinder, START_P, get(<usize>get(cylinder, SIDE), P));
    put(cylinder, START_TB, get(cylinder, TB));
  }
}

/** As CYLINDER_SHARE of packages/core/src/network/cylinderGroup.ts. */
@inline const CYLINDER_SHARE = 2.0;

/** Raises the number at `rate` to the fastest of `count` cylinders. */
export function raiseCylinders(list: usize, count: i32, rate: usize): void {
  for (let j = 0; j < count; j++) {
    const cylinder = <usize>load<i32>(list + (<usize>j << 2));
    const side = <usize>get(cylinder, SIDE);
    const opening = get(<usize>get(cylinder, OPENING), 0);
    if (opening === 0) continue;
    const sound = sqrt(get(side, GAMMA) * get(side, R) * get(side, T));
    const fastest = (CYLINDER_SHARE * opening * sound) / get(cylinder, V);
    if (fastest > get(rate, 0)) put(rate, 0, fastest);
  }
}

export function areCylindersSound(list: usize, count: i32): bool {
  for (let j = 0; j < count; j++) {
    const side = <usize>get(<usize>load<i32>(list + (<usize>j << 2)), SIDE);
    if (!(get(side, P) > 0 && get(side, T) > 0)) return false;
  }
  return true;
}
