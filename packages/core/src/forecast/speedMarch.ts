/** One speed under way: its march, and the timing of its burns, searched between cycles until it stands. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import type { Fuel } from '../combination/combination.ts';
import type { Burn } from '../combination/running.ts';
import type { BurnAngles, BurnModel, Timing } from '../cycle/burnPlan.ts';
import { burnAngles, FIRST_ANGLES, FIRST_TIMING, planBurn, timedBurn } from '../cycle/burnPlan.ts';
import { type ClosedBench, chargeBench, closedBench, runClosedCycle } from '../cycle/closedCycle.ts';
import type { March, MarchOptions } from '../cycle/march.ts';
import type { PeriodicCycle } from '../cycle/periodic.ts';
import { prepareMarch } from '../cycle/prepare.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { setSpeed } from '../network/network.ts';
import { fuelOctane, octaneShort } from './fuelOctane.ts';
import type { TimingChoice } from './timing.ts';
import { chooseTiming } from './timing.ts';

/** What all speeds of an engine share. */
export interface SpeedSetup {
  readonly engine: EngineNetwork;
  /** Of each marching cylinder. */
  readonly models: readonly BurnModel[];
  readonly burn: Burn;
  readonly fuel: Fuel;
  readonly tables: GasTables;
  readonly options: MarchOptions;
}

export interface SpeedMarch {
  readonly rpm: number;
  readonly march: March;
  /** Of each marching cylinder's last charge. */
  readonly angles: BurnAngles[];
  /** Where burns are tried, of each marching cylinder; made when the timing is first searched. */
  benches: readonly ClosedBench[] | null;
  timing: Timing;
  choice: TimingChoice | null;
  /** The timing stands. */
  settled: boolean;
}

/** The timing is searched after every cycle until it moves less than this [deg] on a cycle that changed less than that [-]. */
const SETTLED = 0.02;
const STEADY = 5e-3;
/** Cycles after which the timing stays as it is: hunting between two timings is worse than being a little off. */
const MAX_SEARCHES = 12;

/** A speed [1/min] before its first cycle. */
export function startSpeed(setup: SpeedSetup, rpm: number): SpeedMarch {
  const { engine, models, options } = setup;
  const closes = engine.intakeValve.closes - 720;
  const march = prepareMarch(
    engine,
    (cylinder, diary) => {
      // A march that has lost its way ends as a cycle that did not settle, not as an error of the burn.
      if (!(diary.closingTemperature > 0 && diary.closingPressure > 0)) return;
      const i = march.network.cylinders.indexOf(cylinder);
      speed.angles[i] = burnAngles(models[i], cylinder, diary, closes);
      cylinder.burn = planBurn(speed.angles[i], speed.timing, models[i].efficiency);
    },
    options,
  );
  setSpeed(march.network, rpm);
  const speed: SpeedMarch = {
    rpm,
    march,
    angles: march.network.cylinders.map(() => FIRST_ANGLES),
    benches: null,
    timing: FIRST_TIMING,
    choice: null,
    settled: false,
  };
  return speed;
}

/** Looks for the timing after a cycle; true where it may have moved, so that the next cycle is another. */
export function retime(setup: SpeedSetup, speed: SpeedMarch, { change, cycles }: PeriodicCycle): boolean {
  if (speed.settled) return false;
  // The first cycle starts from gas at rest: what it traps is not worth a search.
  if (cycles === 1) return true;
  const before = timedBurn(speed.angles[0], speed.timing).ca50;
  speed.choice = search(setup, speed);
  speed.timing = speed.choice.timing;
  const moved = Math.abs(timedBurn(speed.angles[0], speed.timing).ca50 - before);
  speed.settled = (moved < SETTLED && change < STEADY) || cycles >= MAX_SEARCHES;
  return true;
}

function search(setup: SpeedSetup, speed: SpeedMarch): TimingChoice {
  const { engine, burn, models } = setup;
  const { rpm, march, angles, timing, choice } = speed;
  const closes = engine.intakeValve.closes - 720;
  speed.benches ??= march.network.cylinders.map((cylinder) =>
    closedBench(cylinder, march.network.degreesPerSecond, closes),
  );
  const { benches } = speed;
  benches.forEach((bench, i) => {
    chargeBench(bench, march.diaries[i]);
  });
  const fuels = march.diaries.map((diary, i) =>
    fuelOctane(setup.fuel, march.network.cylinders[i].charge, diary),
  );
  // The cylinder that lacks most octane decides the timing of all. They are asked at one timing on the bench: the
  // burns of the last cycle may have been at two.
  const lacks = benches.map((bench, i) => {
    if (benches.length === 1) return 0;
    const { knock } = runClosedCycle(bench, planBurn(angles[i], timing, models[i].efficiency));
    return Number.isFinite(knock) ? octaneShort(knock, fuels[i]) : Number.NaN;
  });
  const worst = lacks.indexOf(Math.max(...lacks));
  const first = Math.max(0, worst);
  const fuel = fuels[first];
  const octane = { ...fuel, here: fuel.here - burn.octaneOffset };
  const law = { ...burn, efficiency: models[first].efficiency };
  return chooseTiming(benches[worst], { angles: angles[worst], burn: law, fuel: octane, rpm, last: choice });
}

/** Octane number on the pump that just does not knock in each marching cylinder, as its last charge burned. */
export function octanesOf({ fuel, burn }: SpeedSetup, { march }: SpeedMarch): readonly number[] {
  return march.diaries.map((diary, i) => {
    const octane = fuelOctane(fuel, march.network.cylinders[i].charge, diary);
    return octaneShort(diary.knock, octane) + octane.pump + burn.octaneOffset;
  });
}

/** The timing found, and the burns with it as means over the cylinders [deg]. */
export function timesOf(
  setup: SpeedSetup,
  speed: SpeedMarch,
): { choice: TimingChoice; spark: number; ca50: number; burnDuration: number } {
  const { angles, timing } = speed;
  const burns = angles.map((a) => timedBurn(a, timing));
  const mean = (f: (b: (typeof burns)[number]) => number) =>
    burns.reduce((s, b) => s + f(b), 0) / burns.length;
  return {
    choice: speed.choice ?? search(setup, speed),
    spark: mean((b) => b.spark),
    ca50: mean((b) => b.ca50),
    burnDuration: mean((b) => b.main),
  };
}
