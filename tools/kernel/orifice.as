// Flow between two nodes at rest, as packages/core/src/network/orifice.ts has it; the numbers of an orifice come in the order of
// orificeNumbers there.
import { get, put } from './columns';
import { B, GAMMA, H, P, R, T, W } from './gas';
import { powerNearOne } from './power';
import { DOWN, findPass, GAMMA as PASS_GAMMA, MASS, RT, UP } from './throat';

@inline const FROM = 0;
@inline const TO = 1;
/** Places in the state of mass, energy, burned mass and momentum of the two nodes; -1 for none. */
@inline const FROM_AT = 2;
@inline const TO_AT = 6;
@inline const OFFSET = 10;
@inline const AREA = 11;
@inline const ALONG = 12;
@inline const AGAINST = 13;
@inline const METERED = 14;
@inline const GAIN = 15;
@inline const ENTHALPY = 16;

@inline const STRAIGHT = 1e-4;

/** Moves what passes `count` orifices, whose blocks stand in `list`, in the rates at `d`. */
export function connectOrifices(list: usize, count: i32, d: usize): void {
  for (let j = 0; j < count; j++) connectOrifice(<usize>load<i32>(list + (<usize>j << 2)), d);
}

@inline function add(d: usize, i: i32, rate: f64): void {
  put(d, i, get(d, i) + rate);
}

function nozzleFlow(a: usize, b: usize, area: f64): f64 {
  const forward = get(a, P) >= get(b, P);
  const up = forward ? a : b;
  const down = forward ? b : a;
  const gamma = get(up, GAMMA);
  const p0 = get(up, P);
  let pr = get(down, P) / p0;
  const critical = powerNearOne(2 / (gamma + 1), gamma / (gamma - 1));
  if (pr < critical) pr = critical;
  let scale: f64 = 1;
  if (pr > 1 - STRAIGHT) {
    scale = (1 - pr) / STRAIGHT;
    pr = 1 - STRAIGHT;
  }
  const y = powerNearOne(pr, 1 / gamma);
  const psi = sqrt(((2 * gamma) / (gamma - 1)) * y * (y - pr)) * scale;
  const m = (area * p0 * psi) / sqrt(get(up, R) * get(up, T));
  return forward ? m : -m;
}

function throatFlow(pass: usize, up: usize, down: usize): f64 {
  put(pass, PASS_GAMMA, get(up, GAMMA));
  put(pass, RT, get(up, R) * get(up, T));
  put(pass, UP, get(up, P));
  put(pass, DOWN, get(down, P));
  findPass(pass);
  return get(pass, MASS);
}

@inline function give(orifice: usize, at: i32, side: usize, mass: f64, energy: f64, burned: f64, d: usize): void {
  const offset = <i32>get(orifice, at);
  if (offset < 0) return;
  add(d, offset, mass);
  add(d, <i32>get(orifice, at + 1), energy);
  add(d, <i32>get(orifice, at + 2), burned);
  const momentumAt = <i32>get(orifice, at + 3);
  if (mass < 0 && momentumAt >= 0) add(d, momentumAt, mass * get(side, W));
}

function connectOrifice(orifice: usize, d: usize): void {
  const from = <usize>get(orifice, FROM);
  const to = <usize>get(orifice, TO);
  const along = <usize>get(orifice, ALONG);
  let m: f64;
  if (along === 0) m = nozzleFlow(from, to, get(orifice, AREA));
  else if (get(from, P) >= get(to, P)) m = throatFlow(along, from, to);
  else m = -throatFlow(<usize>get(orifice, AGAINST), to, from);
  const up = m > 0 ? from : to;
  const burned = m * get(up, B);
  let energy = m * get(up, H);
  give(orifice, FROM_AT, from, -m, -energy, -burned, d);
  if (get(orifice, METERED) !== 0 && m > 0) {
    m *= get(orifice, GAIN);
    energy = m * get(orifice, ENTHALPY);
  }
  give(orifice, TO_AT, to, m, energy, burned, d);
  const offset = <i32>get(orifice, OFFSET);
  add(d, offset, m);
  add(d, offset + 1, energy);
}
