/** A speed's periodic cycle as the figures a builder reads. */

import { portLift } from '../assembly/portValve.ts';
import { BAR, INCH_OF_MERCURY } from '../base/constants.ts';
import type { Combination } from '../combination/combination.ts';
import { MOST_TIMES_USUAL } from '../cycle/march.ts';
import { humidAir } from '../gas/air.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { flowArea } from '../geometry/flowArea.ts';
import { areaOverPeriod, inletMachIndex } from '../geometry/meanArea.ts';
import type { FastPart } from '../network/fastestPart.ts';
import { brakeOf, observedPower, rubbingPressure, shownTorque, sweptOf } from './brakeFigures.ts';
import type { Fidelity, LostPoint, OperatingPoint } from './curve.ts';
import { cylinderFigures } from './cylinderFigures.ts';
import type { SpeedResult } from './simulation.ts';

/** Inlet Mach index at a speed: Ap Sp / (mean effective valve area x sound speed), area averaged seat to seat (Taylor, vol. 1, ch. 6). */
function machIndexOf(combination: Combination, pistonSpeed: number): number {
  const { block, intake, weather, friction: f } = combination;
  const lift = portLift(intake, 'intake', f.valvetrain);
  const { mean } = areaOverPeriod(lift, flowArea(intake.flow));
  const sound = Math.sqrt(1.4 * humidAir(weather.pressure, weather.vapourPressure).R * weather.temperature);
  return inletMachIndex((Math.PI / 4) * block.bore * block.bore, pistonSpeed, mean, sound);
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
  const { block, weather } = combination;
  const { rpm, cycle, choice } = result;
  const { totals } = cycle;
  const pistonSpeed = (block.stroke * rpm) / 30;
  const machIndex = machIndexOf(combination, pistonSpeed);
  if (!Number.isFinite(totals.work)) {
    const { cycles } = cycle;
    return {
      status: 'lost',
      rpm,
      ...lostBy(result),
      cycles,
      meanPistonSpeedMs: pistonSpeed,
      inletMachIndex: machIndex,
    };
  }
  const swept = sweptOf(combination);
  const displacement = swept * block.cylinders;
  const perSecond = rpm / 120;
  const imep = totals.closedWork / swept;
  const pmep = totals.pumpingWork / swept;
  // The model knows the engine at its best timing; rings and bearings of a retarded one bear less.
  const rubbing = rubbingPressure(combination, rpm, cycle.plenumPressure) - choice.frictionSpared;
  const pressures = { indicated: imep + pmep, friction: rubbing };
  const bmep = pressures.indicated - rubbing;
  const brakePower = observedPower(combination, rpm, bmep);
  const dryPressure = weather.pressure - weather.vapourPressure;
  const dryAir = totals.freshIn * tables.dryAirFraction;
  const fullAir = dryPressure / (humidAir(dryPressure, 0).R * weather.temperature);
  const fuel = totals.massIn * tables.fuelFraction + totals.fuelAdded;
  const heatLoss = totals.cylinderHeat / (fuel * tables.lowerHeatingValue);
  return {
    status: cycle.converged ? 'settled' : 'unsettled',
    ...(cycle.converged ? {} : { scatterPct: 100 * cycle.scatter }),
    rpm,
    ...brakeOf(shownTorque(combination, displacement, pressures), rpm),
    volumetricEfficiency: dryAir / (fullAir * displacement),
    imepBar: imep / BAR,
    pmepBar: pmep / BAR,
    fmepBar: rubbing / BAR,
    bmepBar: bmep / BAR,
    peakPressureBar: totals.peakPressure / BAR,
    peakPressureDegAtdc: totals.peakAngle,
    manifoldPressureKpa: cycle.plenumPressure / 1000,
    manifoldVacuumInHg: (weather.pressure - cycle.plenumPressure) / INCH_OF_MERCURY,
    residualFraction: totals.residual,
    chargeTemperatureK: totals.intakeT,
    exhaustTemperatureK: totals.exhaustT,
    bsfcGPerKwh: brakePower > 0 ? (fuel * perSecond * 3600 * 1e6) / brakePower : 0,
    airflowKgPerH: totals.massIn * (1 - tables.fuelFraction) * perSecond * 3600,
    fuelKgPerH: fuel * perSecond * 3600,
    sparkDegBtdc: result.spark,
    ca50DegAtdc: result.ca50,
    burnDurationDeg: result.burnDuration,
    octaneRequired: choice.octaneRequired,
    octaneAtBestTiming: choice.octaneAtBest,
    sparkGivenBackDeg: Math.max(0, result.ca50 - choice.bestCa50),
    torqueGivenBackPct: (100 * choice.workLost) / (choice.workLost + bmep * swept),
    detonates: choice.detonates,
    meanPistonSpeedMs: pistonSpeed,
    inletMachIndex: machIndex,
    heatLossFraction: heatLoss,
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
              shownTorque(combination, volume, { indicated, friction: rubbing }),
          }),
        }
      : {}),
  };
}
