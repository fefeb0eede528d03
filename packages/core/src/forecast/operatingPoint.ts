/** A speed's periodic cycle as the figures a builder reads. */

import { portLift } from '../assembly/portValve.ts';
import type { Fidelity } from '../assembly/symmetry.ts';
import { BAR, INCH_OF_MERCURY } from '../base/constants.ts';
import type { Combination } from '../combination/combination.ts';
import { MOST_TIMES_USUAL } from '../cycle/march.ts';
import { humidAir } from '../gas/air.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { flowArea } from '../geometry/flowArea.ts';
import { areaOverPeriod, inletMachIndex } from '../geometry/meanArea.ts';
import { pistonArea, sweptVolume } from '../geometry/sliderCrank.ts';
import type { FastPart } from '../network/fastestPart.ts';
import { brakeOf, type MeanPressures, observedPower, rubbingPressure, shownTorque } from './brakeFigures.ts';
import type { LostPoint, MarchedPoint, OperatingPoint } from './curve.ts';
import { cylinderFigures } from './cylinderFigures.ts';
import type { SpeedResult } from './simulation.ts';

/** Inlet Mach index at a speed: Ap Sp / (mean effective valve area x sound speed), area averaged seat to seat (Taylor, vol. 1, ch. 6). */
function machIndexOf(combination: Combination, pistonSpeed: number): number {
  const { block, intake, weather, friction: f } = combination;
  const lift = portLift(intake, 'intake', f.valvetrain);
  const { mean } = areaOverPeriod(lift, flowArea(intake.flow));
  const sound = Math.sqrt(1.4 * humidAir(weather.pressure, weather.vapourPressure).R * weather.temperature);
  return inletMachIndex(pistonArea(block), pistonSpeed, mean, sound);
}

/** Why a point has no figures. */
const LOST = 'the gas moved too fast to follow, even in steps an eighth as long';

/** What became of a march without figures. */
function lostBy({ march }: SpeedResult): Pick<LostPoint, 'code' | 'reason'> {
  return march.overrun === null
    ? { code: 'lost', reason: LOST }
    : { code: 'too-many-steps', reason: overrunReason(march.overrun) };
}

/** Names the part whose gas is too fast to march, and what to change. */
function overrunReason({ kind, name, size }: FastPart): string {
  const [what, remedy] =
    kind === 'duct'
      ? [
          `${name}, in cells of ${(1000 * size).toPrecision(2)} mm,`,
          'make it longer, or its branches narrower',
        ]
      : [
          `${name}, ${(1e6 * size).toPrecision(2)} cc,`,
          kind === 'volume' ? 'give it more volume' : 'check bore, stroke, compression and valves',
        ];
  return `gas in ${what} changes so fast that a cycle would take over ${MOST_TIMES_USUAL} times the usual steps: ${remedy}`;
}

/** The figures of a speed; a march that was lost gives a point that says so. */
export function operatingPoint(
  combination: Combination,
  tables: GasTables,
  result: SpeedResult,
  fidelity: Fidelity,
): OperatingPoint {
  const { rpm, cycle } = result;
  const pistonSpeed = (combination.block.stroke * rpm) / 30;
  const travel = { meanPistonSpeedMs: pistonSpeed, inletMachIndex: machIndexOf(combination, pistonSpeed) };
  if (Number.isFinite(cycle.totals.work)) return marchedPoint(combination, tables, result, fidelity, travel);
  return { status: 'lost', rpm, ...lostBy(result), cycles: cycle.cycles, ...travel };
}

/** How fast piston and inlet gas move. */
type Travel = Pick<MarchedPoint, 'meanPistonSpeedMs' | 'inletMachIndex'>;

