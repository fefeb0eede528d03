/** Speed of rated power, which sizes the parts a file leaves out, and the cam that belongs to it. */
import type { Estimate } from '../../combination/ledger.ts';
import type { Make } from './make.ts';

/**
 * Mean piston speed at rated power of a two-valve engine [m/s].
 *
 * Median of the 64 distinct naturally aspirated gasoline engines of the UCI Automobile data set (J. Schlimmer, 1987):
 * 9.2 to 17.6, standard deviation 2.0.
 */
export const RATED_PISTON_SPEED_TWO_VALVE = 14.4;
/**
 * The same with more than two valves [m/s]: median of the 29 different four-valve engines of R. H. Lock's table (J. Statistics Education 1(1),
 * 1993), 14.4 to 18.7, with bores over strokes as usual for the number of cylinders. In 2004 it was 16.6 again (112 engines, speeds from memory), with two valves 14.8.
 */
export const RATED_PISTON_SPEED_MULTI_VALVE = 16.6;
/** One standard deviation of both [m/s]. */
export const RATED_PISTON_SPEED_SPREAD = 2;

/**
 * Duration at 0.050 in for a gas speed of 63 m/s through the open valve [crank deg].
 *
 * Builders quote (no source) 218 to 224 deg for a power peak at 5500 rpm in a 347 in3 engine of 4.03 in bore and 3.40 in stroke;
 * 2.02 in valves from memory. Gas speed is mean piston speed times bore area over valve head area, which carries
 * the figure to other sizes: the cam follows the gas, not the crank.
 */
export const CAM_REFERENCE = { gasSpeed: 63, duration: 221 } as const;
/** Degrees for each m/s: the same source's 65 to 85 rpm a degree, 75 at 5500 rpm and 63 m/s. */
export const CAM_SLOPE: number = 5500 / 63 / 75;
/**
 * How much shorter production lobes are than the rule's, which is that of performance cams [crank deg].
 *
 * A 350 in3 engine of the trade with 1.94 in valves, rated at 4200 rpm, had 194 deg at 0.050 in (from memory) where the rule
 * gives 209; two-valve fours rated at 5000 to 5500 rpm had 200 to 212 (from memory) where it gives 220 to 230. With the rule's own
 * lobe an engine with production ports makes its power 10 to 20 % above the speed it is rated at, which contradicts the
 * meaning of the rating.
 */
export const PRODUCTION_SHORTER = 15;
/** Shortest and longest duration at 0.050 in the rule gives [crank deg]. */
export const CAM_RANGE = { min: 180, max: 290 } as const;
/** One standard deviation [crank deg]. */
export const CAM_SPREAD = 8;

/** What the rules of this file need of an engine. Lengths [m]. */
export interface BreathingSizes {
  readonly bore: number;
  readonly stroke: number;
  /** Intake valves of one cylinder. */
  readonly valves: number;
  readonly valveDiameter: number;
}

/** Rated speed [rpm] from the size of the engine, or from the intake duration where a cam is given: {@link intakeDuration} the other way round. */
export function ratedSpeed(sizes: BreathingSizes, durationAt050: number | null, kind: CamKind): Estimate {
  const toRpm = 30 / sizes.stroke;
  if (durationAt050 !== null) {
    const isProduction = kind === 'production';
    const byRule = durationAt050 + (isProduction ? PRODUCTION_SHORTER : 0);
    const gasSpeed = CAM_REFERENCE.gasSpeed + (byRule - CAM_REFERENCE.duration) / CAM_SLOPE;
    const pistonSpeed = Math.max(gasSpeed, 20) / areaRatio(sizes);
    return {
      value: roundSpeed(pistonSpeed * toRpm),
      spread: 500,
      reason: isProduction
        ? 'speed the intake duration of a production cam suits: 206 deg at 0.050 in at 63 m/s through the valve (from memory)'
        : 'speed the intake duration at 0.050 in suits: common practice, no source, 65 to 85 rpm a degree, scaled by gas speed through the valve',
    };
  }
  const multi = sizes.valves > 1;
  const pistonSpeed = multi ? RATED_PISTON_SPEED_MULTI_VALVE : RATED_PISTON_SPEED_TWO_VALVE;
  return {
    value: roundSpeed(pistonSpeed * toRpm),
    spread: Math.round(RATED_PISTON_SPEED_SPREAD * toRpm),
    reason: multi
      ? 'mean piston speed of 16.6 m/s, median of 29 four-valve production engines of 1993 (R. H. Lock)'
      : 'mean piston speed of 14.4 m/s, median of 64 production engines of 1985 (UCI Automobile data set)',
  };
}

