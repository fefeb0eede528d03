/** The standard octane-rating engine, run by both of its methods at the heights where a reference fuel just knocks. */
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { burnAngles } from '../../packages/core/src/cycle/burnPlan.ts';
import type { March } from '../../packages/core/src/cycle/march.ts';
import type { PeriodicCycle } from '../../packages/core/src/cycle/periodic.ts';
import { flameFuelOf } from '../../packages/core/src/forecast/flameFuel.ts';
import type { Simulation } from '../../packages/core/src/forecast/simulation.ts';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { diluentShare } from '../../packages/core/src/gas/diluentShare.ts';
import type { Fuel } from '../../packages/core/src/gas/fuel.ts';
import { chamberBurn } from '../../packages/core/src/processes/chamberBurn.ts';
import { octaneRequired } from '../../packages/core/src/processes/knock.ts';
import { shareBefore50 } from '../../packages/core/src/processes/wiebe.ts';
import { engineFile } from './engines.ts';

export type RatingMethod = 'research' | 'motor';

/**
 * Reading of the height counter at standard knock intensity, by octane number of the reference fuel, venturi of 9/16 in, 29.92
 * inHg: ASTM D2699-15a and D2700-14, tables A4.1. The digits were noted once and not compared with the print since: unverified. Above 100 the
 * fuels hold lead.
 */
export const GUIDE: Readonly<Record<RatingMethod, readonly (readonly [octane: number, counter: number])[]>> =
  {
    research: [
      [80, 609],
      [85, 661],
      [90, 726],
      [95, 805],
      [98, 867],
      [100, 919],
      [105, 1062],
    ],
    motor: [
      [80, 560],
      [85, 648],
      [90, 749],
      [95, 850],
      [98, 910],
      [100, 948],
      [105, 1008],
    ],
  };

/**
 * Counts by which the motor method raises the cylinder at a low barometer [inHg], so that a fuel knocks as it did (ASTM D2700-14, barometric
 * compensation; as unverified).
 */
export const RAISED: readonly (readonly [barometer: number, counts: number])[] = [
  [28.5, 61],
  [27.0, 124],
  [25.1, 204],
];

/** Counts of the counter for an inch that the cylinder is raised; from memory: 264 counts stand at 0.825 in of the dial, 930 at 0.352 in. */
const COUNTS_PER_INCH = 1410;

/** Clearance at a counter of 0, as a height of the bore [in]: the mean of what Choi et al., SAE 2018-01-0848, fig. 4, give from 400 to 1400. */
const CLEARANCE_AT_ZERO = 1.348;

/**
 * Compression ratio at a counter reading. Cylinder and head are one piece that is raised over the piston, so that the clearance grows in
 * proportion. The cubic that Choi et al. drew through theirs strays from that by 0.09 in ratio between 600 and 900 counts.
 */
export function compressionAt(counter: number): number {
  return 1 + STROKE / (CLEARANCE_AT_ZERO - counter / COUNTS_PER_INCH);
}

/** [in] */
const STROKE = 4.5;

/** Spark before top centre [deg]: 13 by the research method; by the motor method 26 at a counter of 264, a degree less for each 73.4 (D2700-14, table 3). */
export function sparkAt(method: RatingMethod, counter: number): number {
  return method === 'research' ? 13 : 26 - (counter - 264) / 73.4;
}

/** Measured with the reference fuel of 98 (the engine's file names the source): spark to 10 % burned, and 10 to 90 % [deg]. */
const MEASURED_BURN = { development: 13.5, main: 17.1 };

/** How the two methods differ. */
const METHODS = {
  research: { rpm: 600, airTemperature: 325.15, heating: 44, evaporation: 0.6 },
  // Air of 38 degC, and a heater that brings the mixture to 149 degC with all of its fuel as vapour: 151.3 K on a day of 60 F.
  motor: { rpm: 900, airTemperature: 311.15, heating: 151.3, evaporation: 1 },
} as const;

/** What one run of the engine shows. */
export interface Rated {
  readonly simulation: Simulation;
  readonly march: March;
  readonly cycle: PeriodicCycle;
  /** Of the reference fuel that just knocks [-]. */
  readonly octane: number;
}

function standing(method: RatingMethod, compression: number): Combination {
  const engine = engineFile('tests/data/engines/octane-rating.yaml');
  const { bore, stroke } = engine.block;
  const { airTemperature, heating, evaporation } = METHODS[method];
  const clearanceVolume = ((Math.PI / 4) * bore * bore * stroke) / (compression - 1);
  return {
    ...engine,
    chamber: { ...engine.chamber, compressionRatio: compression, clearanceVolume },
    induction: { ...engine.induction, heating, evaporation, vapour: evaporation },
    weather: { ...engine.weather, temperature: airTemperature },
  };
}

