/** A cylinder: moving volume, one zone for gas exchange, two zones while it burns. */

import { T_REFERENCE } from '../base/constants.ts';
import { ZERO } from '../base/zero.ts';
import { frozenR, frozenS, frozenU } from '../gas/frozenBlend.ts';
import type { GasTables } from '../gas/gasTables.ts';
import type { LiquidFuel } from '../gas/liquidFuel.ts';
import type { SliderCrank } from '../geometry/sliderCrank.ts';
import { cylinderVolume, moveVolume, pistonArea } from '../geometry/sliderCrank.ts';
import { wiebeFractionNormalised } from '../processes/wiebe.ts';
import type { BurnReference, WallHeat } from './cylinderHeat.ts';
import { atRest, type Site, type StillNode, type Weighted } from './part.ts';
import { SIDE, SIDE_SIZE } from './side.ts';
import { decodeOneZone, decodeTwoZones } from './zones.ts';

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
  /** Fuel that is still liquid [kg]; it is part of the mass, and of the fresh gas. */
  liquid: 8,
} as const;
const CYLINDER_STATE = 9;

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

/** Fuel that comes into a cylinder as liquid. */
export interface Spray {
  readonly liquid: LiquidFuel;
  /** Sauter mean diameter of the drops [m]. */
  readonly diameter: number;
  /** Share of the latent heat that walls give [-]; the gas gives the rest. */
  readonly wallShare: number;
}

/** What a cylinder is made of. */
export interface CylinderSpec extends Weighted {
  readonly name: string;
  readonly crank: SliderCrank;
  /** Crank angle of its firing top centre [deg]. */
  readonly firingAngle: number;
  readonly walls: WallHeat;
  readonly burn: BurnLaw;
  /** Left out: all fuel is vapour. */
  readonly spray?: Spray | undefined;
  /** Gas of its charge while both valves are shut, where its mixture isn't the network's; see `ownMixture.ts`. */
  readonly charge?: GasTables | undefined;
}

export interface Cylinder extends Omit<CylinderSpec, 'burn'>, StillNode {
  /** The gas that it holds now. */
  tables: GasTables;
  /** The gas that it burns, its own or the network's, and the network's. */
  readonly charge: GasTables;
  readonly mean: GasTables;
  /** Area of the piston [m2]. */
  readonly pistonArea: number;
  /** What burning releases at full efficiency, see {@link heatOfReaction} [J/kg]. */
  readonly heatOfReaction: number;
  /** Angular speed [rad/s]. */
  speed: number;
  burn: BurnLaw;
  /** Set by the march between the start and the end of the burn. */
  burning: boolean;
  /** True from the start of the burn to the opening of the exhaust valve. */
  firing: boolean;
  /** End gas whose ignition would be noticed is left: set by the march from the closing of the intake on. */
  endGas: boolean;
  /** Burned share of the unburned zone. */
  residual: number;
  /** State when the burn started. */
  reference: BurnReference;
  /** Where the search of two zones starts: pressure [Pa] and burned temperature [K]. */
  readonly start: { p: number; Tb: number };
  /** Working values of the last decoded state. */
  readonly now: CylinderNow;
}

/** Working values of a cylinder's decoded state; what the file of their kind works out stands here, not in results of functions. */
export interface CylinderNow {
  /** After firing top centre [deg], -360 to 360. */
  angle: number;
  /** Volume [m3] and its rate [m3/s]. */
  V: number;
  dV: number;
  /** Mass [kg], and of two zones internal energy [J] and specific entropy of the unburned one [J/(kg K)]. */
  m: number;
  U: number;
  s: number;
  /** Burned share of the mass; 0 where there is one zone. */
  x: number;
  /** Temperatures of the unburned and burned zone, and their mass mean [K]. */
  Tu: number;
  Tb: number;
  T: number;
  /** [W/(m2 K)] */
  heatCoefficient: number;
  /** To the walls [W]. */
  heat: number;
}

/** Heat of reaction of fresh gas at 298.15 K [J/kg]: what burning releases at full efficiency. */
export function heatOfReaction(tables: GasTables): number {
  return frozenU(tables, 298.15, 0) - frozenU(tables, 298.15, 1);
}

export function createCylinder(spec: CylinderSpec, { tables, take, numbers }: Site): Cylinder {
  const { name, crank, firingAngle, walls, burn, spray, weight = 1, charge = tables } = spec;
  const { offset, energyAt, burnedAt, momentumAt } = atRest(take(CYLINDER_STATE));
  // Field by field: objects made by spreading others have shapes of their own, and what reads them is compiled anew for each.
  return {
    name,
    crank,
    firingAngle,
    walls,
    burn,
    spray,
    weight,
    tables,
    charge,
    mean: tables,
    pistonArea: pistonArea(crank),
    heatOfReaction: heatOfReaction(charge),
    offset,
    energyAt,
    burnedAt,
    momentumAt,
    side: numbers(SIDE_SIZE).fill(400),
    opening: numbers(1),
    speed: ZERO,
    burning: false,
    firing: false,
    endGas: false,
    residual: ZERO,
    reference: { p: Number.NaN, T: Number.NaN, V: Number.NaN },
    start: { p: Number.NaN, Tb: Number.NaN },
    now: {
      angle: ZERO,
      V: ZERO,
      dV: ZERO,
      m: ZERO,
      U: ZERO,
      s: ZERO,
      x: ZERO,
      Tu: Number.NaN,
      Tb: Number.NaN,
      T: Number.NaN,
      heatCoefficient: ZERO,
      heat: ZERO,
    },
  };
}

