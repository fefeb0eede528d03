/** A cylinder: moving volume, one zone for gas exchange, two zones while it burns. */
import type { GasTables } from '../gas/gasTables.ts';
import { equilibriumPoint, frozenCv, frozenS, frozenU } from '../gas/lookup.ts';
import type { SliderCrank } from '../geometry/sliderCrank.ts';
import { cylinderVolume, linerArea, pistonArea, sweptVolume, volumeRate } from '../geometry/sliderCrank.ts';
import { knockRate } from '../processes/knock.ts';
import { wiebeFractionNormalised, wiebeRateNormalised } from '../processes/wiebe.ts';
import type { BurnReference, WallHeat } from './cylinderHeat.ts';
import { heatCoefficient } from './cylinderHeat.ts';
import { SIDE, SIDE_SIZE } from './ductEnd.ts';
import { writeSide } from './volume.ts';

/** Offsets within a cylinder's part of the state vector. */
export const CYL = {
  /** Mass [kg]. */
  mass: 0,
  /** Internal energy of both zones with formation [J]. */
  energy: 1,
  /** Burned mass, residual included [kg]. */
  burned: 2,
  /** Specific entropy of the unburned zone while burning [J/(kg K)]. */
  entropy: 3,
  /** Work on the piston since the start [J]. */
  work: 4,
  /** Heat to the walls since the start [J]. */
  heat: 5,
  /** Chemical energy left unreleased since the start [J]. */
  unreleased: 6,
  /** Autoignition integral of an octane number of 100 since the start of the closed cycle [-]. */
  knock: 7,
} as const;
export const CYLINDER_STATE = 8;

/** How the charge burns, in crank degrees after firing top centre. */
export interface BurnLaw {
  readonly start: number;
  readonly duration: number;
  /** Wiebe's efficiency factor and form exponent. */
  readonly a: number;
  readonly m: number;
  /** Share of the heat of reaction that is released [-]. */
  readonly efficiency: number;
}

/**
 * Burned share at which the autoignition integral ends [-]: what little is left unburned later rings too faintly to be
 * called knock. From memory, usual values are 0.75 to 0.9; each 0.05 moves the octane number asked for by 3, differences
 * between engines hardly.
 */
export const KNOCK_SHARE = 0.85;

/** What a cylinder is made of. */
export interface CylinderSpec {
  readonly name: string;
  readonly crank: SliderCrank;
  /** Crank angle of its firing top centre [deg]. */
  readonly firingAngle: number;
  readonly walls: WallHeat;
  readonly burn: BurnLaw;
}

export interface Cylinder extends Omit<CylinderSpec, 'burn'> {
  readonly tables: GasTables;
  readonly offset: number;
  readonly side: Float64Array;
  /** Angular speed [rad/s]. */
  speed: number;
  burn: BurnLaw;
  /** Set by the march between the start and the end of the burn. */
  burning: boolean;
  /** True from the start of the burn to the opening of the exhaust valve. */
  firing: boolean;
  /** End gas that could ring is left: set by the march from the closing of the intake to {@link KNOCK_SHARE}. */
  endGas: boolean;
  /** A valve is open at the decoded state; set by the connections. */
  open: boolean;
  /** Burned share of the unburned zone. */
  residual: number;
  /** State when the burn started. */
  reference: BurnReference;
  /** Working values of the last decoded state. */
  readonly now: { angle: number; V: number; dV: number; x: number; Tu: number; Tb: number; T: number };
}

export function createCylinder(spec: CylinderSpec, tables: GasTables, offset: number): Cylinder {
  return {
    ...spec,
    tables,
    offset,
    side: new Float64Array(SIDE_SIZE).fill(400),
    speed: 0,
    burning: false,
    firing: false,
    endGas: false,
    open: false,
    residual: 0,
    reference: { p: 1e5, T: 300, V: 1e-3 },
    now: { angle: 0, V: 0, dV: 0, x: 0, Tu: 400, Tb: 2400, T: 400 },
  };
}

/** Angle after the cylinder's firing top centre [deg], from -360 to 360. */
export function localAngle(cylinder: Cylinder, theta: number): number {
  const a = (theta - cylinder.firingAngle + 360) % 720;
  return (a < 0 ? a + 720 : a) - 360;
}

export function fillCylinder(
  cylinder: Cylinder,
  y: Float64Array,
  theta: number,
  p: number,
  T: number,
  b: number,
): void {
  const { tables, offset: o } = cylinder;
  const V = cylinderVolume(cylinder.crank, (localAngle(cylinder, theta) * Math.PI) / 180);
  const m = (p * V) / ((tables.freshR + b * (tables.burnedR - tables.freshR)) * T);
  y.fill(0, o, o + CYLINDER_STATE);
  y[o + CYL.mass] = m;
  y[o + CYL.energy] = m * frozenU(tables, T, b);
  y[o + CYL.burned] = m * b;
  cylinder.side[SIDE.T] = T;
}