function run(engine: Combination, method: RatingMethod): Rated {
  const simulation = createSimulation(engine, { fidelity: 'representative' });
  const { march, cycle } = simulation.runSpeed(METHODS[method].rpm);
  const [{ residual }] = march.diaries;
  const diluent = diluentShare(simulation.tables, residual);
  return { simulation, march, cycle, octane: octaneRequired(cycle.totals.knock, diluent) };
}

/** Angles of the burn that the model gives the charge in a cylinder lit so early [deg]. */
function modelled({ simulation: { combination, engine }, march }: Rated, spark: number) {
  const angles = burnAngles(
    {
      reference: chamberBurn(march.network.cylinders[0].crank, combination.chamber),
      flameFuel: flameFuelOf(combination.fuel),
      phi: 1 / combination.lambda,
      humidity: combination.weather.vapourPressure / combination.weather.pressure,
      multiplier: 1,
      duration: null,
      efficiency: combination.burn.efficiency,
    },
    march.network.cylinders[0],
    march.diaries[0],
    engine.intakeValve.closes - 720,
  );
  return { development: angles.development, main: angles.mainAt?.(spark) ?? angles.main };
}

/** Conditions of {@link MEASURED_BURN}: 41 degC of air, as the method has it at the barometer of that day, 972 hPa. */
export function asMeasured(heat: number | null = null): Rated {
  const engine = standing('research', compressionAt(867));
  const walls = heat === null ? engine.walls : { ...engine.walls, multiplier: heat };
  const weather = { ...engine.weather, pressure: 97_200, temperature: 314.5 };
  return run({ ...engine, walls, weather }, 'research');
}

/** Coolant of both methods [K]. */
const JACKET = 373.15;

/** Heat to the walls of the cylinder [W]. */
function heatOf({ cycle }: Rated, method: RatingMethod): number {
  return (cycle.totals.cylinderHeat * METHODS[method].rpm) / 120;
}

/** Walls that are as much warmer than the coolant as they take more heat than where their temperatures were found. */
function warmed(walls: Combination['walls'], share: number): Combination['walls'] {
  const over = (T: number): number => JACKET + share * (T - JACKET);
  return { ...walls, head: over(walls.head), piston: over(walls.piston), liner: over(walls.liner) };
}

/** What the conditions of {@link MEASURED_BURN} give: angles of the model of the burn [deg], heat to the cylinder's walls [W]. */
export interface Standard {
  readonly development: number;
  readonly main: number;
  readonly heat: number;
}

let reference: Standard | null = null;

/** See {@link Standard}. */
export function standardBurn(): Standard {
  if (reference === null) {
    const measured = asMeasured();
    reference = { ...modelled(measured, sparkAt('research', 867)), heat: heatOf(measured, 'research') };
  }
  return reference;
}

/**
 * The engine at a counter reading, a barometer [Pa] and a spark before top centre [deg]. The burn is the measured one, scaled to this charge as the model of the burn scales
 * its own. The walls are as much warmer than the coolant as this burn gives them more heat than the one they were measured with.
 */
export function rated(
  method: RatingMethod,
  counter: number,
  barometer = 101_321,
  spark: number = sparkAt(method, counter),
): Rated {
  const standard = standing(method, compressionAt(counter));
  const engine = { ...standard, weather: { ...standard.weather, pressure: barometer } };
  const reference = standardBurn();
  const burning = ({ development, main }: typeof MEASURED_BURN): Combination['burn'] => {
    const angle = development + shareBefore50() * main - spark;
    return { ...engine.burn, duration: main, timing: { mode: 'ca50', angle } };
  };
  const here = modelled(run({ ...engine, burn: burning(MEASURED_BURN) }, method), spark);
  const main = (MEASURED_BURN.main * here.main) / reference.main;
  const development = (MEASURED_BURN.development * here.development) / reference.development;
  const lit = { ...engine, burn: burning({ development, main }) };
  const walls = warmed(engine.walls, heatOf(run(lit, method), method) / reference.heat);
  return run({ ...lit, walls }, method);
}

/** The engine as it ran, height and burn as they are, on another fuel of which as much is vapour. */
export function onFuel({ simulation }: Rated, method: RatingMethod, fuel: Fuel): Rated {
  return run({ ...simulation.combination, fuel }, method);
}
