/** What the pistons, walls and flames of cylinders do to their gas. */
import type { GasTables } from '../gas/gasTables.ts';
import { frozenU } from '../gas/lookup.ts';
import { linerArea, pistonArea } from '../geometry/sliderCrank.ts';
import { dropEvaporation } from '../processes/dropEvaporation.ts';
import { knockRate } from '../processes/knock.ts';
import { wiebeRateNormalised } from '../processes/wiebe.ts';
import type { Cylinder } from './cylinder.ts';
import { CYL } from './cylinder.ts';
import { heatCoefficient } from './cylinderHeat.ts';
import { SIDE } from './side.ts';

/** Heat of reaction of fresh gas at 298.15 K [J/kg]: what burning releases at full efficiency. */
export function heatOfReaction(tables: GasTables): number {
  return frozenU(tables, 298.15, 0) - frozenU(tables, 298.15, 1);
}

/** Turbulence at the drops over mean piston speed [-] (Heywood, 1988, section 8.2.2: about half near top centre; from memory). */
const TURBULENCE = 0.5;

/** Evaporates liquid fuel into `d`; returns the heat that walls give for it [W]. */
function evaporate(cylinder: Cylinder, y: Float64Array, d: Float64Array): number {
  const { spray, side, offset: o, tables, crank, speed } = cylinder;
  if (spray === undefined) return 0;
  const liquid = y[o + CYL.liquid];
  if (!(liquid > 0)) return 0;
  const m = y[o + CYL.mass];
  const vapour = Math.max(0, ((1 - side[SIDE.b]) * m * tables.fuelFraction - liquid) / (m - liquid));
  const slip = (TURBULENCE * crank.stroke * speed) / Math.PI;
  const rate =
    liquid * dropEvaporation(spray.liquid, spray.diameter, slip, side[SIDE.T], side[SIDE.p], vapour);
  d[o + CYL.liquid] -= rate;
  return spray.wallShare * rate * spray.liquid.latentHeat;
}

/** Piston work, wall heat and burn, added into `d`; flows through the valves are added by the connections. */
export function balanceCylinder(cylinder: Cylinder, y: Float64Array, d: Float64Array): void {
  const { now, side, offset: o, walls, crank, burn, tables } = cylinder;
  const p = side[SIDE.p];
  const m = y[o + CYL.mass];
  const bore = pistonArea(crank);
  const coefficient = heatCoefficient(cylinder);
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
    const perDegree = wiebeRateNormalised(now.angle, burn.start, burn.duration, burn.a, burn.m);
    const rate = perDegree * ((cylinder.speed * 180) / Math.PI);
    const fresh = (1 - cylinder.residual) * m;
    const unreleased = (1 - burn.efficiency) * heatOfReaction(tables) * fresh * rate;
    d[o + CYL.energy] -= unreleased;
    d[o + CYL.unreleased] += unreleased;
    d[o + CYL.burned] += fresh * rate;
  } else {
    heat = coefficient * area * (now.T - wall) - evaporate(cylinder, y, d);
  }
  if (cylinder.endGas) d[o + CYL.knock] += knockRate(p, now.Tu);
  d[o + CYL.energy] -= p * now.dV + heat;
  d[o + CYL.work] += p * now.dV;
  d[o + CYL.heat] += heat;
}
