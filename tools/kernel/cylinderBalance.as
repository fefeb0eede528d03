// What the pistons, walls and flames of cylinders do to their gas, as packages/core/src/network/cylinderBalance.ts and cylinderHeat.ts
// have it, with the formulas of packages/core/src/processes.
import { get, put } from './columns';
import { BORE, BURN_A, BURN_DURATION, BURN_M, BURN_START, BURNED, BURNING, CLEARANCE, DV, ENERGY, ENTROPY, GAS } from './cylinder';
import { ANGLE, LIQUID, M, OFFSET, OPENING, PISTON_AREA, RESIDUAL, SIDE, SPEED, STROKE, TB, TM, TU, V, X } from './cylinder';
import { dropRate } from './dropEvaporation';
import { B, FUEL_FRACTION, GAMMA, P, R, T } from './gas';
import { exp, expLessOne, log, pow } from './power';

@inline const MODEL = 9;
@inline const MULTIPLIER = 10;
@inline const HEAD_T = 11;
@inline const PISTON_T = 12;
@inline const LINER_T = 13;
@inline const HEAD_RATIO = 14;
@inline const CLEARANCE_WALL = 15;
@inline const SPRAYED = 16;
@inline const LATENT_HEAT = 18;
@inline const WALL_SHARE = 21;
@inline const HEAT_OF_REACTION = 22;
@inline const FIRING = 26;
@inline const END_GAS = 27;
@inline const EFFICIENCY = 33;
@inline const REFERENCE_P = 34;
@inline const REFERENCE_T = 35;
@inline const REFERENCE_V = 36;
@inline const COEFFICIENT = 49;
@inline const HEAT = 50;

@inline const WORK = 4;
@inline const WALL_HEAT = 5;
@inline const UNRELEASED = 6;
@inline const KNOCK = 7;

@inline const WOSCHNI = 0;
@inline const HOHENBERG = 1;

@inline const PI = 3.141592653589793;

@inline function add(d: usize, i: i32, rate: f64): void {
  put(d, i, get(d, i) + rate);
}

/** Piston work, wall heat and burn of `count` cylinders, whose blocks stand in `list`, added into the rates at `d` of the state at `y`. */
export function balanceCylinders(list: usize, count: i32, y: usize, d: usize): void {
  for (let j = 0; j < count; j++) {
    const cylinder = <usize>load<i32>(list + (<usize>j << 2));
    const offset = <usize>get(cylinder, OFFSET) << 3;
    balanceCylinder(cylinder, y + offset, d + offset);
  }
}

function balanceCylinder(cylinder: usize, y: usize, d: usize): void {
  const side = <usize>get(cylinder, SIDE);
  put(cylinder, COEFFICIENT, get(cylinder, MULTIPLIER) * coefficient(cylinder, side));
  if (get(cylinder, BURNING) !== 0 && get(cylinder, X) > 0) balanceBurn(cylinder, d);
  else {
    heatWalls(cylinder);
    if (get(cylinder, SPRAYED) !== 0) evaporate(cylinder, side, y, d);
  }
  const p = get(side, P);
  if (get(cylinder, END_GAS) !== 0)
    add(d, KNOCK, (pow(p / 101325, 1.7) * exp(-3800 / get(cylinder, TU))) / 17.68e-3);
  const work = p * get(cylinder, DV);
  const heat = get(cylinder, HEAT);
  put(d, ENERGY, get(d, ENERGY) - (work + heat));
  add(d, WORK, work);
  add(d, WALL_HEAT, heat);
}

function coefficient(cylinder: usize, side: usize): f64 {
  const model = <i32>get(cylinder, MODEL);
  if (model === WOSCHNI) return woschni(cylinder, side);
  return model === HOHENBERG ? hohenberg(cylinder, side) : annand(cylinder, side);
}

@inline function pistonSpeed(cylinder: usize): f64 {
  return (get(cylinder, STROKE) * get(cylinder, SPEED)) / PI;
}

function woschni(cylinder: usize, side: usize): f64 {
  const p = get(side, P);
  const c1: f64 = get(<usize>get(cylinder, OPENING), 0) > 0 ? 6.18 : 2.28;
  let w = c1 * pistonSpeed(cylinder);
  if (get(cylinder, FIRING) !== 0) {
    const referenceP = get(cylinder, REFERENCE_P);
    const referenceV = get(cylinder, REFERENCE_V);
    const excess = p - referenceP * pow(referenceV / get(cylinder, V), 1.32);
    const swept = get(cylinder, PISTON_AREA) * get(cylinder, STROKE);
    w += excess > 0 ? ((3.24e-3 * swept * get(cylinder, REFERENCE_T)) / (referenceP * referenceV)) * excess : 0;
  }
  return 129.8 * exp(0.8 * log(p * 1e-5 * w) - 0.2 * log(get(cylinder, BORE)) - 0.53 * log(get(cylinder, TM)));
}

