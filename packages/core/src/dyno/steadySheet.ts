/** What a pull holds back: torque that brings up to speed what turns, and never reaches the brake. */
import { powerOf } from '../base/power.ts';
import type { Combination } from '../combination/combination.ts';
import { brakeFactorIn } from '../forecast/weatherCorrection.ts';
import { mean } from '../numerics/mean.ts';
import { turningInertia } from '../reading/defaults/inertia.ts';
import type { DynoSheet } from './dynoSheet.ts';
import type { Pull } from './readPull.ts';
import { airOfPull } from './recorrectSheet.ts';

/** What was added to measured torque to bring it to steady running. */
export interface HeldBack {
  /** How much speed rose in a second, each rate of the pulls once, rising [1/min/s]; below 0: it fell. */
  readonly rates: readonly number[];
  /** Of all that turns with the crank [kg m2]. */
  readonly inertia: number;
  /** One standard deviation of it where it is an estimate [kg m2]; null where the combination states it. */
  readonly inertiaSpread: number | null;
  /** Why the estimate is what it is; null where the combination states it. */
  readonly reason: string | null;
  /** In the mean of the pulls, under their standard [N m]; below 0 where speed fell. */
  readonly torqueNm: number;
}

/** How fast one pull went, and how its figures stand to observed ones. */
export interface PullPace {
  /** [1/min/s]; null where its sheet doesn't say. */
  readonly rate: number | null;
  /** Printed torque over observed [-]. */
  readonly factor: number;
}

/** A sheet brought to steady running. */
export interface SteadySheet {
  /** With the torque that the brake would have shown at a held speed. */
  readonly sheet: DynoSheet;
  /** Null where nothing was added: no rate is known, speeds were held, or the sheet is at the wheels. */
  readonly heldBack: HeldBack | null;
}

/** What of a combination says what turns, and how fast pulls of it go where their sheets don't. */
export type Turning = Pick<Combination, 'block' | 'pullRate' | 'assumed'>;

/** From 1/min/s to rad/s2. */
const TO_RADIANS = Math.PI / 30;

/**
 * Torque that a change of speed takes [N m]: moment of inertia times angular acceleration (Newton's second law for a turning body).
 *
 * @param inertia - [kg m2]
 * @param rate - [1/min/s]
 */
export function heldTorque(inertia: number, rate: number): number {
  return inertia * rate * TO_RADIANS;
}

/**
 * Adds to each pull what it held back, by the rate its sheet states or else that of the combination, and the moment of inertia that the
 * combination states or an estimate. Observed torque is what was held back of, so that a corrected figure is raised by the corrected amount.
 *
 * A sheet at the wheels stays as it is: what a pull takes there is part of what driveline and tyres are believed to take.
 *
 * @example
 * ```ts
 * const { sheet: steady, heldBack } = steadySheet(sheet, combination);
 * if (heldBack !== null) console.log(heldBack.torqueNm);
 * ```
 */
export function steadySheet(
  sheet: DynoSheet,
  combination: Pick<Combination, 'block' | 'pullRate' | 'assumed'>,
): SteadySheet {
  const paces = pacesOf(sheet.pulls, sheet.standard);
  const heldBack = sheet.atWheels === true ? null : heldBackOf(paces, combination);
  if (heldBack === null) return { sheet, heldBack };
  const pulls = sheet.pulls.map((pull, i): Pull => {
    const held = heldByPull(paces[i], heldBack.inertia, combination);
    const points = pull.points.map((point) => {
      const torqueNm = point.torqueNm + held;
      return { ...point, torqueNm, powerKw: powerOf(torqueNm, point.rpm) };
    });
    // As if its speeds had been held: nothing is added twice.
    return { ...pull, rate: 0, points };
  });
  return { sheet: { ...sheet, pulls }, heldBack };
}

/** Rate of each pull, with the factor from observed torque to printed. */
export function pacesOf(pulls: readonly Pull[], standard: DynoSheet['standard']): readonly PullPace[] {
  return pulls.map((pull) => {
    const air = airOfPull(pull, standard);
    return { rate: pull.rate ?? null, factor: air === null ? 1 : brakeFactorIn(standard, air) };
  });
}

/** What such pulls of a combination hold back in the mean; null for nothing. */
export function heldBackOf(paces: readonly PullPace[], combination: Turning): HeldBack | null {
  const rates = paces.map(({ rate }) => rate ?? combination.pullRate ?? 0);
  if (rates.every((rate) => rate === 0)) return null;
  const { inertia, inertiaSpread, reason } = inertiaOf(combination);
  return {
    rates: [...new Set(rates)].sort((a, b) => a - b),
    inertia,
    inertiaSpread,
    reason,
    torqueNm: mean(paces.map((pace) => heldByPull(pace, inertia, combination))),
  };
}

function heldByPull(
  { rate, factor }: PullPace,
  inertia: number,
  { pullRate }: Pick<Combination, 'pullRate'>,
): number {
  return factor * heldTorque(inertia, rate ?? pullRate ?? 0);
}

/** As stated, or the estimate. */
function inertiaOf({ block, assumed }: Turning): Pick<HeldBack, 'inertia' | 'inertiaSpread' | 'reason'> {
  const { inertia } = block;
  if (inertia !== undefined && !assumed.some(({ path }) => path === 'engine.inertia'))
    return { inertia, inertiaSpread: null, reason: null };
  const { value, spread, reason } = turningInertia(block);
  return { inertia: inertia ?? value, inertiaSpread: spread, reason };
}
