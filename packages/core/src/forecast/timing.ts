/** When to burn: given, best torque, or as early as the fuel's octane allows. */
import type { Burn } from '../combination/running.ts';
import type { BurnAngles, Timing } from '../cycle/burnPlan.ts';
import { planBurn, timedBurn } from '../cycle/burnPlan.ts';
import type { ClosedBench, ClosedCycle } from '../cycle/closedCycle.ts';
import { runClosedCycle } from '../cycle/closedCycle.ts';
import { sweptVolume } from '../geometry/sliderCrank.ts';
import { linearTable } from '../numerics/interpolate.ts';
import { maximise } from '../numerics/maximise.ts';
import { findRoot } from '../numerics/root.ts';
import { topBetween } from '../numerics/topOf.ts';
import { peakPressureFriction } from '../processes/peakPressureFriction.ts';
import { type FuelOctane, octaneShort } from './fuelOctane.ts';

/** Earliest and latest angle of 50 % burned that the search considers [deg after firing top centre]. */
const EARLIEST = -5;
const LATEST = 40;
/** Where a search anywhere ends [deg]; from there on the angle is found more closely. */
const ROUGH = 0.5;
/**
 * Half the width of the three points whose parabola has its top at the best angle [deg]. Work is so flat there that a top
 * found by comparing values would be loose; told from a degree to both sides it is as smooth as the engine.
 */
const REACH = 1;
/** The parabola is laid anew about its top until that moves less than this [deg], so often at most. */
const CLOSE = 0.02;
const MOST_TOPS = 4;
/** About where nearly all engines burn best: looked at first, where nothing is known yet [deg after firing top centre]. */
const USUAL = 8;
/** How far from the last best angle a top is taken without a search anywhere [deg]. */
const NEAR = 4;
/** Accuracy of the angle at the limit of knock [deg], and how far from the last one it is looked for first. */
const LIMIT_ACCURACY = 1e-6;
const LIMIT_REACH = 0.5;
/** Octane numbers beyond the fuel's that a timing found at its limit may ask for by rounding [-]. */
const HARDLY_KNOCKING = 0.05;

/** What a timing asks of the fuel and yields on the bench. */
export interface TimingChoice {
  readonly timing: Timing;
  /** Best-torque angle of 50 % burned [deg]; equals the timing's where knock does not limit it. */
  readonly bestCa50: number;
  /** Octane number on the pump of such a fuel, (R + M) / 2, that just does not knock, at the timing and at best torque. */
  readonly octaneRequired: number;
  readonly octaneAtBest: number;
  /** Work lost against best torque on the bench, less the friction that the lower peak pressure spares [J] of one cylinder. */
  readonly workLost: number;
  /** Friction mean effective pressure that the timing's lower peak pressure spares against best torque [Pa]. */
  readonly frictionSpared: number;
  /** True where even the latest timing knocks on the fuel. */
  readonly detonates: boolean;
}

/** What stands where a march was lost: nothing is known of any timing. */
const NO_CHOICE: TimingChoice = {
  timing: { ca50: 8 },
  bestCa50: 8,
  octaneRequired: 0,
  octaneAtBest: 0,
  workLost: 0,
  frictionSpared: 0,
  detonates: false,
};

/** What a timing is chosen for. */
export interface TimingQuestion {
  /** How long the charge burns. */
  readonly angles: BurnAngles;
  /** How the engine is timed. */
  readonly burn: Burn;
  /** Octane numbers of the fuel. */
  readonly fuel: FuelOctane;
  /** Crank speed, for a spark table [1/min]. */
  readonly rpm: number;
  /** Choice for nearly the same charge, to search around; null where there is none. */
  readonly last: TimingChoice | null;
}

/**
 * The timing that the engine runs at, and what it asks of the fuel.
 *
 * @param bench - the cylinder that lacks most octane; undefined where a march was lost and none does. Its charge may be no gas, too
 */
