/** An engine set up once and run at any speed, each from the same state: a speed alone gives the figures it has within a curve. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { assembleNetwork } from '../assembly/assemble.ts';
import { DEFAULT_MESH, type Mesh } from '../assembly/mesh.ts';
import type { Fidelity } from '../assembly/symmetry.ts';
import { marchingOf } from '../assembly/symmetry.ts';
import type { StandingEngine } from '../combination/atSpeed.ts';
import { lambdaOf, sharedLambda } from '../combination/lambdaOf.ts';
import type { BurnModel } from '../cycle/burnPlan.ts';
import { FIRST_ANGLES, FIRST_TIMING, planBurn, releasedShare } from '../cycle/burnPlan.ts';
import type { March, MarchOptions } from '../cycle/march.ts';
import { MARCH_DEFAULTS } from '../cycle/march.ts';
import type { PeriodicCycle, PeriodicOptions } from '../cycle/periodic.ts';
import { marchToPeriodic, PERIODIC_DEFAULTS } from '../cycle/periodic.ts';
import { buildGasTables } from '../gas/buildGasTables.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { sliderCrank } from '../geometry/sliderCrank.ts';
import { chamberBurn } from '../processes/chamberBurn.ts';
import { flameFuelOf } from './flameFuel.ts';
import type { SpeedMarch } from './speedMarch.ts';
import { octanesOf, retime, startSpeed, timesOf } from './speedMarch.ts';
import type { TimingChoice } from './timing.ts';

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
  /** Octane number on the pump that each marching cylinder asks for [-]. */
  readonly octanes: readonly number[];
  /** Stands where the cycle ended; may be marched on. */
  readonly march: March;
}

export interface Simulation {
  readonly combination: StandingEngine;
  readonly tables: GasTables;
  readonly engine: EngineNetwork;
  /** A speed [1/min] before its first cycle: gas at rest in pipes and volumes, cylinders under way. */
  readonly startSpeed: (rpm: number) => SpeedMarch;
  readonly runSpeed: (rpm: number) => SpeedResult;
}

/** @param before - the same engine at another speed: its tables serve again where the mixture is the same */
export function createSimulation(
  combination: StandingEngine,
  options: SimulationOptions,
  before: Simulation | null = null,
): Simulation {
  const { block, burn, chamber, weather } = combination;
  const tables = tablesOf(combination, before);
  const modelOf = (lambda: number): BurnModel => ({
    reference: chamberBurn(
      sliderCrank(block.bore, block.stroke, block.rodLength, chamber.clearanceVolume),
      chamber,
    ),
    flameFuel: flameFuelOf(combination.fuel),
    phi: 1 / lambda,
    humidity: weather.vapourPressure / weather.pressure,
    multiplier: burn.durationMultiplier,
    duration: burn.duration,
    efficiency: releasedShare(burn.efficiency, 1 / lambda, combination.scatter),
  });
  const { efficiency } = modelOf(sharedLambda(combination));
  const first = planBurn(FIRST_ANGLES, FIRST_TIMING, efficiency);
  const engine = assembleNetwork(combination, tables, options.fidelity, first, options.mesh ?? DEFAULT_MESH);
  const fuelEnergyOf = (mixture: number) => mixture * tables.fuelFraction * tables.lowerHeatingValue;
  const periodic = options.periodic ?? PERIODIC_DEFAULTS;
  const setup = {
    fuel: combination.fuel,
    tables,
    engine,
    models: marchingOf(combination, options.fidelity).cylinders.map((number) =>
      modelOf(lambdaOf(combination, number)),
    ),
    burn,
    options: options.march ?? MARCH_DEFAULTS,
  };
  const runSpeed = (rpm: number): SpeedResult => {
    const speed = startSpeed(setup, rpm);
    const cycle = marchToPeriodic(engine, speed.march, fuelEnergyOf, periodic, (c) =>
      retime(setup, speed, c),
    );
    return { rpm, cycle, ...timesOf(setup, speed), octanes: octanesOf(setup, speed), march: speed.march };
  };
  return { combination, tables, engine, startSpeed: (rpm) => startSpeed(setup, rpm), runSpeed };
}

function tablesOf(combination: StandingEngine, before: Simulation | null): GasTables {
  const { fuel, weather } = combination;
  const { vapourPressure, pressure } = weather;
  const lambda = sharedLambda(combination);
  if (before?.combination.fuel === fuel && before.combination.weather === weather)
    if (sharedLambda(before.combination) === lambda) return before.tables;
  return buildGasTables({ fuel, lambda, vapourPressure, pressure });
}
