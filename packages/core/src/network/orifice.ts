/** Quasi-steady flow between two nodes at rest: carburetor, throttle, air cleaner, a hole between two plenums. */
import { powerNearOne } from '../numerics/powerNearOne.ts';
import type { NodeRef, PartGroup, Site, StillNode, Weighted } from './part.ts';
import { countGiven } from './reservoir.ts';
import { SIDE } from './side.ts';
import { findPass, PASS, passOf, type Throat } from './throat.ts';

/** A nozzle between any two nodes at rest; flow is positive from `from` to `to`. */
export interface OrificeSpec extends Weighted {
  readonly from: NodeRef;
  readonly to: NodeRef;
  /** Effective, both ways [m2]. */
  readonly area: number;
  /** One throat or two in series, the first at `from`, in place of the nozzle, whose `area` then only says how wide the way is; left out: the nozzle. */
  readonly throats?: readonly Throat[];
  /** What is done to gas on its way from `from`; left out: nothing. What flows back is left as it is. */
  readonly metering?: {
    /** Mass of mixture that arrives per mass that leaves [-]. */
    readonly gain: number;
    /** Specific enthalpy of the mixture that arrives [J/kg]. */
    readonly enthalpy: number;
  };
}

/** Offsets of an orifice's running totals in the state: mass and energy that arrived at `to`. */
export const ORIFICE = { mass: 0, energy: 1 } as const;
const ORIFICE_STATE = 2;

export interface Orifice {
  readonly spec: OrificeSpec;
  readonly from: StillNode;
  readonly to: StillNode;
  readonly offset: number;
  /** See {@link FLOW}. */
  readonly flow: Float64Array;
  /** The throats the way they are passed from `from` and from `to`, see {@link PASS}; null: a nozzle. */
  readonly along: Float64Array | null;
  readonly against: Float64Array | null;
}

/** Effective area [m2], and what flows through it: mass and burned mass [kg/s], energy [W]. */
const FLOW = { area: 0, mass: 1, burned: 2, energy: 3 } as const;
const FLOW_SIZE = 4;

export function createOrifice(
  spec: OrificeSpec,
  { take, numbers }: Site,
  from: StillNode,
  to: StillNode,
): Orifice {
  from.opening[0] += spec.area;
  to.opening[0] += spec.area;
  const flow = new Float64Array(FLOW_SIZE);
  flow[FLOW.area] = spec.area;
  const { throats } = spec;
  return {
    spec,
    from,
    to,
    offset: take(ORIFICE_STATE),
    flow,
    along: throats === undefined ? null : passOf(throats, 'along', numbers),
    against: throats === undefined ? null : passOf(throats, 'against', numbers),
  };
}

/** Relative pressure difference below which the square root is made straight, so that the rate stays finite. */
const STRAIGHT = 1e-4;

/**
 * Mass flow through an effective area [kg/s], positive from `a` to `b`; isentropic to the throat, choked below the
 * critical ratio. Below a relative pressure difference of 1e-4 the law is linear in the difference.
 *
 * @see Heywood, Internal Combustion Engine Fundamentals (1988), appendix C, eq. C.8 and C.9
 */
export function orificeFlow(a: Float64Array, b: Float64Array, area: number): number {
  const flow = new Float64Array(FLOW_SIZE);
  flow[FLOW.area] = area;
  findFlow(a, b, flow);
  return flow[FLOW.mass];
}

/** {@link orificeFlow} through the area of a {@link FLOW}, into it. */
function findFlow(a: Float64Array, b: Float64Array, flow: Float64Array): void {
  const forward = a[SIDE.p] >= b[SIDE.p];
  const up = forward ? a : b;
  const down = forward ? b : a;
  const gamma = up[SIDE.gamma];
  const p0 = up[SIDE.p];
  let pr = down[SIDE.p] / p0;
  const critical = powerNearOne(2 / (gamma + 1), gamma / (gamma - 1));
  if (pr < critical) pr = critical;
  let scale = 1;
  if (pr > 1 - STRAIGHT) {
    scale = (1 - pr) / STRAIGHT;
    pr = 1 - STRAIGHT;
  }
  const y = powerNearOne(pr, 1 / gamma);
  const psi = Math.sqrt(((2 * gamma) / (gamma - 1)) * y * (y - pr)) * scale;
  const m = (flow[FLOW.area] * p0 * psi) / Math.sqrt(up[SIDE.R] * up[SIDE.T]);
  flow[FLOW.mass] = forward ? m : -m;
}

