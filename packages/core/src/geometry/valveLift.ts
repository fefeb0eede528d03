/** Valve lift over the cycle: lobe times rocker ratio, less lash and bending, placed at its centreline. */
import { DomainError } from '../base/errors.ts';
import type { UniformTable } from '../numerics/interpolate.ts';
import { type LobeShape, lobeAngleAt } from './lobe.ts';

/** Between lobe and valve. */
export interface ValveGear {
  /** Valve lift over lobe lift [-]. */
  readonly rockerRatio: number;
  /** Clearance at the valve, hot [m]. */
  readonly lash: number;
  /** Lift lost to bending at full lift [m]; in proportion to lift below. */
  readonly deflection: number;
}

/**
 * Valve lift over one cycle, plain data.
 *
 * Cycle angle [crank deg]: 0 firing top centre, 180 bottom, 360 gas-exchange top centre, 540 bottom.
 */
export interface ValveLift {
  /** Lift [m] from angle 0, one period without its end point; read with `lookUpPeriodic`. */
  readonly table: UniformTable;
  /** [m] */
  readonly maxLift: number;
  /** Angle of the lobe's centre [crank deg]. */
  readonly centre: number;
  /** Angles at which the valve leaves and meets its seat [crank deg]; not wrapped: may lie below 0 or above 720. */
  readonly opens: number;
  readonly closes: number;
}

/** Angles of opening and closing at a stated lift [crank deg], not wrapped. */
export interface ValveEvents {
  readonly opens: number;
  readonly closes: number;
  readonly duration: number;
}

/** Cycle angle of the intake lobe's centre [crank deg] from its centreline after gas-exchange top centre. */
export function intakeCentre(centreline: number): number {
  return 360 + centreline;
}

/** Cycle angle of the exhaust lobe's centre [crank deg] from its centreline before gas-exchange top centre. */
export function exhaustCentre(centreline: number): number {
  return 360 - centreline;
}

/** Exhaust centreline [crank deg] from the lobe separation [cam deg] and the intake centreline [crank deg]. */
export function exhaustCentreline(separation: number, intakeCentreline: number): number {
  return 2 * separation - intakeCentreline;
}

/** Net valve lift [m] of a lobe lift: gross less lash and less bending in proportion to gross lift, not below 0. */
export function netLift(lobeLift: number, maxLobeLift: number, gear: ValveGear): number {
  const gross = lobeLift * gear.rockerRatio;
  const bending = gear.deflection * (lobeLift / maxLobeLift);
  return Math.max(0, gross - gear.lash - bending);
}

/**
 * Valve lift over the cycle.
 *
 * Read linearly, the table errs by at most step^2/8 times the largest acceleration: about 1e-5 in at 0.5 deg on a
 * usual lobe; and by a quarter of the step times the slope where lash cuts the ramp, some 3e-4 in at
 * 0.020 in of lash.
 *
 * @param centre - cycle angle of the lobe's centre [crank deg]
 * @param step - [crank deg], a whole fraction of 720
 * @throws {@link DomainError} naming the first argument out of range
 */
export function valveLift(lobe: LobeShape, gear: ValveGear, centre: number, step = 0.5): ValveLift {
  if (!(gear.rockerRatio > 0)) throw new DomainError('rockerRatio', gear.rockerRatio, 'positive');
  if (!(gear.lash >= 0)) throw new DomainError('lash', gear.lash, 'zero or positive m');
  if (!(gear.deflection >= 0)) throw new DomainError('deflection', gear.deflection, 'zero or positive m');
  if (!Number.isFinite(centre)) throw new DomainError('centre', centre, 'a finite crank angle, deg');
  const count = Math.round(720 / step);
  if (!(step > 0 && Math.abs(count * step - 720) < 1e-9)) {
    throw new DomainError('step', step, 'a whole fraction of 720 deg');
  }
  if (!(lobe.openingHalf + lobe.closingHalf <= 720)) {
    throw new DomainError('lobe', lobe.openingHalf + lobe.closingHalf, 'open for at most 720 deg');
  }
  const maxLift = netLift(lobe.maxLift, lobe.maxLift, gear);
  if (!(maxLift > 0)) throw new DomainError('lash', gear.lash, 'less than the lift it is taken from, m');
  const values = Float64Array.from({ length: count }, (_, i) => {
    const angle = i * step - centre;
    // Into the period that starts with the lobe's opening, so that a lopsided lobe longer than 360 deg stays whole.
    const wrapped = angle - 720 * Math.floor((angle + lobe.openingHalf) / 720);
    return netLift(lobe.liftAt(wrapped), lobe.maxLift, gear);
  });
  // The seat is where the lobe has taken up the lash; bending is in proportion, so it only scales.
  const seat = gear.lash / (gear.rockerRatio - gear.deflection / lobe.maxLift);
  const opening = lobeAngleAt(lobe, seat, 'opening');
  const closing = lobeAngleAt(lobe, seat, 'closing');
  if (opening === null || closing === null) {
    throw new DomainError('lash', gear.lash, 'less than the lift it is taken from, m');
  }
  return {
    table: { from: 0, step, values },
    maxLift,
    centre,
    opens: centre + opening,
    closes: centre + closing,
  };
}

/** Events at a net valve lift [m], read from the table; null when the valve never rises that far. */
export function valveEvents(valve: ValveLift, lift: number): ValveEvents | null {
  if (!(lift >= 0)) throw new DomainError('lift', lift, 'zero or positive m');
  if (lift === 0) return { opens: valve.opens, closes: valve.closes, duration: valve.closes - valve.opens };
  const opens = crossing(valve, lift, -1);
  const closes = crossing(valve, lift, 1);
  return opens === null || closes === null ? null : { opens, closes, duration: closes - opens };
}

/** Overlap [crank deg] at the lift of the events given: negative where the exhaust closes before the intake opens. */
export function overlap(intake: ValveEvents, exhaust: ValveEvents): number {
  return exhaust.closes - intake.opens;
}

/** Intake events in the words of a cam card [crank deg]: opening before top centre, closing after bottom centre. */
export function intakeTiming(events: ValveEvents): { opensBeforeTop: number; closesAfterBottom: number } {
  return { opensBeforeTop: 360 - events.opens, closesAfterBottom: events.closes - 540 };
}

/** Exhaust events in the words of a cam card [crank deg]: opening before bottom centre, closing after top centre. */
export function exhaustTiming(events: ValveEvents): { opensBeforeBottom: number; closesAfterTop: number } {
  return { opensBeforeBottom: 180 - events.opens, closesAfterTop: events.closes - 360 };
}

/** Outermost crossing of a lift on one side of the highest sample [crank deg, not wrapped]. */
function crossing(valve: ValveLift, lift: number, side: 1 | -1): number | null {
  const { step, values } = valve.table;
  const count = values.length;
  const at = (index: number): number => values[((index % count) + count) % count];
  const seat = side === 1 ? valve.closes : valve.opens;
  // From just outside the seat inwards: the first sample at or above the lift.
  let outer = side === 1 ? Math.ceil(seat / step) : Math.floor(seat / step);
  for (let steps = 0; steps < count; steps++) {
    const inner = outer - side;
    if (at(inner) >= lift) {
      const share = (lift - at(outer)) / (at(inner) - at(outer));
      return (outer - side * share) * step;
    }
    outer = inner;
  }
  return null;
}