/** Decodes volume, pressure and temperatures at crank angle theta [deg]. */
export function decodeCylinder(cylinder: Cylinder, theta: number, y: Float64Array): void {
  const { now, crank, offset: o, side } = cylinder;
  const angle = localAngle(cylinder, theta);
  const radians = (angle * Math.PI) / 180;
  now.angle = angle;
  now.V = cylinderVolume(crank, radians);
  now.dV = volumeRate(crank, radians) * cylinder.speed;
  const m = y[o + CYL.mass];
  if (cylinder.burning) {
    const { burn } = cylinder;
    now.x = wiebeFractionNormalised(angle, burn.start, burn.duration, burn.a, burn.m);
    if (now.x > 1e-7) {
      twoZones(cylinder, m, y[o + CYL.energy], y[o + CYL.entropy]);
      return;
    }
  }
  now.x = 0;
  oneZone(cylinder, m, y[o + CYL.energy] / m, y[o + CYL.burned] / m);
  now.T = side[SIDE.T];
  now.Tu = now.T;
}

/** One zone: a frozen blend, or above the freeze temperature fresh gas with burned gas at equilibrium. */
function oneZone(cylinder: Cylinder, m: number, e: number, b: number): void {
  const { tables, side, now } = cylinder;
  writeSide(tables, m / now.V, e, b, side);
  if (side[SIDE.T] <= tables.freezeTemperature) return;
  const point = scratch;
  let T = side[SIDE.T];
  let p = side[SIDE.p];
  let R = side[SIDE.R];
  const share = side[SIDE.b];
  for (let i = 0; i < 8; i++) {
    equilibriumPoint(tables, T, p, point);
    const u = (1 - share) * frozenU(tables, T, 0) + share * point[POINT.u];
    const cv = (1 - share) * frozenCv(tables, T, 0) + share * point[POINT.uT];
    const dT = (e - u) / cv;
    T += dT;
    R = (1 - share) * tables.freshR + share * (point[POINT.R] + point[POINT.RT] * dT);
    p = (m * R * T) / now.V;
    if (Math.abs(dT) < 1e-7 * T) break;
  }
  side[SIDE.T] = T;
  side[SIDE.p] = p;
  side[SIDE.R] = R;
  side[SIDE.gamma] = 1 + R / frozenCv(tables, T, share);
  side[SIDE.h] = e + R * T;
}

/** Indices into the result of `equilibriumPoint`. */
const POINT = { u: 0, R: 1, uT: 2, uLnP: 3, RT: 4, RLnP: 5 } as const;

/** Burned temperature to search from [K]. */
const FIRST_BURNED = 2900;

/** Scratch of the decoders: written and read within one call, never kept. */
const scratch = new Float64Array(6);

/**
 * Two zones at one pressure, from total energy and the unburned zone's entropy: Newton's method on pressure and
 * burned temperature. The unburned temperature follows from entropy and pressure.
 *
 * 0 = mu uu(Tu(p)) + mb ub(Tb, p) - U
 * 0 = mu Ru Tu(p) + mb Rb(Tb, p) Tb - p V
 */
function twoZones(cylinder: Cylinder, m: number, U: number, s: number): void {
  const { tables, side, now, residual } = cylinder;
  const point = scratch;
  const mb = m * now.x;
  const mu = m - mb;
  const Ru = tables.freshR + residual * (tables.burnedR - tables.freshR);
  let p = side[SIDE.p];
  let Tb = Math.max(now.Tb, 1200);
  let Tu = now.Tu;
  for (let i = 0; i < 20; i++) {
    Tu = entropyTemperature(tables, s + Ru * Math.log(p * 1e-5), residual, Tu);
    const cvu = frozenCv(tables, Tu, residual);
    const dTu = (Ru * Tu) / ((cvu + Ru) * p);
    const uu = frozenU(tables, Tu, residual);
    equilibriumPoint(tables, Tb, p, point);
    const f1 = mu * uu + mb * point[POINT.u] - U;
    const f2 = mu * Ru * Tu + mb * point[POINT.R] * Tb - p * now.V;
    const a11 = mu * cvu * dTu + (mb * point[POINT.uLnP]) / p;
    const a12 = mb * point[POINT.uT];
    const a21 = mu * Ru * dTu + (mb * Tb * point[POINT.RLnP]) / p - now.V;
    const a22 = mb * (point[POINT.R] + Tb * point[POINT.RT]);
    const determinant = a11 * a22 - a12 * a21;
    const dp = (f2 * a12 - f1 * a22) / determinant;
    let dTb = (f1 * a21 - f2 * a11) / determinant;
    if (dTb > 400) dTb = 400;
    else if (dTb < -400) dTb = -400;
    p += Math.max(-0.3 * p, Math.min(0.3 * p, dp));
    Tb += dTb;
    if (Math.abs(dp) < 1e-9 * p && Math.abs(dTb) < 1e-7 * Tb) break;
  }
  now.Tu = Tu;
  now.Tb = Tb;
  now.T = (p * now.V) / (mu * Ru + mb * point[POINT.R]);
  side[SIDE.p] = p;
  side[SIDE.T] = now.T;
  side[SIDE.R] = (mu * Ru + mb * point[POINT.R]) / m;
}