/** What passes throats from one side to the other, into a {@link FLOW}. */
function passThroats(pass: Float64Array, up: Float64Array, down: Float64Array, flow: Float64Array): void {
  pass[PASS.gamma] = up[SIDE.gamma];
  pass[PASS.RT] = up[SIDE.R] * up[SIDE.T];
  pass[PASS.up] = up[SIDE.p];
  pass[PASS.down] = down[SIDE.p];
  findPass(pass);
  flow[FLOW.mass] = pass[PASS.mass];
}

/** Adds so many times a flow to a node, 1 or -1; what leaves a stream takes its momentum along. */
function give(node: StillNode, flow: Float64Array, times: number, d: Float64Array): void {
  if (node.offset < 0) return;
  const mass = times * flow[FLOW.mass];
  d[node.offset] += mass;
  d[node.energyAt] += times * flow[FLOW.energy];
  d[node.burnedAt] += times * flow[FLOW.burned];
  if (mass < 0 && node.momentumAt >= 0) d[node.momentumAt] += mass * node.side[SIDE.w];
}

/** Moves what passes from one node to the other: what leaves is the upstream node's gas, what arrives may have been metered. */
function connectOrifice({ spec, from, to, offset, flow, along, against }: Orifice, d: Float64Array): void {
  const { metering } = spec;
  if (along === null || against === null) findFlow(from.side, to.side, flow);
  else if (from.side[SIDE.p] >= to.side[SIDE.p]) passThroats(along, from.side, to.side, flow);
  else {
    passThroats(against, to.side, from.side, flow);
    flow[FLOW.mass] = -flow[FLOW.mass];
  }
  const m = flow[FLOW.mass];
  const up = m > 0 ? from.side : to.side;
  flow[FLOW.burned] = m * up[SIDE.b];
  flow[FLOW.energy] = m * up[SIDE.h];
  give(from, flow, -1, d);
  if (metering !== undefined && m > 0) {
    flow[FLOW.mass] = m * metering.gain;
    flow[FLOW.energy] = flow[FLOW.mass] * metering.enthalpy;
  }
  give(to, flow, 1, d);
  d[offset + ORIFICE.mass] += flow[FLOW.mass];
  d[offset + ORIFICE.energy] += flow[FLOW.energy];
}

/** What the kernel has to know of an orifice, in the order of `tools/kernel/orifice.as`. */
export function orificeNumbers({ spec, from, to, offset, along, against }: Orifice): number[] {
  const { metering, area } = spec;
  const places = [from, to].flatMap((node) => [node.offset, node.energyAt, node.burnedAt, node.momentumAt]);
  return [
    ...[from.side.byteOffset, to.side.byteOffset, ...places, offset, area],
    // No block stands at 0.
    ...[along?.byteOffset ?? 0, against?.byteOffset ?? 0],
    ...[Number(metering !== undefined), metering?.gain ?? 1, metering?.enthalpy ?? 0],
  ];
}

export function orificeGroup(orifices: readonly Orifice[]): PartGroup {
  return {
    addRates(_y, d) {
      for (const orifice of orifices) connectOrifice(orifice, d);
    },
    account(before, after, account) {
      for (const { spec, from, to, offset } of orifices) {
        const { weight = 1 } = spec;
        const mass = weight * (after[offset + ORIFICE.mass] - before[offset + ORIFICE.mass]);
        const energy = weight * (after[offset + ORIFICE.energy] - before[offset + ORIFICE.energy]);
        countGiven(from, mass, energy, account);
        countGiven(to, -mass, -energy, account);
      }
    },
  };
}
