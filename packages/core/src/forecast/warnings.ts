/** Doubts and cautions that only a computed curve can raise. */

import type { Combination, Warning } from '../combination/combination.ts';
import { octaneIndex } from '../processes/knock.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { MarchedPoint, OperatingPoint } from './curve.ts';
import { limitBreaches } from './limits.ts';
import { oddFigures } from './oddFigures.ts';
import { brakeFactorIn, correctionBand } from './weatherCorrection.ts';
import { marchedPoints } from './wholeCurve.ts';

/** Mean piston speed above which ordinary parts need thought, and above which few last [m/s] (common practice, no source: 4000 and 5000 ft/min). */
const FAST_PISTON = 20.3;
const VERY_FAST_PISTON = 25.4;
/** [m/s] */
const FOOT_PER_MINUTE = 0.3048 / 60;

/** Spark held back by less than this is within what timing marks show [deg]. */
const WORTH_SAYING = 1;

/** Depression of a carburetor at the power peak below which its signal is weak [inHg] (common practice, no source). */
const WEAK_SIGNAL = 0.3;
/** Mean piston speed at which an engine draws so much that this says something [m/s]. */
const BRISK_PISTON = 10;

type CurveWarning = Warning & { readonly path: FieldPath | '' };

/**
 * Warnings of a curve, what it lacks first.
 *
 * @param marchedWhole - speeds at which one cylinder could not stand for the others [1/min]
 */
export function curveWarnings(
  combination: Combination,
  points: readonly OperatingPoint[],
  marchedWhole: readonly number[],
): Warning[] {
  const marched = marchedPoints({ points });
  return [
    ...lostSpeeds(points),
    ...unsettledSpeeds(marched),
    ...speedsWithoutTorque(marched),
    ...oddFigures(combination, marched),
    ...wholeSpeeds(marchedWhole),
    ...detonation(combination, marched),
    ...heldBackSpark(combination, marched),
    ...weakSignal(combination, marched),
    ...fastPistons(points),
    ...doubtfulWeather(combination),
    ...limitBreaches(combination, { points }).flatMap(({ stated, path, message }) =>
      stated ? [{ code: 'beyond-limit', path, message }] : [],
    ),
  ];
}

/** `3000, 3500`. */
function speedsOf(points: readonly OperatingPoint[]): string {
  return points.map(({ rpm }) => rpm).join(', ');
}

function lostSpeeds(points: readonly OperatingPoint[]): CurveWarning[] {
  const without = points.filter((p) => p.status === 'lost');
  const lost = without.filter(({ code }) => code === 'lost');
  const overrun = without.filter(({ code }) => code === 'too-many-steps');
  const warnings: CurveWarning[] = [];
  if (lost.length > 0) {
    const message = `no figures at ${speedsOf(lost)} rpm: the gas moved too fast to follow, however short the steps`;
    warnings.push({ code: 'lost', path: '', message });
  }
  if (overrun.length > 0) {
    const message = `no figures at ${speedsOf(overrun)} rpm: ${overrun[0].reason}`;
    warnings.push({ code: 'too-many-steps', path: '', message });
  }
  return warnings;
}

function unsettledSpeeds(marched: readonly MarchedPoint[]): CurveWarning[] {
  const unsettled = marched.filter(({ status }) => status === 'unsettled');
  if (unsettled.length === 0) return [];
  const scatter = Math.max(...unsettled.map(({ scatterPct }) => scatterPct ?? 0));
  const message = `the cycle did not settle at ${speedsOf(unsettled)} rpm: means of many cycles, whose torque scatters by up to ${scatter.toPrecision(2)} %`;
  return [{ code: 'not-converged', path: '', message }];
}

function speedsWithoutTorque(marched: readonly MarchedPoint[]): CurveWarning[] {
  const dragged = marched.filter(({ torqueNm }) => !(torqueNm > 0));
  if (dragged.length === 0) return [];
  const message = `friction and pumping take all the engine makes at ${speedsOf(dragged)} rpm: it can't run there on its own`;
  return [{ code: 'no-torque', path: '', message }];
}

function wholeSpeeds(marchedWhole: readonly number[]): CurveWarning[] {
  if (marchedWhole.length === 0) return [];
  const message = `at ${marchedWhole.join(', ')} rpm one cylinder could not stand for the others, so every cylinder was computed`;
  return [{ code: 'every-cylinder-marched', path: '', message }];
}

