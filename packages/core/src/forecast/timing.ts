/** When to burn: given, best torque, or as early as the fuel's octane allows. */
import type { Burn } from '../combination/combination.ts';
import type { BurnAngles, Timing } from '../cycle/burnPlan.ts';
import { planBurn } from '../cycle/burnPlan.ts';
import type { ClosedBench, ClosedCycle } from '../cycle/closedCycle.ts';
import { runClosedCycle } from '../cycle/closedCycle.ts';
import { sweptVolume } from '../geometry/sliderCrank.ts';
import { linearTable } from '../numerics/interpolate.ts';
import { maximise } from '../numerics/maximise.ts';
import { octaneRequired } from '../processes/knock.ts';
import { peakPressureFriction } from '../processes/peakPressureFriction.ts';

/** Earliest and latest angle of 50 % burned that the search considers [deg after firing top centre]. */
const EARLIEST = -5;
const LATEST = 40;
/** Accuracy of the angle [deg]: torque is flat to 1e-4 there. */
const ACCURACY = 0.1;

/** What a timing asks of the fuel and yields on the bench. */
export interface TimingChoice {
  readonly timing: Timing;
  /** Best-torque angle of 50 % burned [deg]; equals the timing's where knock does not limit it. */
  readonly bestCa50: number;
  /** Octane number that just does not knock, at the timing and at best torque. */
  readonly octaneRequired: number;
  readonly octaneAtBest: number;
  /** Work lost against best torque on the bench, less the friction that the lower peak pressure spares [J] of one cylinder. */
  readonly workLost: number;
  /** Friction mean effective pressure that the timing's lower peak pressure spares against best torque [Pa]. */
  readonly frictionSpared: number;
  /** True where even the latest timing knocks on the fuel. */
  readonly detonates: boolean;
}

/**
 * @param octane - octane number of the fuel
 * @param rpm - crank speed [1/min], for a spark table
 */
export function chooseTiming(
  bench: ClosedBench,
  angles: BurnAngles,
  burn: Burn,
  octane: number,
  rpm: number,
): TimingChoice {
  const run = (timing: Timing) => runClosedCycle(bench, planBurn(angles, timing, burn.efficiency));
  const swept = sweptVolume(bench.march.network.cylinders[0].crank);
  const net = (result: ClosedCycle) => result.work - peakPressureFriction(result.peakPressure) * swept;
  const best = maximise((ca50) => net(run({ ca50 })), EARLIEST, LATEST, ACCURACY);
  const atBest = run({ ca50: best.x });
  const octaneAtBest = octaneRequired(atBest.knock);
  const choice = (timing: Timing): TimingChoice => {
    const result = run(timing);
    const required = octaneRequired(result.knock);
    return {
      timing,
      bestCa50: best.x,
      octaneRequired: required,
      octaneAtBest,
      workLost: net(atBest) - net(result),
      frictionSpared: peakPressureFriction(atBest.peakPressure) - peakPressureFriction(result.peakPressure),
      detonates: required > octane + 0.05,
    };
  };
  if (burn.timing.mode === 'ca50') return choice({ ca50: burn.timing.angle });
  if (burn.timing.mode === 'spark') {
    const { rpm: speeds, advance } = burn.timing;
    return choice({ spark: speeds.length === 1 ? advance[0] : linearTable(speeds, advance).valueAt(rpm) });
  }
  if (burn.timing.mode === 'best-torque' || octaneAtBest <= octane) return choice({ ca50: best.x });
  return choice({ ca50: knockLimit((ca50) => octaneRequired(run({ ca50 }).knock), octane, best.x) });
}

/** Earliest angle from `from` on at which the required octane number does not exceed `octane`; the latest if none does. */
function knockLimit(required: (ca50: number) => number, octane: number, from: number): number {
  let early = from;
  let late = LATEST;
  if (required(late) > octane) return late;
  while (late - early > ACCURACY / 4) {
    const middle = (early + late) / 2;
    if (required(middle) > octane) early = middle;
    else late = middle;
  }
  return late;
}