function hohenberg(cylinder: usize, side: usize): f64 {
  const rest = pow(get(side, P) * 1e-5 * (pistonSpeed(cylinder) + 1.4), 0.8);
  return 129.8 * pow(get(cylinder, V), -0.06) * rest * pow(get(cylinder, TM), -0.4);
}

function annand(cylinder: usize, side: usize): f64 {
  const bore = get(cylinder, BORE);
  const gasR = get(side, R);
  const hot = get(cylinder, TM);
  const mu = (3.3e-7 * pow(hot, 0.7)) / (1 + 0.027 * 1);
  const wall = (get(cylinder, HEAD_T) + get(cylinder, PISTON_T)) / 2;
  const k = (mu * ((gasR * get(side, GAMMA)) / (get(side, GAMMA) - 1))) / 0.7;
  const c: f64 = get(cylinder, FIRING) !== 0 ? 0.075 * 5.670374419e-8 : 0;
  const reynolds = ((get(side, P) / (gasR * hot)) * pistonSpeed(cylinder) * bore) / mu;
  return ((0.49 * k) / bore) * pow(reynolds, 0.7) + c * (hot * hot + wall * wall) * (hot + wall);
}

/** Area of all walls and, by the piston's place, of the liner [m2]. */
@inline function linerArea(cylinder: usize): f64 {
  return (4 * (get(cylinder, V) - get(cylinder, CLEARANCE))) / get(cylinder, BORE) + get(cylinder, CLEARANCE_WALL);
}

/** Mean temperature of walls of areas `head` and `liner` and the piston, `area` in all [K]. */
@inline function wallTemperature(cylinder: usize, head: f64, liner: f64, area: f64): f64 {
  const piston = get(cylinder, PISTON_AREA) * get(cylinder, PISTON_T);
  return (head * get(cylinder, HEAD_T) + piston + liner * get(cylinder, LINER_T)) / area;
}

function heatWalls(cylinder: usize): void {
  const head = get(cylinder, PISTON_AREA) * get(cylinder, HEAD_RATIO);
  const liner = linerArea(cylinder);
  const area = head + get(cylinder, PISTON_AREA) + liner;
  const wall = wallTemperature(cylinder, head, liner, area);
  put(cylinder, HEAT, get(cylinder, COEFFICIENT) * area * (get(cylinder, TM) - wall));
}

function balanceBurn(cylinder: usize, d: usize): void {
  const m = get(cylinder, M);
  const x = get(cylinder, X);
  const head = get(cylinder, PISTON_AREA) * get(cylinder, HEAD_RATIO);
  const liner = linerArea(cylinder);
  const area = head + get(cylinder, PISTON_AREA) + liner;
  const wall = wallTemperature(cylinder, head, liner, area);
  const touched = sqrt(x);
  const toBurned = get(cylinder, COEFFICIENT) * area * touched * (get(cylinder, TB) - wall);
  const toUnburned = get(cylinder, COEFFICIENT) * area * (1 - touched) * (get(cylinder, TU) - wall);
  put(cylinder, HEAT, toBurned + toUnburned);
  const mu = m * (1 - x);
  if (mu > 1e-6 * m) put(d, ENTROPY, get(d, ENTROPY) - toUnburned / (mu * get(cylinder, TU)));
  const rate = burnRate(cylinder) * ((get(cylinder, SPEED) * 180) / PI);
  const fresh = (1 - get(cylinder, RESIDUAL)) * m;
  const unreleased = (1 - get(cylinder, EFFICIENCY)) * get(cylinder, HEAT_OF_REACTION) * fresh * rate;
  put(d, ENERGY, get(d, ENERGY) - unreleased);
  add(d, UNRELEASED, unreleased);
  add(d, BURNED, fresh * rate);
}

function burnRate(cylinder: usize): f64 {
  const duration = get(cylinder, BURN_DURATION);
  const y = (get(cylinder, ANGLE) - get(cylinder, BURN_START)) / duration;
  if (!(y > 0)) return 0;
  const a = get(cylinder, BURN_A);
  const m = get(cylinder, BURN_M);
  const ym = pow(y, m);
  return (((a * (m + 1)) / duration) * ym * exp(-a * ym * y)) / -expLessOne(-a);
}

function evaporate(cylinder: usize, side: usize, y: usize, d: usize): void {
  const liquid = get(y, LIQUID);
  if (!(liquid > 0)) return;
  const m = get(cylinder, M);
  const slip = (0.5 * get(cylinder, STROKE) * get(cylinder, SPEED)) / PI;
  const fuel = get(<usize>get(cylinder, GAS), FUEL_FRACTION);
  const vapour = max(0, ((1 - get(side, B)) * m * fuel - liquid) / (m - liquid));
  const rate = liquid * dropRate(cylinder, slip, get(side, T), get(side, P), vapour);
  put(d, LIQUID, get(d, LIQUID) - rate);
  put(cylinder, HEAT, get(cylinder, HEAT) - get(cylinder, WALL_SHARE) * rate * get(cylinder, LATENT_HEAT));
}
