/** What looks wrong about a flow sheet: slips of unit, depression or reading that no forecast should swallow silently. */
import { DomainError } from '../base/errors.ts';
import type { FlowPoints } from './flowArea.ts';
import { areaFromFlow, BENCH_AIR, incompressibleFlow, USUAL_DEPRESSION } from './flowSheet.ts';

/** A doubt about one point of a sheet. */
export interface FlowDoubt {
  readonly code: 'flow-falls' | 'curtain-coefficient' | 'above-minimum-area' | 'low-for-depression';
  /** Index of the point. */
  readonly point: number;
  /** What was found, the ratio that the message names [-]. */
  readonly value: number;
  /** What it would have to stay within [-]. */
  readonly limit: number;
  readonly message: string;
}

/** Coefficient on the curtain area above which a low-lift reading is suspect [-], as the trade converts. Common practice. */
export const CURTAIN_LIMIT = 0.8;

/** Share of a falling flow that counts as turbulence worth a remark [-]. */
const FALL_LIMIT = 0.01;

/** Flow per valve area at 28 inH2O below which a sheet may be of another depression: 62 of 147 cfm/in2 [-]. */
const LOW_FLOW_SHARE = 62 / 147;

/**
 * Doubts about a flow sheet, in the order of its points; none for a believable one.
 *
 * Limits are the trade's, in its incompressible conversion: no flow above sqrt(2 dp/rho) through the smallest
 * cross-section (147 cfm/in2 at 28 inH2O), a curtain coefficient of at most 0.80 below a quarter of the diameter, and a
 * best flow of at least 62 cfm per in2 of valve once lift passes a quarter of the diameter.
 *
 * @param points - effective areas at the stated depression
 * @param valveDiameter - head of one valve [m]
 * @param valves - of this side of the cylinder
 * @param minimumArea - smallest cross-section of the ports together [m2], or null where unknown
 */
export function flowDoubts(
  points: FlowPoints,
  valveDiameter: number,
  valves: number,
  minimumArea: number | null,
): FlowDoubt[] {
  if (!(valveDiameter > 0)) throw new DomainError('valveDiameter', valveDiameter, 'positive m');
  if (!(valves >= 1)) throw new DomainError('valves', valves, 'at least 1');
  // Effective area per area of incompressible flow: 1.039 at 28 inH2O, and within 1 % of it between 10 and 36.
  const perArea = areaFromFlow(
    incompressibleFlow(1, USUAL_DEPRESSION, BENCH_AIR),
    USUAL_DEPRESSION,
    BENCH_AIR,
  );
  const head = valves * (Math.PI / 4) * valveDiameter * valveDiameter;
  const doubts = points.lift.flatMap((lift, i) => {
    const area = points.area[i] / perArea;
    const curtain = valves * Math.PI * valveDiameter * lift;
    return [
      ...(lift <= 0.25 * valveDiameter ? curtainDoubt(i, area / curtain) : []),
      ...(minimumArea === null ? [] : minimumDoubt(i, area / minimumArea)),
      ...(i === 0 ? [] : fallDoubt(i, points.area[i] / points.area[i - 1])),
    ];
  });
  const last = points.lift.length - 1;
  const best = Math.max(...points.area) / perArea / head;
  if (points.lift[last] >= 0.25 * valveDiameter && best < LOW_FLOW_SHARE) {
    doubts.push({
      code: 'low-for-depression',
      point: last,
      value: best,
      limit: LOW_FLOW_SHARE,
      message: `best flow is ${best.toFixed(2)} of the ideal through the valve: was the sheet taken at a lower depression?`,
    });
  }
  return doubts;
}

/** @param value - flow over that of the curtain area [-] */
function curtainDoubt(point: number, value: number): FlowDoubt[] {
  if (!(value > CURTAIN_LIMIT)) return [];
  const message = `flow over the curtain area is ${value.toFixed(2)} of the ideal; above ${CURTAIN_LIMIT} the lift, the valve size or the depression is probably wrong`;
  return [{ code: 'curtain-coefficient', point, value, limit: CURTAIN_LIMIT, message }];
}

/** @param value - flow over that of the smallest cross-section [-] */
function minimumDoubt(point: number, value: number): FlowDoubt[] {
  if (!(value > 1)) return [];
  const message = `flow is ${value.toFixed(2)} of what the smallest cross-section can pass: a wrong area, depression or reading`;
  return [{ code: 'above-minimum-area', point, value, limit: 1, message }];
}

/** @param value - flow over that of the point before [-] */
function fallDoubt(point: number, value: number): FlowDoubt[] {
  if (!(value < 1 - FALL_LIMIT)) return [];
  return [
    {
      code: 'flow-falls',
      point,
      value,
      limit: 1,
      message: 'flow falls with lift: a turbulent port or a slip of the pen',
    },
  ];
}
