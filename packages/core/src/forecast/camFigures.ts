/** What a cam does at the valves: lift, durations and events at named heights, mean flow area. */

import { portLift } from '../assembly/portValve.ts';
import { INCH } from '../base/constants.ts';
import type { Lobe, Port } from '../combination/combination.ts';
import type { Friction } from '../combination/running.ts';
import { flowArea } from '../geometry/flowArea.ts';
import { areaOverPeriod } from '../geometry/meanArea.ts';
import {
  exhaustTiming,
  intakeTiming,
  netLift,
  type ValveEvents,
  valveEvents,
} from '../geometry/valveLift.ts';

/** 0.050 in of lobe lift [m], the height cam cards are compared at. */
export const CARD_HEIGHT: number = 0.05 * INCH;

/** Valve lift at which a valve counts as off its seat [m]: 0.006 in; below it nothing worth counting flows. */
export const SEAT_LIFT: number = 0.006 * INCH;

/** When one valve is above a height. Angles in crank degrees, negative where the event lies on the other side. */
export interface EventFigures {
  /** From opening to closing [crank deg]. */
  readonly durationDeg: number;
  /** Intake: before gas-exchange top centre. Exhaust: before bottom centre. */
  readonly opensDeg: number;
  /** Intake: after bottom centre. Exhaust: after gas-exchange top centre. */
  readonly closesDeg: number;
}

/** One side (intake or exhaust) at the valve. */
export interface CamSideFigures {
  /** Highest lift of the lobe [mm]. */
  readonly lobeLiftMm: number;
  /** Valve lift over lobe lift [-]. */
  readonly rockerRatio: number;
  /** Clearance at the valve, hot [mm]. */
  readonly lashMm: number;
  /** Highest lift of the valve, less lash and bending [mm]. */
  readonly valveLiftMm: number;
  /** Highest net lift over the diameter of the valve [-]. */
  readonly liftOverDiameter: number;
  /** Centre of the lobe from gas-exchange top centre [crank deg]. */
  readonly centrelineDeg: number;
  /** At 0.050 in of lobe lift; null where the lobe never rises that far. */
  readonly at050: EventFigures | null;
  /** At 0.006 in of valve lift. */
  readonly atSeat: EventFigures | null;
  /** Effective area at the highest lift, all valves of this side of one cylinder [mm2]. */
  readonly peakAreaMm2: number;
  /** Mean effective area from seat to seat, likewise [mm2]. */
  readonly meanAreaMm2: number;
}

/** What the cam of one side comes to at its valves. */
export function camSideFigures(
  port: Port,
  side: 'intake' | 'exhaust',
  valvetrain: Friction['valvetrain'],
): CamSideFigures {
  const valve = portLift(port, side, valvetrain);
  const areaAt = flowArea(port.flow);
  const lobeLift = highestLift(port.lobe);
  const cardLift = netLift(CARD_HEIGHT, lobeLift, port);
  return {
    lobeLiftMm: lobeLift * 1000,
    rockerRatio: port.rockerRatio,
    lashMm: port.lash * 1000,
    valveLiftMm: valve.maxLift * 1000,
    liftOverDiameter: valve.maxLift / port.valveDiameter,
    centrelineDeg: port.centreline,
    at050: cardLift > 0 ? eventFigures(valveEvents(valve, cardLift), side) : null,
    atSeat: eventFigures(valveEvents(valve, SEAT_LIFT), side),
    peakAreaMm2: areaAt(valve.maxLift) * 1e6,
    meanAreaMm2: areaOverPeriod(valve, areaAt).mean * 1e6,
  };
}

function highestLift(lobe: Lobe): number {
  return lobe.kind === 'card' ? lobe.maxLift : Math.max(...lobe.lift);
}

/** Crank degrees with both valves above their height, negative where there are none; null without both events. */
export function overlapDeg(intake: EventFigures | null, exhaust: EventFigures | null): number | null {
  return intake === null || exhaust === null ? null : intake.opensDeg + exhaust.closesDeg;
}

function eventFigures(events: ValveEvents | null, side: 'intake' | 'exhaust'): EventFigures | null {
  if (events === null) return null;
  if (side === 'intake') {
    const { opensBeforeTop, closesAfterBottom } = intakeTiming(events);
    return { durationDeg: events.duration, opensDeg: opensBeforeTop, closesDeg: closesAfterBottom };
  }
  const { opensBeforeBottom, closesAfterTop } = exhaustTiming(events);
  return { durationDeg: events.duration, opensDeg: opensBeforeBottom, closesDeg: closesAfterTop };
}