/**
 * What a cam is ground for. `alone`: an engine as it was made whose cylinders have a throttle or barrel each. What a long cam lets flow back at idle stays in a cylinder's own
 * runner there and dilutes no other, so that the maker need not hold back. A road motorcycle of 997 cc of 1990 opens from 8 deg before to 45 deg
 * after the centres at 1 mm of lift (thegsresources.com, thread 76721): 233 deg, where this rule gives 222 at 0.050 in, 4 to 6 deg less for the lift.
 * tests/data/motorcycles.csv: with production cams 61 such engines come out 7 % low.
 */
export type CamKind = Make | 'alone';

const CAM_REASONS: Readonly<Record<CamKind, string>> = {
  production:
    'production cam for the rated speed: 206 deg at 63 m/s through the valve, 1.16 deg for each m/s (from memory)',
  performance:
    'cam for the rated speed: 221 deg at 63 m/s through the valve, 1.16 deg for each m/s; common practice, no source',
  alone:
    'cam for the rated speed, as long as performance cams are: a throttle a cylinder bears it at idle; common practice, no source',
};

/** Duration of the intake lobe at 0.050 in [crank deg] for a rated speed [rpm]. */
export function intakeDuration(sizes: BreathingSizes, rpm: number, kind: CamKind): Estimate {
  const gasSpeed = ((2 * sizes.stroke * rpm) / 60) * areaRatio(sizes);
  const byRule = CAM_REFERENCE.duration + (gasSpeed - CAM_REFERENCE.gasSpeed) * CAM_SLOPE;
  const duration = byRule - (kind === 'production' ? PRODUCTION_SHORTER : 0);
  return {
    value: Math.round(Math.min(CAM_RANGE.max, Math.max(CAM_RANGE.min, duration))),
    spread: CAM_SPREAD,
    reason: CAM_REASONS[kind],
  };
}

/**
 * Mean piston speed at which production ports have the usual throat [m/s]. Two intake valves have 1.44 times the area of one, so that
 * the same throats would pass the gas at 20.7 m/s; ports of four-valve heads flow 1.3 cfm at 28 inH2O, within 0.1, for a square inch of piston
 * and a m/s of its speed at rated power (eight engines, from memory), where those of two-valve heads flow 1.17.
 */
export const PACED_PISTON_SPEED: { readonly twoValve: number; readonly multiValve: number } = {
  twoValve: RATED_PISTON_SPEED_TWO_VALVE,
  multiValve: 17.5,
};

/** Mean piston speed at a rated speed [rpm] over that at which the usual throat passes its gas [-]. */
export function ratedPace({ stroke, valves }: BreathingSizes, rpm: number): number {
  return (stroke * rpm) / 30 / PACED_PISTON_SPEED[valves > 1 ? 'multiValve' : 'twoValve'];
}

/** Bore area over the head area of the intake valves [-]. */
function areaRatio(sizes: BreathingSizes): number {
  return (sizes.bore * sizes.bore) / (sizes.valves * sizes.valveDiameter * sizes.valveDiameter);
}

function roundSpeed(rpm: number): number {
  return Math.round(rpm / 50) * 50;
}