/** Angle after the cylinder's firing top centre [deg], from -360 to 360. */
export function localAngle(cylinder: Cylinder, theta: number): number {
  const a = theta - cylinder.firingAngle;
  // A remainder by division is several times as slow.
  return a - 720 * Math.floor((a + 360) / 720);
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
  const m = (p * V) / (frozenR(tables, b) * T);
  y.fill(0, o, o + CYLINDER_STATE);
  y[o + CYL.mass] = m;
  y[o + CYL.energy] = m * frozenU(tables, T, b);
  y[o + CYL.burned] = m * b;
}

/** Decodes volume, pressure and temperatures at crank angle theta [deg]. */
export function decodeCylinder(cylinder: Cylinder, theta: number, y: Float64Array): void {
  cylinder.now.angle = localAngle(cylinder, theta);
  decodeAtAngle(cylinder, y);
}

/** The same at the angle that stands in `now`. */
export function decodeAtAngle(cylinder: Cylinder, y: Float64Array): void {
  const { now, crank, offset: o, side } = cylinder;
  const radians = (now.angle * Math.PI) / 180;
  moveVolume(crank, radians, now);
  now.dV *= cylinder.speed;
  now.m = y[o + CYL.mass];
  if (cylinder.burning) {
    findBurnedShare(cylinder);
    if (now.x > 1e-7) {
      now.U = y[o + CYL.energy];
      now.s = y[o + CYL.entropy];
      decodeTwoZones(cylinder);
      return;
    }
  }
  now.x = 0;
  side[SIDE.b] = y[o + CYL.burned] / now.m;
  if (cylinder.spray !== undefined && y[o + CYL.liquid] > 0) decodeSpray(cylinder, cylinder.spray, y);
  else {
    side[SIDE.e] = y[o + CYL.energy] / now.m;
    decodeOneZone(cylinder);
  }
  now.T = side[SIDE.T];
  now.Tu = now.T;
}

function findBurnedShare({ now, burn }: Cylinder): void {
  now.x = wiebeFractionNormalised(now.angle, burn.start, burn.duration, burn.a, burn.m);
}

/** Energy that liquid fuel lacks of the same as vapour, as the gas counts energies [J/kg]. */
export function bindingEnergy({ latentHeat, R }: LiquidFuel): number {
  return latentHeat - R * T_REFERENCE;
}

/** Gas with fuel in it that is none: as warm as if that were vapour and had the energy it lacks for that, at less pressure. */
function decodeSpray(cylinder: Cylinder, { liquid: fuel }: Spray, y: Float64Array): void {
  const { now, side, offset: o } = cylinder;
  const { m } = now;
  const liquid = y[o + CYL.liquid];
  side[SIDE.e] = (y[o + CYL.energy] + liquid * bindingEnergy(fuel)) / m;
  decodeOneZone(cylinder);
  const cv = side[SIDE.R] / (side[SIDE.gamma] - 1);
  const R = side[SIDE.R] - (liquid / m) * fuel.R;
  side[SIDE.R] = R;
  side[SIDE.gamma] = 1 + R / cv;
  side[SIDE.p] = (m * R * side[SIDE.T]) / now.V;
  side[SIDE.h] = y[o + CYL.energy] / m + R * side[SIDE.T];
}

/** Burned temperature to search from [K]: how much hotter than the charge, and at most. */
const FIRST_RISE = 1900;
const FIRST_BURNED = 2900;

/** Splits the charge into zones: called at the angle where the burn starts, valves shut. */
export function startBurn(cylinder: Cylinder, theta: number, y: Float64Array): void {
  const { side, now, offset: o } = cylinder;
  cylinder.burning = false;
  // What is liquid yet evaporates at once, before the flame.
  y[o + CYL.liquid] = 0;
  decodeCylinder(cylinder, theta, y);
  cylinder.residual = side[SIDE.b];
  cylinder.reference.p = side[SIDE.p];
  cylinder.reference.T = side[SIDE.T];
  cylinder.reference.V = now.V;
  y[o + CYL.entropy] = frozenS(cylinder.tables, side[SIDE.T], Math.log(side[SIDE.p] * 1e-5), side[SIDE.b]);
  now.Tu = side[SIDE.T];
  now.Tb = Math.min(side[SIDE.T] + FIRST_RISE, FIRST_BURNED);
  cylinder.start.p = side[SIDE.p];
  cylinder.start.Tb = now.Tb;
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
