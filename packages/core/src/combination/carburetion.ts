/** What a carburetor's fuel is like at one speed: how much of it the air evaporates, and how unevenly the rest is dealt out. */
import { stoichiometricAirFuelRatio } from '../gas/freshGas.ts';
import { LIQUID_DENSITY } from '../gas/liquidFuel.ts';
import { MIXTURE_SCATTER } from '../processes/mixtureScatter.ts';
import { sprayDiameter } from '../processes/sprayDiameter.ts';
import { sprayEvaporated } from '../processes/sprayEvaporation.ts';
import { strayingShare } from '../processes/strayingShare.ts';
import type { Combination, Induction } from './combination.ts';
import { sharedLambda } from './lambdaOf.ts';

/** Filling by volume at full throttle that sets the air's speed in the venturi [-]: 0.8 to 1 over most of a curve; from memory. */
const FILLING = 0.9;
/** Air [kg/m3]. */
const AIR_DENSITY = 1.2;
/** Cylinders that draw one after another without a gap: each draws for a quarter of the time. */
const WITHOUT_GAPS = 4;

/** Turns of the crank that a plenum's gas stays in it: it holds 0.2 to 0.3 of the displacement by this program's estimates, and two turns draw 0.9 of it. */
const TURNS_IN_PLENUM = 0.5;

/**
 * Where the estimates of evaporation and scatter are at home: drops of 50 um (Heywood, 1988, ch. 7; from memory), which air of 65 m/s makes, between the 60
 * and 78 m/s of carburetors of 0.7 and 1.2 inHg at the power peak; and a usual speed of that peak [1/min]. Drops are on their way for two turns of
 * the crank, as plenum, runner and port hold about one displacement: the slower, the longer.
 */
const USUAL = { diameter: 50e-6, rpm: 5500 } as const;
/** Most that the stream can take up, over what it takes of usual drops [-]: 0.6 of a gasoline evaporates in so much air of 20 degC (from memory). */
const MOST_OVER_USUAL = 2;
/**
 * Standard deviation of the mixture between cylinders of one carburetor [-]: 0.04 (Gerrish and Voss, NACA TN 583, 1936, nine in a radial) to 0.07 (eights,
 * from memory). The rest of {@link MIXTURE_SCATTER} is within each.
 */
export const BETWEEN_CYLINDERS = 0.055;
/** Standard deviation within each cylinder [-]. */
const WITHIN_CYLINDERS = Math.sqrt(MIXTURE_SCATTER ** 2 - BETWEEN_CYLINDERS ** 2);
/**
 * Least of the fuel that is liquid in the plenum where these were measured [-]: air evaporates 0.3 of a usual gasoline, 0.4 of a light one (from
 * memory). Fuel of which more is gone leaves less that could stray.
 */
const LEAST_LIQUID = 0.6;

/** A carburetor's fuel at one speed. */
export interface Carburetion {
  /** Sauter mean diameter of its drops [m]. */
  readonly diameter: number;
  /** As {@link Induction.evaporation} and {@link Induction.vapour} [-]. */
  readonly evaporation: number;
  readonly vapour: number;
  /** Standard deviation of the equivalence ratio [-]. */
  readonly scatter: number;
}

/** What venturis of so much area make of the fuel at a crank speed [1/min]; null where it is a gas or comes in another way. */
export function carburetionAt(combination: Combination, rpm: number): Carburetion | null {
  const { fuel, induction, mixtureScatter: between } = combination;
  if (induction.venturiArea === undefined || !(fuel.latentHeat > 0)) return null;
  const speed = venturiSpeed(combination, induction.venturiArea, rpm);
  const diameter = sprayDiameter(speed, fuelLoad(combination));
  const shares = sharesOf(induction, diameter, rpm);
  const over = strayedOverUsual(diameter, rpm, shares.evaporation, induction.evaporation);
  const scatter = between === undefined ? MIXTURE_SCATTER : Math.hypot(WITHIN_CYLINDERS, over * between);
  return { diameter, ...shares, scatter };
}

/** Cylinders that draw through the same barrels. */
export function together({ plenums, stacks }: Induction): number {
  return stacks === undefined ? Math.min(...plenums.map(({ cylinders }) => cylinders.length)) : 1;
}

/** Mean speed of the air in the venturis while it flows [m/s], all of them open. */
export function venturiSpeed({ block, induction }: Combination, area: number, rpm: number): number {
  const displacement = block.cylinders * (Math.PI / 4) * block.bore ** 2 * block.stroke;
  const gaps = Math.max(1, WITHOUT_GAPS / together(induction));
  return (gaps * FILLING * displacement * rpm) / 120 / area;
}

/** Fuel over air by volume [-]. */
function fuelLoad(combination: Combination): number {
  const airFuelRatio = sharedLambda(combination) * stoichiometricAirFuelRatio(combination.fuel);
  return AIR_DENSITY / LIQUID_DENSITY / airFuelRatio;
}

/** What the air evaporates, and walls of the rest, in the share that they evaporate of what usual drops leave them. */
function sharesOf(
  { evaporation: usual, vapour }: Induction,
  diameter: number,
  rpm: number,
): Pick<Carburetion, 'evaporation' | 'vapour'> {
  const exposure = (USUAL.rpm / rpm) * (USUAL.diameter / diameter) ** 2;
  const evaporation = Math.min(1, MOST_OVER_USUAL * sprayEvaporated(USUAL_LOSS * exposure) * usual);
  const byWalls = usual < 1 ? (vapour - usual) / (1 - usual) : 1;
  return { evaporation, vapour: evaporation + byWalls * (1 - evaporation) };
}

/** Loss of the squared diameter at which one over {@link MOST_OVER_USUAL} of a spray is gone [-]. */
const USUAL_LOSS = 0.4049;

/** What is liquid in the plenum and doesn't follow the air, over what was where scatter was measured [-]: it is dealt out unevenly. */
function strayedOverUsual(diameter: number, rpm: number, evaporation: number, usual: number): number {
  const strayed = (liquid: number, d: number, n: number): number =>
    liquid * strayingShare(d, (TURNS_IN_PLENUM * 60) / n);
  const measured = strayed(Math.max(LEAST_LIQUID, 1 - usual), USUAL.diameter, USUAL.rpm);
  return strayed(1 - evaporation, diameter, rpm) / measured;
}
