/** Figures that go with engine speed and need no simulation: piston speed, inlet Mach index, gas speeds, depression. */

import type { Combination } from '../combination/combination.ts';
import { BENCH_AIR, CARBURETOR_DEPRESSION, flowFromArea } from '../geometry/flowSheet.ts';
import { inletMachIndex } from '../geometry/meanArea.ts';
import { meanPistonSpeed, pistonArea, sweptVolume } from '../geometry/sliderCrank.ts';
import { airDemand, drawsByTurns } from '../reading/defaults/metering.ts';
import type { SpeedBand } from './band.ts';

/** Hand figures at one speed. */
export interface SpeedFigures {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Mean piston speed [m/s]. */
  readonly meanPistonSpeedMs: number;
  /** Mean inlet Mach index [-]. */
  readonly inletMachIndex: number;
  /** Mean over one stroke in the intake port, filled at ambient density [m/s]. */
  readonly portVelocityMs: number;
  /** Likewise in the exhaust primary [m/s]. */
  readonly primaryVelocityMs: number;
  /** Across carburetor or throttle at a filling of 0.95, while cylinders draw: fewer than four on a plenum draw with gaps [inHg]. */
  readonly depressionInHg: number;
}

/** Speeds worth forecasting when nobody names any. */
export interface ChosenBand extends SpeedBand {
  /** Step between the speeds [1/min]. */
  readonly stepRpm: number;
  /** Speed beyond which nobody asks: the redline, else a quarter beyond a stated rated speed, or a mean piston speed that hardly any parts stand [1/min]. */
  readonly mostRpm: number;
  /** Where the choice comes from, for people. */
  readonly reason: string;
}

/** Filling at which the depression is reckoned [-]: an engine in good order at full throttle. */
export const ASSUMED_FILLING = 0.95;

/**
 * Inlet Mach index at which power is guessed to peak, for choosing a band and nothing else [-]. Filling falls sharply above
 * 0.5 (JSME Mechanical Engineering Dictionary, "mean inlet Mach number") and power, filling times speed, holds longer:
 * two states of one 350 in3 eight in a magazine's dyno series (1999 to 2000) peak at 5300 and 5800 rpm, both at 0.635.
 */
export const PEAK_POWER_MACH = 0.63;

/**
 * Depression across carburetor or throttle at which power is guessed to peak where the valves would let it rise further [inHg].
 *
 * Speed N times what the depression d leaves of 30 inHg of air, N (1 - d / 30), is greatest at d = 10 where d rises with the square of
 * speed. The depression is that of the mean flow at {@link ASSUMED_FILLING}, which an engine so held back no longer reaches.
 */
export const PEAK_POWER_DEPRESSION = 10;

/** Mean piston speed that hardly any parts bear [m/s]: 5500 ft/min (from memory). A file that states a redline decides for itself. */
const MOST_PISTON_SPEED = 28;

/** First and last speed of a band over the guessed speed of peak power [-], and the speed above which its steps are wider [1/min]. */
const BAND_FROM = 0.4;
const BAND_TO = 1.2;
/** Highest speed of use over a stated rated speed [-]: redlines stand 10 to 25 % above it (common practice, no source). */
const OVER_RATED = 1.25;
const FAST_ENGINE = 5000;

/** Flow of carburetor or throttle at 1.5 inHg [m3/s], whole engine. */
export function inductionRating(combination: Combination): number {
  return flowFromArea(combination.induction.meteringArea, CARBURETOR_DEPRESSION.fourBarrel);
}

/**
 * Hand figures at a speed [1/min].
 *
 * @param meanArea - effective intake area of one cylinder, mean over the time the valve is open [m2]
 */
export function speedFigures(combination: Combination, meanArea: number, rpm: number): SpeedFigures {
  const { block } = combination;
  const pistonSpeed = meanPistonSpeed(block.stroke, (rpm * Math.PI) / 30);
  const boreArea = pistonArea(block);
  const soundSpeed = Math.sqrt(BENCH_AIR.gamma * BENCH_AIR.gasConstant * combination.weather.temperature);
  return {
    rpm,
    meanPistonSpeedMs: pistonSpeed,
    inletMachIndex: inletMachIndex(boreArea, pistonSpeed, meanArea, soundSpeed),
    portVelocityMs: (boreArea * pistonSpeed) / combination.intake.portArea,
    primaryVelocityMs: (boreArea * pistonSpeed) / combination.exhaustSystem.primary.area,
    depressionInHg: drawsByTurns(onOnePlenum(combination)) ** 2 * meanDepression(combination, rpm),
  };
}

/** Across carburetor or throttle at the mean flow of the whole engine, with {@link ASSUMED_FILLING} [inHg]. */
function meanDepression(combination: Combination, rpm: number): number {
  const { block } = combination;
  const drawn = airDemand(sweptVolume(block) * block.cylinders, rpm, ASSUMED_FILLING);
  return 1.5 * (drawn / inductionRating(combination)) ** 2;
}

/** Fewest cylinders that draw through the same carburetors or throttles. */
function onOnePlenum({ induction, block }: Combination): number {
  if (induction.stacks !== undefined) return 1;
  return Math.min(block.cylinders, ...induction.plenums.map(({ cylinders }) => cylinders.length));
}

/** From where torque is of use to past the guessed power peak, in round steps. */
export function chooseBand(combination: Combination, meanArea: number): ChosenBand {
  const each = speedFigures(combination, meanArea, 1);
  const byValves = PEAK_POWER_MACH / each.inletMachIndex;
  const byCarburetor = Math.sqrt(PEAK_POWER_DEPRESSION / meanDepression(combination, 1));
  const peak = Math.min(byValves, byCarburetor);
  const step = peak > FAST_ENGINE ? 500 : 250;
  const from = Math.max(step, Math.round((BAND_FROM * peak) / step) * step);
  const past = Math.max(from + 4 * step, Math.ceil((BAND_TO * peak) / step) * step);
  const [most, end] = highestAsked(combination);
  const to = most < past ? Math.max(step, Math.floor(most / step) * step) : past;
  const around = Math.round(peak / 50) * 50;
  const governs =
    byValves <= byCarburetor
      ? `the inlet Mach index is ${PEAK_POWER_MACH}`
      : `the carburetor or throttle takes ${PEAK_POWER_DEPRESSION} inHg`;
  return {
    fromRpm: Math.min(from, to),
    toRpm: to,
    stepRpm: step,
    mostRpm: most,
    reason: `chosen around ${around} rpm, where ${governs}${to === past ? '' : `, up to ${end}`}`,
  };
}

/** Nobody asks what an engine does beyond its redline, well beyond the speed that its power is made at, or where its rods leave it. */
function highestAsked(combination: Combination): readonly [rpm: number, what: string] {
  const { block, limits, ratedSpeed, assumed } = combination;
  if (limits.redline !== null) return [limits.redline, 'the redline'];
  const bears = (60 * MOST_PISTON_SPEED) / (2 * block.stroke);
  // An estimate that was written out bounds nothing.
  const isStated = ratedSpeed !== null && !assumed.some(({ path }) => path === 'engine.ratedSpeed');
  const past = isStated ? OVER_RATED * ratedSpeed : Number.POSITIVE_INFINITY;
  return past < bears
    ? [past, `${OVER_RATED} times the rated speed`]
    : [bears, `a mean piston speed of ${MOST_PISTON_SPEED} m/s`];
}
