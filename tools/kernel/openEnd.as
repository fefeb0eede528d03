// The ends of ducts at nodes of gas at rest, as packages/core/src/network/openEnd.ts has them, with the face of the duct by ductEnd.ts and the
// lift of the valve by valve.ts. What stands where in the block of an end, END_BLOCK in openEnd.ts says.
import { get, put } from './columns';
import { solveDuctEnd } from './ductEnd';
import { ductFace } from './face';
import { frozenR, frozenU, P, RHO, T, W } from './gas';

/** Whole numbers at the head of a block: addresses [bytes], and places in the state. */
@inline const DUCT = 0;
@inline const SIDE = 1;
@inline const OPENING = 2;
@inline const AREA = 3;
@inline const AGAINST = 4;
@inline const LAST = 5;
@inline const CELLS = 6;
@inline const RIGHT = 7;
@inline const OUTWARD = 8;
@inline const TARGET = 9;
@inline const ENERGY_AT = 10;
@inline const BURNED_AT = 11;
@inline const MOMENTUM_AT = 12;
@inline const TOTALS = 13;
@inline const LIQUID_AT = 14;
@inline const ANGLE_AT = 15;

/** Numbers behind them: places in the block. */
@inline const NOZZLE = 8;
@inline const FLOW = 13;
@inline const LIFTED = 18;
@inline const FUEL = 20;
@inline const GAIN = 22;
@inline const STEP = 24;
@inline const FACE = 25;

@inline function whole(end: usize, i: i32): i32 {
  return load<i32>(end + (<usize>i << 2));
}
@inline function add(d: usize, i: i32, rate: f64): void {
  put(d, i, get(d, i) + rate);
}

/** Opens the valves of `count` ends, whose blocks stand in `list`, as far as their angles have them. */
export function liftValves(list: usize, count: i32): void {
  for (let j = 0; j < count; j++) {
    const end = <usize>load<i32>(list + (<usize>j << 2));
    if (whole(end, AREA) < 0) continue;
    const area = <usize>whole(end, AREA);
    const against = <usize>whole(end, AGAINST);
    const s = (get(<usize>whole(end, ANGLE_AT), 0) + 360) / get(end, STEP);
    const i = min(<i32>s, whole(end, LAST));
    const share = s - <f64>i;
    const along = get(area, i) + share * (get(area, i + 1) - get(area, i));
    put(end, LIFTED, along);
    put(end, LIFTED + 1, get(against, i) + share * (get(against, i + 1) - get(against, i)));
    put(end, NOZZLE, along);
    if (along > 1e-7) add(<usize>whole(end, OPENING), 0, get(end, NOZZLE + 1));
  }
}

/** Has the next searches at `count` ends start from what the last ones found. */
export function keepEnds(list: usize, count: i32): void {
  for (let j = 0; j < count; j++) {
    const end = <usize>load<i32>(list + (<usize>j << 2));
    put(end, NOZZLE + 2, get(end, FLOW + 4));
  }
}

/** Sets the fluxes at `count` ends and adds what passes into the rates at `d`. */
export function connectEnds(list: usize, count: i32, d: usize): void {
  for (let j = 0; j < count; j++) connectEnd(<usize>load<i32>(list + (<usize>j << 2)), d);
}

function connectEnd(end: usize, d: usize): void {
  const duct = <usize>whole(end, DUCT);
  const side = <usize>whole(end, SIDE);
  const right = whole(end, RIGHT) !== 0;
  const face = end + (FACE << 3);
  const flow = end + (FLOW << 3);
  const c = ductFace(duct, whole(end, CELLS), right, face);
  let area = get(end, NOZZLE);
  if (area > 0 && whole(end, AREA) >= 0) {
    const leaves = get(face, P) + get(face, RHO) * get(face, W) * c > get(side, P);
    area = get(end, leaves === (whole(end, OUTWARD) !== 0) ? LIFTED : LIFTED + 1);
    put(end, NOZZLE, area);
  }
  solveDuctEnd(face, side, area, get(end, NOZZLE + 1), get(end, NOZZLE + 2), flow);
  const gain = get(end, GAIN);
  if (gain !== 0 && get(flow, 0) < 0) leaveFuelBehind(duct, side, gain, flow);
  const mass = get(flow, 0);
  const burned = get(flow, 1);
  const energy = get(flow, 2);
  const flux = duct + ((right ? 16 : 12) << 3);
  const sign: f64 = right ? 1 : -1;
  put(flux, 0, sign * mass);
  put(flux, 1, get(flow, 3));
  put(flux, 2, sign * energy);
  put(flux, 3, sign * burned);
  const target = whole(end, TARGET);
  if (target >= 0) {
    const energyAt = whole(end, ENERGY_AT);
    const momentumAt = whole(end, MOMENTUM_AT);
    add(d, target, mass);
    add(d, energyAt, energy);
    add(d, whole(end, BURNED_AT), burned);
    if (mass < 0 && momentumAt >= 0) add(d, momentumAt, mass * get(side, W));
    if (gain !== 0) {
      const fuel = (gain - 1) * (mass - burned);
      add(d, target, fuel);
      add(d, energyAt, fuel * get(end, FUEL + 1));
      if (fuel > 0) add(d, whole(end, LIQUID_AT), fuel * get(end, FUEL));
    }
  }
  const totals = whole(end, TOTALS);
  add(d, totals, mass);
  add(d, totals + 1, burned);
  add(d, totals + 2, energy);
  add(d, totals + 3, mass * (mass > 0 ? get(face, T) : get(side, T)));
}

/** Gas on its way back from the cylinder, made what the duct holds. */
function leaveFuelBehind(duct: usize, side: usize, gain: f64, flow: usize): void {
  const burned = get(flow, 1);
  const mass = burned + (get(flow, 0) - burned) / gain;
  const b = burned / mass;
  const hot = get(side, T);
  put(flow, 0, mass);
  put(flow, 2, mass * (frozenU(duct, hot, b) + frozenR(duct, b) * hot));
}
