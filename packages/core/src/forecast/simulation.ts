/** An engine set up once and taken from speed to speed, each starting from its neighbour's state. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { assembleNetwork } from '../assembly/assemble.ts';
import { DEFAULT_MESH, type Mesh } from '../assembly/mesh.ts';
import type { Combination } from '../combination/combination.ts';
import type { BurnAngles, BurnModel, Timing } from '../cycle/burnPlan.ts';
import { burnAngles, planBurn, releasedShare, timedBurn } from '../cycle/burnPlan.ts';
import { closedBench, runClosedCycle } from '../cycle/closedCycle.ts';
import type { March, MarchOptions } from '../cycle/march.ts';
import { MARCH_DEFAULTS } from '../cycle/march.ts';
import type { PeriodicCycle, PeriodicOptions } from '../cycle/periodic.ts';
import { marchToPeriodic, PERIODIC_DEFAULTS } from '../cycle/periodic.ts';
import { prepareMarch } from '../cycle/prepare.ts';
import { buildGasTables } from '../gas/buildGasTables.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { sliderCrank } from '../geometry/sliderCrank.ts';
import { setSpeed } from '../network/network.ts';
import { chamberBurn } from '../processes/chamberBurn.ts';
import type { Fidelity } from './curve.ts';
import { flameFuelOf } from './flameFuel.ts';
import { fuelOctane } from './fuelOctane.ts';
import type { TimingChoice } from './timing.ts';
import { chooseTiming } from './timing.ts';

/** Numerical settings of a simulation; the defaults meet the figures of the refinement tests. */
export interface SimulationOptions {
  readonly fidelity: Fidelity;
  readonly mesh?: Mesh;
  readonly march?: MarchOptions;
  readonly periodic?: PeriodicOptions;
}

/** One speed, marched to its periodic cycle. */
export interface SpeedResult {
  readonly rpm: number;
  readonly cycle: PeriodicCycle;
  readonly choice: TimingChoice;
  /** Spark before firing top centre and 50 % burned after it [deg], mean over the cylinders. */
  readonly spark: number;
  readonly ca50: number;
  /** 10 to 90 % burned [deg], mean over the cylinders. */
  readonly burnDuration: number;
}

export interface Simulation {
  readonly combination: Combination;
  readonly tables: GasTables;
  readonly engine: EngineNetwork;
  readonly march: March;
  readonly runSpeed: (rpm: number) => SpeedResult;
}

/** Timing to start the first speed from [deg after firing top centre]. */
const FIRST_CA50 = 8;
/** The timing is searched after every cycle until it moves less than this [deg] on a cycle that changed less than that [-]. */
const SETTLED = 0.2;
const STEADY = 5e-3;
/** Cycles after which the timing stays as it is: hunting between two timings is worse than being a little off. */
const MAX_SEARCHES = 12;

export function createSimulation(combination: Combination, options: SimulationOptions): Simulation {
  const { block, chamber, weather } = combination;
  const phi = 1 / combination.lambda;
  const burn = { ...combination.burn, efficiency: releasedShare(combination.burn.efficiency, phi) };
  const tables = buildGasTables({
    fuel: combination.fuel,
    lambda: combination.lambda,
    vapourPressure: weather.vapourPressure,
    pressure: weather.pressure,
  });
  const model: BurnModel = {
    reference: chamberBurn(
      sliderCrank(block.bore, block.stroke, block.rodLength, chamber.clearanceVolume),
      chamber,
    ),
    flameFuel: flameFuelOf(combination.fuel),
    phi,
    multiplier: burn.durationMultiplier,
    duration: burn.duration,
    efficiency: burn.efficiency,
  };
  const first = planBurn({ development: 20, main: 30 }, { ca50: FIRST_CA50 }, burn.efficiency);
  const engine = assembleNetwork(combination, tables, options.fidelity, first, options.mesh ?? DEFAULT_MESH);
  const closes = engine.intakeValve.closes - 720;
  let timing: Timing = { ca50: FIRST_CA50 };
  const angles: BurnAngles[] = engine.spec.cylinders.map(() => ({ development: 20, main: 30 }));
  const march = prepareMarch(
    engine,
    (cylinder, diary) => {
      // A march that has lost its way ends as a cycle that did not settle, not as an error of the burn.
      if (!(diary.closingTemperature > 0 && diary.closingPressure > 0)) return;
      const i = march.network.cylinders.indexOf(cylinder);
      angles[i] = burnAngles(model, cylinder, diary, closes);
      cylinder.burn = planBurn(angles[i], timing, burn.efficiency);
    },
    options.march ?? MARCH_DEFAULTS,
  );
  const fuelEnergyOf = (mixture: number) => mixture * tables.fuelFraction * tables.lowerHeatingValue;
  const periodic = options.periodic ?? PERIODIC_DEFAULTS;

  const search = (rpm: number, last: TimingChoice | null): TimingChoice => {
    const benches = march.network.cylinders.map((cylinder, i) =>
      closedBench(cylinder, march.diaries[i], march.network.degreesPerSecond, closes),
    );
    // The cylinder that asks for most octane decides the timing of all. They are asked at one timing on the bench: the
    // burns of the last cycle may have been at two.
    const knocks = benches.map((bench, i) =>
      benches.length === 1 ? 0 : runClosedCycle(bench, planBurn(angles[i], timing, burn.efficiency)).knock,
    );
    const worst = knocks.indexOf(Math.max(...knocks));
    const fuel = fuelOctane(combination.fuel, tables, march.diaries[Math.max(0, worst)]);
    const octane = { ...fuel, here: fuel.here - burn.octaneOffset };
    return chooseTiming(benches[worst], angles[worst], burn, octane, rpm, last);
  };

  let lastChoice: TimingChoice | null = null;
  const runSpeed = (rpm: number): SpeedResult => {
    setSpeed(march.network, rpm);
    let choice: TimingChoice | null = null;
    let settled = false;
    const retime = ({ change, cycles }: PeriodicCycle): boolean => {
      if (settled) return false;
      // The first cycle at a speed still has the waves of the speed before: what it traps is not worth a search.
      if (cycles === 1 && lastChoice !== null) return true;
      const before = timedBurn(angles[0], timing).ca50;
      choice = search(rpm, lastChoice);
      lastChoice = choice;
      timing = choice.timing;
      const moved = Math.abs(timedBurn(angles[0], timing).ca50 - before);
      settled = (moved < SETTLED && change < STEADY) || cycles >= MAX_SEARCHES;
      return true;
    };
    const cycle = marchToPeriodic(engine, march, fuelEnergyOf, periodic, retime);
    const count = angles.length;
    const mean = (f: (a: BurnAngles) => number) => angles.reduce((s, a) => s + f(a) / count, 0);
    return {
      rpm,
      cycle,
      choice: choice ?? search(rpm, lastChoice),
      spark: mean((a) => timedBurn(a, timing).spark),
      ca50: mean((a) => timedBurn(a, timing).ca50),
      burnDuration: mean((a) => timedBurn(a, timing).main),
    };
  };
  return { combination, tables, engine, march, runSpeed };
}
