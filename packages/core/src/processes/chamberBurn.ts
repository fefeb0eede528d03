/** Burn angles of a chamber by what is measured or seen of it: shape, squish and place of the plug. */
import { INCH } from '../base/constants.ts';
import { pistonPosition, type SliderCrank, sliderCrank } from '../geometry/sliderCrank.ts';
import { peakSquishVelocity, type SquishGap, squishVelocity } from '../geometry/squish.ts';
import {
  CENTRED_CA50,
  DEVELOPMENT_INSTANT,
  KERNEL_WAY_POWER,
  MAIN_REFERENCE,
  type ReferenceBurn,
  sparkLead,
  WAY_POWER,
} from './burnDuration.ts';

/** Where the plug stands: in the middle of the bore or towards its wall. */
export const PLUG_PLACES = ['central', 'side'] as const;
/** Where a spark plug stands. */
export type PlugPlace = (typeof PLUG_PLACES)[number];

/** What is measured or seen of a chamber. */
export interface ChamberForm extends SquishGap {
  readonly plug: PlugPlace;
}

/**
 * Burn of a chamber without squish and with its plug at the side, at the reference conditions [deg].
 *
 * Common practice, no source: 42 deg from 10 to 90 % for the slowest chambers, 34 for usual ones, 28 for fast ones (spread 4
 * deg). Development follows from the total timing of the trade with 50 % burned at 8 deg after top centre.
 */
export const STILL_BURN = { development: 26, main: 42 } as const;

/** Longest way of the flame from a plug at the side over that from a central one [-]: the plug at 0.69 of the bore's radius, 0.85 of the bore to go in place of 0.5; from memory. */
export const SIDE_PATH = 1.69;

/** Turbulence at top centre without squish over mean piston speed [-]; Heywood (1988), section 8.2.2, from memory: about one half. */
export const STILL_TURBULENCE = 0.5;

/**
 * Turbulence that squish leaves over squish velocity [-].
 *
 * From the durations of the trade: 34 and 30 deg for a wedge with 18 and 28 % of squish, 1.4 mm high, against 42 with none.
 */
export const SQUISH_TURBULENCE = 0.226;

/**
 * Smallest gap that is taken to burn faster than a wider one [m]: in narrower ones the flame goes out between the walls, and a
 * piston comes close to touching; common practice, no source, 0.035 in.
 */
export const LEAST_USEFUL_GAP: number = 0.035 * INCH;

/**
 * Reference angles of a chamber: {@link STILL_BURN} by the way of the flame in an engine of the reference's bore, and by turbulence to the power -2/3, which is how
 * a time goes with it in the scaling of Hires, Tabaczynski and Novak, SAE 780232 (1978), from memory. Squish adds to the
 * turbulence as its square: at its peak for the main burn, at {@link DEVELOPMENT_INSTANT} for the development.
 *
 * @param crank - the engine the chamber is in: squish goes with its bore, stroke and clearance
 */
export function chamberBurn(crank: SliderCrank, form: ChamberForm): ReferenceBurn {
  const gap = { ...form, squishHeight: Math.max(form.squishHeight, LEAST_USEFUL_GAP) };
  const way = form.plug === 'central' ? 1 / SIDE_PATH : 1;
  const main = STILL_BURN.main * way ** WAY_POWER * stirred(peakSquishVelocity(crank, gap));
  const development =
    STILL_BURN.development *
    way ** KERNEL_WAY_POWER *
    stirred(squishVelocity(crank, gap, DEVELOPMENT_INSTANT));
  return { development, main, density: densityAtSpark(development, main) };
}

/** Time of a burn with a squish velocity over mean piston speed, over that without [-]. */
function stirred(velocity: number): number {
  const added = (SQUISH_TURBULENCE * velocity) / STILL_TURBULENCE;
  return 1 / Math.cbrt(1 + added * added);
}

/** The engine the reference conditions belong to; its clearance is that of {@link MAIN_REFERENCE}. */
export const REFERENCE_CRANK: SliderCrank = sliderCrank(
  MAIN_REFERENCE.bore,
  MAIN_REFERENCE.stroke,
  0.145,
  (Math.PI / 4) * MAIN_REFERENCE.bore ** 2 * MAIN_REFERENCE.height,
);

/** Density at the spark over that at top centre of the reference engine with these angles [-]. */
function densityAtSpark(development: number, main: number): number {
  const lead = (sparkLead(development, main, CENTRED_CA50) * Math.PI) / 180;
  return MAIN_REFERENCE.height / (MAIN_REFERENCE.height + pistonPosition(REFERENCE_CRANK, lead));
}
