/** What the pistons, walls and flames of cylinders do to their gas. */
import { linerArea } from '../geometry/sliderCrank.ts';
import { DROP, DROP_SIZE, evaporateDrop } from '../processes/dropEvaporation.ts';
import { knockRate } from '../processes/knock.ts';
import { wiebeRateNormalised } from '../processes/wiebe.ts';
import type { Cylinder, Spray } from './cylinder.ts';
import { CYL } from './cylinder.ts';
import { findHeatCoefficient } from './cylinderHeat.ts';
import { SIDE } from './side.ts';

/** Turbulence at the drops over mean piston speed [-] (Heywood, 1988, section 8.2.2: about half near top centre; from memory). */
const TURBULENCE = 0.5;

/** Scratch of {@link evaporate}: written and read within one call, never kept. */
const drop = new Float64Array(DROP_SIZE);

/** Evaporates liquid fuel, adding into `d`; the heat that walls give for it is none of what they take. */
function evaporate(cylinder: Cylinder, spray: Spray, y: Float64Array, d: Float64Array): void {
  const { now, side, offset: o, tables, crank, speed } = cylinder;
  const liquid = y[o + CYL.liquid];
  if (!(liquid > 0)) return;
  const { m } = now;
  drop[DROP.diameter] = spray.diameter;
  drop[DROP.slip] = (TURBULENCE * crank.stroke * speed) / Math.PI;
  drop[DROP.T] = side[SIDE.T];
  drop[DROP.p] = side[SIDE.p];
  drop[DROP.vapour] = Math.max(0, ((1 - side[SIDE.b]) * m * tables.fuelFraction - liquid) / (m - liquid));
  evaporateDrop(spray.liquid, drop);
  const rate = liquid * drop[DROP.rate];
  d[o + CYL.liquid] -= rate;
  now.heat -= spray.wallShare * rate * spray.liquid.latentHeat;
}

/** Piston work, wall heat and burn, added into `d`; flows through the valves are added by the connections. */
export function balanceCylinder(cylinder: Cylinder, y: Float64Array, d: Float64Array): void {
  const { now, side, offset: o, spray } = cylinder;
  findHeatCoefficient(cylinder);
  if (cylinder.burning && now.x > 0) balanceBurn(cylinder, d);
  else {
    heatWalls(cylinder);
    if (spray !== undefined) evaporate(cylinder, spray, y, d);
  }
  if (cylinder.endGas) useUpDelay(cylinder, d);
  const p = side[SIDE.p];
  d[o + CYL.energy] -= p * now.dV + now.heat;
  d[o + CYL.work] += p * now.dV;
  d[o + CYL.heat] += now.heat;
}

/** What the gas ahead of the flame uses up of its delay. */
function useUpDelay({ now, side, offset: o }: Cylinder, d: Float64Array): void {
  d[o + CYL.knock] += knockRate(side[SIDE.p], now.Tu);
}

/** Heat of gas of one temperature to the walls. */
function heatWalls({ now, walls, crank, pistonArea }: Cylinder): void {
  const head = pistonArea * walls.headRatio;
  const liner = linerArea(crank, now.V) + walls.clearanceWall;
  const area = head + pistonArea + liner;
  const wall = (head * walls.head + pistonArea * walls.piston + liner * walls.liner) / area;
  now.heat = now.heatCoefficient * area * (now.T - wall);
}

/** Heat of both zones, and what the flame does. */
function balanceBurn(cylinder: Cylinder, d: Float64Array): void {
  const { now, offset: o, walls, crank, burn, pistonArea } = cylinder;
  const { m, x } = now;
  const head = pistonArea * walls.headRatio;
  const liner = linerArea(crank, now.V) + walls.clearanceWall;
  const area = head + pistonArea + liner;
  const wall = (head * walls.head + pistonArea * walls.piston + liner * walls.liner) / area;
  // Share of the walls that burned gas touches: square root of the burned share of mass, since it is the lighter gas
  // (Ferguson, Internal Combustion Engines (1986), ch. 4).
  const touched = Math.sqrt(x);
  const toBurned = now.heatCoefficient * area * touched * (now.Tb - wall);
  const toUnburned = now.heatCoefficient * area * (1 - touched) * (now.Tu - wall);
  now.heat = toBurned + toUnburned;
  const mu = m * (1 - x);
  if (mu > 1e-6 * m) d[o + CYL.entropy] -= toUnburned / (mu * now.Tu);
  const perDegree = wiebeRateNormalised(now.angle, burn.start, burn.duration, burn.a, burn.m);
  const rate = perDegree * ((cylinder.speed * 180) / Math.PI);
  const fresh = (1 - cylinder.residual) * m;
  const unreleased = (1 - burn.efficiency) * cylinder.heatOfReaction * fresh * rate;
  d[o + CYL.energy] -= unreleased;
  d[o + CYL.unreleased] += unreleased;
  d[o + CYL.burned] += fresh * rate;
}