/** Temperature at which the blend's entropy function s(T) has the given value [K]; tables are piecewise linear. */
function entropyTemperature(tables: GasTables, s: number, b: number, guess: number): number {
  const { freshS, burnedS, tMin, dT } = tables;
  const last = tables.count - 2;
  let k = Math.min(Math.max(Math.floor((guess - tMin) / dT), 0), last);
  while (k < last && s > freshS[k + 1] + b * (burnedS[k + 1] - freshS[k + 1])) k++;
  while (k > 0 && s < freshS[k] + b * (burnedS[k] - freshS[k])) k--;
  const low = freshS[k] + b * (burnedS[k] - freshS[k]);
  const high = freshS[k + 1] + b * (burnedS[k + 1] - freshS[k + 1]);
  return tMin + dT * (k + (s - low) / (high - low));
}

/** Splits the charge into zones: called at the angle where the burn starts, valves shut. */
export function startBurn(cylinder: Cylinder, theta: number, y: Float64Array): void {
  const { side, now, offset: o } = cylinder;
  cylinder.burning = false;
  decodeCylinder(cylinder, theta, y);
  cylinder.residual = side[SIDE.b];
  cylinder.reference.p = side[SIDE.p];
  cylinder.reference.T = side[SIDE.T];
  cylinder.reference.V = now.V;
  y[o + CYL.entropy] = frozenS(cylinder.tables, side[SIDE.T], Math.log(side[SIDE.p] * 1e-5), side[SIDE.b]);
  now.Tu = side[SIDE.T];
  now.Tb = Math.min(side[SIDE.T] + 1900, FIRST_BURNED);
  cylinder.burning = true;
  cylinder.firing = true;
}

/** Joins the zones again: at the end of the burn, or where the exhaust valve opens on a burn that is not done. */
export function endBurn(cylinder: Cylinder, theta: number, y: Float64Array): void {
  const { offset: o, burn, residual } = cylinder;
  const x = wiebeFractionNormalised(localAngle(cylinder, theta), burn.start, burn.duration, burn.a, burn.m);
  y[o + CYL.burned] = y[o + CYL.mass] * (residual + (1 - residual) * x);
  cylinder.burning = false;
}

/** Heat of reaction of fresh gas at 298.15 K [J/kg]: what burning releases at full efficiency. */
export function heatOfReaction(tables: GasTables): number {
  return frozenU(tables, 298.15, 0) - frozenU(tables, 298.15, 1);
}

/** Piston work, wall heat and burn, added into `d`; flows through the valves are added by the connections. */
export function balanceCylinder(cylinder: Cylinder, y: Float64Array, d: Float64Array): void {
  const { open, now, side, offset: o, walls, crank, burn, tables } = cylinder;
  const p = side[SIDE.p];
  const m = y[o + CYL.mass];
  const bore = pistonArea(crank);
  const R = side[SIDE.R];
  const coefficient = heatCoefficient(
    walls,
    crank.bore,
    (crank.stroke * cylinder.speed) / Math.PI,
    sweptVolume(crank),
    now.V,
    p,
    now.T,
    R,
    (R * side[SIDE.gamma]) / (side[SIDE.gamma] - 1),
    open,
    cylinder.firing ? cylinder.reference : null,
  );
  const head = bore * walls.headRatio;
  const liner = linerArea(crank, now.V) + walls.clearanceWall;
  const area = head + bore + liner;
  const wall = (head * walls.head + bore * walls.piston + liner * walls.liner) / area;
  let heat: number;
  if (cylinder.burning && now.x > 0) {
    // Share of the walls that burned gas touches: square root of the burned share of mass, since it is the lighter gas
    // (Ferguson, Internal Combustion Engines (1986), ch. 4).
    const touched = Math.sqrt(now.x);
    const toBurned = coefficient * area * touched * (now.Tb - wall);
    const toUnburned = coefficient * area * (1 - touched) * (now.Tu - wall);
    heat = toBurned + toUnburned;
    const mu = m * (1 - now.x);
    if (mu > 1e-6 * m) d[o + CYL.entropy] -= toUnburned / (mu * now.Tu);
    const rate =
      wiebeRateNormalised(now.angle, burn.start, burn.duration, burn.a, burn.m) *
      ((cylinder.speed * 180) / Math.PI);
    const fresh = (1 - cylinder.residual) * m;
    const unreleased = (1 - burn.efficiency) * heatOfReaction(tables) * fresh * rate;
    d[o + CYL.energy] -= unreleased;
    d[o + CYL.unreleased] += unreleased;
    d[o + CYL.burned] += fresh * rate;
  } else {
    heat = coefficient * area * (now.T - wall);
  }
  if (cylinder.endGas) d[o + CYL.knock] += knockRate(p, now.Tu);
  d[o + CYL.energy] -= p * now.dV + heat;
  d[o + CYL.work] += p * now.dV;
  d[o + CYL.heat] += heat;
}