function marchedPoint(
  combination: Combination,
  tables: GasTables,
  result: SpeedResult,
  fidelity: Fidelity,
  travel: Travel,
): MarchedPoint {
  const { block, weather } = combination;
  const { rpm, cycle } = result;
  const { totals } = cycle;
  const swept = sweptVolume(block);
  const displacement = swept * block.cylinders;
  const work = workOf(combination, result, swept);
  const dryPressure = weather.pressure - weather.vapourPressure;
  const fullAir = dryPressure / (humidAir(dryPressure, 0).R * weather.temperature);
  const fuel = totals.massIn * tables.fuelFraction + totals.fuelAdded;
  return {
    status: cycle.converged ? 'settled' : 'unsettled',
    ...(cycle.converged ? {} : { scatterPct: 100 * cycle.scatter }),
    rpm,
    ...brakeOf(shownTorque(combination, displacement, work), rpm),
    volumetricEfficiency: (totals.freshIn * tables.dryAirFraction) / (fullAir * displacement),
    imepBar: work.imep / BAR,
    pmepBar: work.pmep / BAR,
    fmepBar: work.friction / BAR,
    bmepBar: work.bmep / BAR,
    peakPressureBar: totals.peakPressure / BAR,
    peakPressureDegAtdc: totals.peakAngle,
    manifoldPressureKpa: cycle.plenumPressure / 1000,
    manifoldVacuumInHg: (weather.pressure - cycle.plenumPressure) / INCH_OF_MERCURY,
    residualFraction: totals.residual,
    chargeTemperatureK: totals.intakeT,
    exhaustTemperatureK: totals.exhaustT,
    ...consumptionOf(result, tables, fuel, observedPower(combination, rpm, work.bmep)),
    ...timingOf(result, work.bmep * swept),
    ...travel,
    heatLossFraction: totals.cylinderHeat / (fuel * tables.lowerHeatingValue),
    cycles: cycle.cycles,
    massClosure: cycle.audit.mass,
    energyClosure: cycle.audit.energy,
    ...(fidelity === 'all' && block.cylinders > 1
      ? {
          cylinders: cylinderFigures(combination, totals.cylinders, result.octanes, {
            tables,
            swept,
            fullAir: fullAir * swept,
            torqueOf: (volume, indicated) =>
              shownTorque(combination, volume, { indicated, friction: work.friction }),
          }),
        }
      : {}),
  };
}

/** Mean effective pressures of a cylinder [Pa]. */
interface CylinderWork extends MeanPressures {
  readonly imep: number;
  readonly pmep: number;
  readonly bmep: number;
}

/** @param swept - of a cylinder [m³] */
function workOf(combination: Combination, { rpm, cycle, choice }: SpeedResult, swept: number): CylinderWork {
  const imep = cycle.totals.closedWork / swept;
  const pmep = cycle.totals.pumpingWork / swept;
  // The model knows the engine at its best timing; rings and bearings of a retarded one bear less.
  const friction = rubbingPressure(combination, rpm, cycle.plenumPressure) - choice.frictionSpared;
  const indicated = imep + pmep;
  return { imep, pmep, indicated, friction, bmep: indicated - friction };
}

/**
 * What the engine takes in.
 *
 * @param fuel - of all cylinders in a cycle [kg]
 * @param brakePower - in the air of the day [W]
 */
function consumptionOf(
  { rpm, cycle }: SpeedResult,
  tables: GasTables,
  fuel: number,
  brakePower: number,
): Pick<MarchedPoint, 'bsfcGPerKwh' | 'airflowKgPerH' | 'fuelKgPerH'> {
  const perSecond = rpm / 120;
  return {
    bsfcGPerKwh: brakePower > 0 ? (fuel * perSecond * 3600 * 1e6) / brakePower : 0,
    airflowKgPerH: cycle.totals.massIn * (1 - tables.fuelFraction) * perSecond * 3600,
    fuelKgPerH: fuel * perSecond * 3600,
  };
}

/** When it burns, and what the fuel's octane takes of the best timing. @param brakeWork - of a cylinder in a cycle [J] */
function timingOf({ spark, ca50, burnDuration, choice }: SpeedResult, brakeWork: number): Timing {
  return {
    sparkDegBtdc: spark,
    ca50DegAtdc: ca50,
    burnDurationDeg: burnDuration,
    octaneRequired: choice.octaneRequired,
    octaneAtBestTiming: choice.octaneAtBest,
    sparkGivenBackDeg: Math.max(0, ca50 - choice.bestCa50),
    torqueGivenBackPct: (100 * choice.workLost) / (choice.workLost + brakeWork),
    detonates: choice.detonates,
  };
}

type Timing = Pick<
  MarchedPoint,
  | 'sparkDegBtdc'
  | 'ca50DegAtdc'
  | 'burnDurationDeg'
  | 'octaneRequired'
  | 'octaneAtBestTiming'
  | 'sparkGivenBackDeg'
  | 'torqueGivenBackPct'
  | 'detonates'
>;
