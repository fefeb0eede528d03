/** How many crank degrees the flame takes, by the chamber's own, scaled with speed, charge and compression. */
import { DomainError } from '../base/errors.ts';
import { shareBefore50 } from './wiebe.ts';

/** Crank angles of a chamber's burn at its reference conditions: 4000 rpm, full throttle, gasoline, lambda 0.87, best-torque timing. */
export interface ReferenceBurn {
  /** Spark to 10 % burned [deg], at {@link DEVELOPMENT_REFERENCE}. */
  readonly development: number;
  /** 10 to 90 % burned [deg], at {@link MAIN_REFERENCE}. */
  readonly main: number;
  /** Density of the charge at the spark over that at top centre, {@link CENTRED_CA50} and the two angles above [-]. */
  readonly density: number;
}

/**
 * Where a burn is taken to be centred [deg after firing top centre] when the density at its spark is asked for: the usual
 * best angle. A burn set later is not made longer for it.
 */
export const CENTRED_CA50 = 8;

/** What the angles of a burn go with. */
export interface BurnConditions {
  /** Bore [m]: the flame's way goes with it. */
  readonly bore: number;
  /** Stroke [m]: a crank degree takes a time of stroke over piston speed. */
  readonly stroke: number;
  /** Mean piston speed [m/s]. */
  readonly pistonSpeed: number;
  /** Kinematic viscosity of the unburned gas [m2/s]. */
  readonly viscosity: number;
  /** Volume of the chamber over bore area [m]. */
  readonly height: number;
  /** Laminar flame speed [m/s]. */
  readonly flameSpeed: number;
}

/** Angle of {@link DEVELOPMENT_REFERENCE} before firing top centre [deg]: near the spark, without needing to know it. */
export const DEVELOPMENT_INSTANT = 25;

/**
 * Conditions of the development angles: unburned gas 25 deg before top centre in an engine of 101.6 mm bore, 88.4 mm stroke,
 * 145 mm rod and compression ratio 10 at 4000 rpm, that is 624 K, 9.82 bar, gasoline at lambda 0.87, 6 % residual by moles.
 */
export const DEVELOPMENT_REFERENCE: BurnConditions = {
  bore: 0.1016,
  stroke: 0.0884,
  pistonSpeed: 11.79,
  viscosity: 5.644e-6,
  height: 15.17e-3,
  flameSpeed: 0.6981,
};

/** Conditions of the main burn angles: the same charge motored to top centre, 720 K and 17.5 bar. */
export const MAIN_REFERENCE: BurnConditions = {
  bore: 0.1016,
  stroke: 0.0884,
  pistonSpeed: 11.79,
  viscosity: 4.005e-6,
  height: 9.82e-3,
  flameSpeed: 0.8467,
};

/**
 * Power of the flame's way over the chamber's height in the main burn [-].
 *
 * The time of one eddy counts as often as eddies lie on the way where they burn one after the other: 1, as the scaling of
 * {@link mainBurnAngle} has it. Where the flame's front runs ahead and eddies burn behind it together, the way counts for the
 * front alone: 0.5 to 0.8. With 2/3 the height drops out, and a plug at the side (0.85 of the bore to go in place of 0.5)
 * burns as much longer as the trade finds: 1.42.
 */
export const WAY_POWER: number = 2 / 3;

/** The same in the development [-]: most of it is the kernel's, which hasn't met a wall. Puts central plugs within 1 deg of the total timing of the trade. */
export const KERNEL_WAY_POWER: number = WAY_POWER * (2 / 3);

/**
 * Flame development, spark to 10 % burned [deg]: the chamber's reference times
 * (Sp nu / reference)^(1/3) (h / SL / reference)^(2/3) (reference stroke / stroke) (bore / h / reference)^(4/9).
 *
 * Source: Hires, Tabaczynski and Novak, SAE 780232 (1978) (from memory): the time to burn an eddy of Taylor's microscale
 * at the laminar flame speed, turbulence in proportion to piston speed, integral scale to the height of the chamber; piston
 * speed over stroke makes crank degrees of it. The last factor is not in the source, which ends the development at the first
 * eddies. Conditions {@link DEVELOPMENT_INSTANT} degrees before top centre, compressed without burning.
 *
 * @param now - conditions at that instant
 * @throws {@link DomainError} naming the first condition out of range
 */
export function flameDevelopmentAngle(reference: ReferenceBurn, now: BurnConditions): number {
  return reference.development * angleRatio(now, DEVELOPMENT_REFERENCE, KERNEL_WAY_POWER);
}

