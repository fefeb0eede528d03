/** Flow where no sheet exists: by the narrow places of the port, by the other side of the head, by how the bench was set up. */
import { DomainError } from '../base/errors.ts';
import type { FlowPoints } from './flowArea.ts';
import { areaFromFlow, BENCH_AIR, incompressibleFlow, USUAL_DEPRESSION } from './flowSheet.ts';

/**
 * Flow of a good two-valve intake port over the incompressible flow through the valve's area, by lift over diameter [-].
 *
 * Common practice, no source; spread 8 %.
 */
export const FLOW_BY_LIFT_OVER_DIAMETER: readonly (readonly [liftOverDiameter: number, share: number])[] = [
  [0.05, 0.14],
  [0.1, 0.28],
  [0.15, 0.41],
  [0.2, 0.52],
  [0.25, 0.59],
  [0.3, 0.63],
  [0.35, 0.65],
];

/** The narrow places of an intake port, as a builder measures them. */
export interface PortSections {
  /** Throat below the seat over valve head, diameters [-]. */
  readonly throat: number;
  /** Smallest area of the port over the area of its valve heads [-]. */
  readonly smallest: number;
}

/** Sections of the fully ported head that {@link FLOW_BY_LIFT_OVER_DIAMETER} belongs to [-]; common practice, no source. */
export const GOOD_PORT: PortSections = { throat: 0.9, smallest: 0.648 };

/**
 * Share of the throat in the loss of a fully ported port at high lift; the rest is the smallest area's [-].
 *
 * From memory, so that throats of 80, 85 and 90 % flow what the trade expects of ports as cast, with bowls blended and fully
 * ported: 0.8, 0.9 and 1.
 */
export const THROAT_LOSS = 0.85;

/** Most that a port flows over a fully ported one [-]; from memory: beyond, the valve governs. */
export const BEST_PORT = 1.1;

/**
 * Lift over diameter up to which all ports flow alike, and from which their factor holds in full [-]; linear between.
 *
 * Annand and Roe, and Heywood (1988) figures 6-16 and 6-17 (from memory): an intake valve's coefficient on its curtain is 0.65 to
 * 0.75 up to 0.1 and 0.45 to 0.55 at 0.25 to 0.30. On production ports that is the flow of a fully ported head at low lift and 0.8 of
 * it at high lift. A production iron head (1.94 in valve, from memory) stands at 1.04, 0.98, 0.92, 0.85 and 0.79 of a fully
 * ported one at 0.05, 0.10, 0.15, 0.21 and 0.26.
 */
export const PORT_LIFT = { alike: 0.075, full: 0.25 } as const;

/** Flow per valve area of four-valve heads over two-valve ones [-]. Common practice, no source. */
export const FOUR_VALVE_FACTOR = 1.05;

/** Exhaust over intake flow at equal lift over diameter [-]: two valves and four valves. Common practice, no source: 0.75 to 0.80 usual. */
export const EXHAUST_SHARE: { readonly twoValve: number; readonly fourValve: number } = {
  twoValve: 0.75,
  fourValve: 0.85,
};

/** Gain of an exhaust port from a pipe stub at high lift [-]. Common practice, no source: about 5 %, little at low lift. */
export const PIPE_STUB_GAIN = 0.05;

/** Lift over valve diameter from which a pipe stub brings its whole gain [-]. Common practice, no source. */
const PIPE_STUB_LIFT = 0.15;

/**
 * Effective area of an intake side without a flow sheet.
 *
 * Blockage by the stem is not taken off: the shares are of the whole head area, as the trade quotes them.
 *
 * @param valveDiameter - head of one valve [m]
 * @param valves - intake valves of the cylinder; 2 or more count as a four-valve head
 * @param port - its throat and smallest area
 */
export function defaultIntakeFlow(valveDiameter: number, valves: number, port: PortSections): FlowPoints {
  if (!(valveDiameter > 0)) throw new DomainError('valveDiameter', valveDiameter, 'positive m');
  if (!(Number.isInteger(valves) && valves >= 1)) {
    throw new DomainError('valves', valves, 'a whole number of at least 1');
  }
  const head = valves * (Math.PI / 4) * valveDiameter * valveDiameter;
  const full = areaFromFlow(
    incompressibleFlow(head, USUAL_DEPRESSION, BENCH_AIR),
    USUAL_DEPRESSION,
    BENCH_AIR,
  );
  const many = valves >= 2 ? FOUR_VALVE_FACTOR : 1;
  const factor = portFactor(port);
  return {
    lift: FLOW_BY_LIFT_OVER_DIAMETER.map(([ratio]) => ratio * valveDiameter),
    area: FLOW_BY_LIFT_OVER_DIAMETER.map(([ratio, share]) => share * shareAt(factor, ratio) * many * full),
  };
}

/**
 * Flow at high lift over that of a fully ported port [-]: losses in series add, each with the square of its area.
 *
 * 1 / factor^2 = 0.85 (0.9 / throat)^4 + 0.15 (0.648 / smallest)^2, at most {@link BEST_PORT}.
 */
export function portFactor({ throat, smallest }: PortSections): number {
  if (!(throat > 0)) throw new DomainError('throat', throat, 'positive');
  if (!(smallest > 0)) throw new DomainError('smallest', smallest, 'positive');
  const loss =
    THROAT_LOSS * (GOOD_PORT.throat / throat) ** 4 + (1 - THROAT_LOSS) * (GOOD_PORT.smallest / smallest) ** 2;
  return Math.min(BEST_PORT, 1 / Math.sqrt(loss));
}

/** Share of the good port's flow [-] at a lift over diameter. */
function shareAt(factor: number, liftOverDiameter: number): number {
  const { alike, full } = PORT_LIFT;
  const reach = Math.min(1, Math.max(0, (liftOverDiameter - alike) / (full - alike)));
  return 1 - (1 - factor) * reach;
}

/**
 * Effective area of an exhaust side from the intake side: the usual share of its flow at equal lift over diameter.
 *
 * @param intakeDiameter - head of one intake valve [m]
 * @param exhaustDiameter - head of one exhaust valve [m]
 * @param intakeValves - of the cylinder; 2 or more count as a four-valve head
 */
export function exhaustFromIntake(
  intake: FlowPoints,
  intakeDiameter: number,
  exhaustDiameter: number,
  intakeValves: number,
): FlowPoints {
  if (!(intakeDiameter > 0)) throw new DomainError('intakeDiameter', intakeDiameter, 'positive m');
  if (!(exhaustDiameter > 0)) throw new DomainError('exhaustDiameter', exhaustDiameter, 'positive m');
  const share = intakeValves >= 2 ? EXHAUST_SHARE.fourValve : EXHAUST_SHARE.twoValve;
  return {
    lift: intake.lift.map((lift) => (lift / intakeDiameter) * exhaustDiameter),
    area: intake.area.map((area) => area * share),
  };
}

/**
 * Exhaust side with a pipe behind it, from a sheet measured on the bare port.
 *
 * The gain is full above a lift of 0.15 valve diameters and shrinks to nothing at the seat.
 */
export function withPipeStub(bare: FlowPoints, valveDiameter: number): FlowPoints {
  if (!(valveDiameter > 0)) throw new DomainError('valveDiameter', valveDiameter, 'positive m');
  return {
    lift: bare.lift,
    area: bare.area.map((area, i) => {
      const reach = Math.min(1, bare.lift[i] / valveDiameter / PIPE_STUB_LIFT);
      return area * (1 + PIPE_STUB_GAIN * reach);
    }),
  };
}