function detonation({ fuel }: Combination, marched: readonly MarchedPoint[]): CurveWarning[] {
  const knocking = marched.filter(({ detonates }) => detonates);
  if (knocking.length === 0) return [];
  const octane = octaneIndex(fuel.researchOctane, fuel.motorOctane);
  const most = Math.max(...knocking.map(({ octaneRequired }) => octaneRequired));
  const message = `${fuel.name} (${octane.toFixed(1)} octane) detonates at ${speedsOf(knocking)} rpm, which needs at least ${Math.ceil(most)} octane`;
  return [{ code: 'detonation', path: 'fuel', message }];
}

/** Only where the spark is found: a spark table or an angle that someone states may be late for reasons of his own. */
function heldBackSpark({ burn }: Combination, marched: readonly MarchedPoint[]): CurveWarning[] {
  if (burn.timing.mode !== 'knock-limited') return [];
  const limited = marched.filter((p) => !p.detonates && p.sparkGivenBackDeg > WORTH_SAYING);
  if (limited.length === 0) return [];
  const worst = limited.reduce((a, b) => (b.sparkGivenBackDeg > a.sparkGivenBackDeg ? b : a));
  const cost = worst.torqueGivenBackPct < 0.05 ? 'less than 0.1' : worst.torqueGivenBackPct.toFixed(1);
  const message = `knock holds the spark back by up to ${worst.sparkGivenBackDeg.toFixed(0)} deg (${cost} % of torque, at ${worst.rpm} rpm); best timing would ask for ${Math.ceil(worst.octaneAtBestTiming)} octane`;
  return [{ code: 'knock-limited', path: 'fuel', message }];
}

/** Coarse drops are in the figures, a mixture that goes astray is not. One in a runner of its own is drawn by pulses, of which the mean says little. */
function weakSignal({ induction }: Combination, marched: readonly MarchedPoint[]): CurveWarning[] {
  const { kind, injection, stacks } = induction;
  if (kind !== 'carburetor' || injection !== 'carburetor' || stacks !== undefined) return [];
  const brisk = marched.filter(({ meanPistonSpeedMs }) => meanPistonSpeedMs > BRISK_PISTON);
  if (brisk.length === 0) return [];
  const { rpm, manifoldVacuumInHg } = brisk.reduce((a, b) => (b.powerKw > a.powerKw ? b : a));
  if (!(manifoldVacuumInHg < WEAK_SIGNAL)) return [];
  const message = `only ${manifoldVacuumInHg.toFixed(2)} inHg are drawn through the carburetor at ${rpm} rpm, where power is most: it meters well from about ${WEAK_SIGNAL}. Its coarse drops are in the figures; what it costs at low speed where it no longer keeps its mixture is not, so a smaller carburetor may do better than they say`;
  return [{ code: 'weak-signal', path: 'induction.carburetor', message }];
}

function fastPistons(points: readonly OperatingPoint[]): CurveWarning[] {
  const fastest = Math.max(...points.map(({ meanPistonSpeedMs }) => meanPistonSpeedMs));
  if (!(fastest > FAST_PISTON)) return [];
  const bears =
    fastest > VERY_FAST_PISTON
      ? 'beyond what race parts usually bear'
      : 'forged parts and a speed limiter are the least';
  const message = `mean piston speed reaches ${Math.round(fastest / FOOT_PER_MINUTE)} ft/min, ${fastest.toFixed(1)} m/s: ${bears}`;
  return [{ code: 'piston-speed', path: 'engine.stroke', message }];
}

/**
 * The range is J1349's, about its own reference. J607's reference lies 4 % off, so that a hot day may be outside the range under J607
 * and no doubtful day for all that: both factors must be. Beyond 3 % a result notes it beside the factor it always shows.
 */
function doubtfulWeather({ weather, correction }: Combination): CurveWarning[] {
  const factor = brakeFactorIn(correction, weather);
  if (![factor, brakeFactorIn('J1349', weather)].every((each) => correctionBand(each) === 'caution'))
    return [];
  const message = `the weather correction is ${factor.toFixed(3)}: outside the range the standards allow`;
  return [{ code: 'weather-correction', path: 'weather', message }];
}