/**
 * Exponent of the density ratio of {@link mainBurnAngle} [-]: 10/9 of the source, less 2/3 because the height of the source is
 * that at the spark, which is the height at top centre over the density ratio.
 */
const DENSITY_POWER = 10 / 9 - 2 / 3;

/**
 * Main burn, 10 to 90 % burned [deg]: the chamber's reference times (Sp nu / reference)^(1/3) (h / SL / reference)^(2/3)
 * (reference stroke / stroke) (bore / h / reference)^(2/3) (density / reference)^(4/9), conditions at firing top centre,
 * compressed without burning.
 *
 * Source: Hires, Tabaczynski and Novak, SAE 780232 (1978) (from memory), who have bore over height to the power of 1: see
 * {@link WAY_POWER}. The eddies have the size of the chamber at the spark and are squeezed with the charge until it burns: the
 * earlier the spark, the larger they are and the more they are squeezed, the second counting for more. That takes a quarter off
 * what speed or mixture would change alone.
 *
 * @param now - conditions at firing top centre
 * @param density - of the unburned charge at the spark over that at firing top centre [-], see {@link mainBurnTimed}
 * @throws {@link DomainError} naming the first argument out of range
 */
export function mainBurnAngle(reference: ReferenceBurn, now: BurnConditions, density: number): number {
  if (!(density > 0 && density <= 1)) throw new DomainError('density', density, 'in (0, 1]');
  const squeezed = (density / reference.density) ** DENSITY_POWER;
  return reference.main * squeezed * angleRatio(now, MAIN_REFERENCE, WAY_POWER);
}

/** Halvings of the distance and more: a longer burn is lit earlier, which shortens it again by a third. */
const SETTLING_STEPS = 12;

/**
 * Main burn that agrees with its own spark [deg]: lit so that half is burned at `ca50`, or at {@link CENTRED_CA50} where that
 * is later. A late burn is lit in denser charge and spreads more slowly; an earlier one than the centred is not taken to be
 * faster, since its flame starts in colder gas than the flame speed at top centre knows of.
 *
 * @param development - spark to 10 % burned [deg]
 * @param mainAt - main burn [deg] of a charge lit so many degrees before firing top centre
 * @param ca50 - angle of 50 % burned after firing top centre [deg]
 */
export function mainBurnTimed(development: number, mainAt: (lead: number) => number, ca50: number): number {
  const centre = Math.max(ca50, CENTRED_CA50);
  let main = mainAt(development);
  for (let i = 0; i < SETTLING_STEPS; i++) {
    main = (main + mainAt(Math.max(0, sparkLead(development, main, centre)))) / 2;
  }
  return main;
}

/**
 * Spark before firing top centre [deg] that puts 50 % burned at `ca50` after it [deg]: development plus the first part
 * of the main burn less `ca50`.
 */
export function sparkLead(development: number, main: number, ca50: number): number {
  if (!(development >= 0)) throw new DomainError('development', development, 'zero or positive deg');
  if (!(main > 0)) throw new DomainError('main', main, 'positive deg');
  if (!Number.isFinite(ca50)) throw new DomainError('ca50', ca50, 'finite deg');
  return development + shareBefore50() * main - ca50;
}

/** Angle of 50 % burned after firing top centre [deg] from the spark before it [deg]; undoes {@link sparkLead}. */
export function ca50FromSpark(development: number, main: number, spark: number): number {
  return sparkLead(development, main, spark);
}

/** Angle of a burn under the conditions `now` over that under `reference` [-]. */
function angleRatio(now: BurnConditions, reference: BurnConditions, wayPower: number): number {
  const { bore, stroke, pistonSpeed, viscosity, height, flameSpeed } = now;
  if (!(bore > 0)) throw new DomainError('bore', bore, 'positive m');
  if (!(stroke > 0)) throw new DomainError('stroke', stroke, 'positive m');
  if (!(pistonSpeed > 0)) throw new DomainError('pistonSpeed', pistonSpeed, 'positive m/s');
  if (!(viscosity > 0)) throw new DomainError('viscosity', viscosity, 'positive m2/s');
  if (!(height > 0)) throw new DomainError('height', height, 'positive m');
  if (!(flameSpeed > 0)) throw new DomainError('flameSpeed', flameSpeed, 'positive m/s');
  const turbulence = (pistonSpeed * viscosity) / (reference.pistonSpeed * reference.viscosity);
  const flame = (height * reference.flameSpeed) / (reference.height * flameSpeed);
  const eddies = (bore * reference.height) / (reference.bore * height);
  return (Math.cbrt(turbulence * flame * flame) * reference.stroke * eddies ** wayPower) / stroke;
}