export function chooseTiming(bench: ClosedBench | undefined, question: TimingQuestion): TimingChoice {
  const { angles, burn, fuel, rpm, last } = question;
  if (bench === undefined) return last ?? NO_CHOICE;
  const runs = new Map<number, ClosedCycle>();
  const run = (timing: Timing): ClosedCycle => {
    const { ca50 } = timedBurn(angles, timing);
    const result = runs.get(ca50) ?? runClosedCycle(bench, planBurn(angles, timing, burn.efficiency));
    runs.set(ca50, result);
    return result;
  };
  const swept = sweptVolume(bench.march.network.cylinders[0].crank);
  const net = (result: ClosedCycle) => result.work - peakPressureFriction(result.peakPressure) * swept;
  const best = bestAngle((ca50) => net(run({ ca50 })), last?.bestCa50 ?? USUAL);
  const atBest = run({ ca50: best });
  if (!Number.isFinite(net(atBest) + atBest.knock)) return last ?? NO_CHOICE;
  const short = ({ knock }: ClosedCycle): number => octaneShort(knock, fuel);
  const asked = (result: ClosedCycle): number => short(result) + fuel.pump;
  const limited = short(atBest) > 0;
  const choice = (timing: Timing): TimingChoice => {
    const result = run(timing);
    return {
      timing,
      bestCa50: best,
      octaneRequired: asked(result),
      octaneAtBest: asked(atBest),
      workLost: net(atBest) - net(result),
      frictionSpared: peakPressureFriction(atBest.peakPressure) - peakPressureFriction(result.peakPressure),
      detonates: short(result) > HARDLY_KNOCKING,
    };
  };
  if (burn.timing.mode === 'ca50') return choice({ ca50: burn.timing.angle });
  if (burn.timing.mode === 'spark') {
    const { rpm: speeds, advance } = burn.timing;
    return choice({ spark: speeds.length === 1 ? advance[0] : linearTable(speeds, advance).valueAt(rpm) });
  }
  if (burn.timing.mode === 'best-torque' || !limited) return choice({ ca50: best });
  return choice({ ca50: knockLimit((ca50) => short(run({ ca50 })), best, limitOf(last)) });
}

/** The angle of a choice that the fuel limited; null where it did not. */
function limitOf(last: TimingChoice | null): number | null {
  return last !== null && 'ca50' in last.timing && last.timing.ca50 > last.bestCa50 ? last.timing.ca50 : null;
}

/** Angle of most work: near the last one, or anywhere where it is not near. */
function bestAngle(work: (ca50: number) => number, last: number): number {
  const near = topNear(work, last);
  if (near !== null) return near;
  const { x } = maximise(work, EARLIEST, LATEST, ROUGH);
  return topNear(work, x) ?? x;
}

/** Top of the parabola through three points about an angle, followed until it stands; null where it leads away. */
function topNear(work: (ca50: number) => number, from: number): number | null {
  let x = from;
  for (let i = 0; i < MOST_TOPS; i++) {
    const top = topBetween(work(x - REACH), work(x), work(x + REACH));
    if (top === null) return null;
    const moved = top * REACH;
    if (!(Math.abs(x + moved - from) < NEAR)) return null;
    x = Math.min(Math.max(x + moved, EARLIEST), LATEST);
    if (Math.abs(moved) < CLOSE) break;
  }
  return x;
}

/**
 * Earliest angle from `from` on at which the fuel is not short of octane; the latest if it is at all.
 *
 * @param over - by how much it is short with half burned at an angle [-]
 * @param last - limit for nearly the same charge, or null
 */
function knockLimit(over: (ca50: number) => number, from: number, last: number | null): number {
  const options = { tolerance: LIMIT_ACCURACY };
  if (last !== null && last - LIMIT_REACH > from && last + LIMIT_REACH < LATEST) {
    const [low, high] = [last - LIMIT_REACH, last + LIMIT_REACH];
    if (over(low) > 0 && over(high) <= 0) return findRoot(over, low, high, options).bracket[1];
  }
  if (over(LATEST) > 0) return LATEST;
  return findRoot(over, from, LATEST, options).bracket[1];
}
