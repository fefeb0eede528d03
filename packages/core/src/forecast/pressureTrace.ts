/** Pressure by crank angle at places where a shop can put a sensor: over the piston, in the runner, in the primary. */
import type { Mesh } from '../assembly/mesh.ts';
import type { Fidelity } from '../assembly/symmetry.ts';
import { marchingOf } from '../assembly/symmetry.ts';
import { DomainError } from '../base/errors.ts';
import type { Combination } from '../combination/combination.ts';
import type { Duct } from '../network/duct.ts';
import type { Network } from '../network/network.ts';
import { SIDE } from '../network/side.ts';
import { type SettledMarch, settledMarch, traceSteps } from './trace.ts';

/** Where pressures can be read: in the cylinder, or in the pipe of its intake or its exhaust. */
export type PressurePlace = 'intake' | 'exhaust' | 'cylinder';

/** A place of a pressure. */
export interface PressurePoint {
  /** Which gas. */
  readonly place: PressurePlace;
  /**
   * From the valve along port and runner, or along port, primary and what follows on the way out [m]: secondary, collector, tail-pipe. Merges
   * and boxes count as no length. Of no account in the cylinder.
   */
  readonly fromValveM: number;
}

/** Pressures over one cycle; all lists run alike. */
export interface PressureTrace {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Which cylinders marched. */
  readonly fidelity: Fidelity;
  /** Number of the cylinder that the places belong to, from 1. */
  readonly cylinder: number;
  /** `unsettled`: the cycle did not repeat. */
  readonly status: 'settled' | 'unsettled';
  /** Crank angle after firing top centre of that cylinder [deg], rising from -360 to 360. */
  readonly angleDeg: readonly number[];
  /** Of each place asked for, in their order: static pressure, absolute [Pa]. */
  readonly pressurePa: readonly (readonly number[])[];
}

/** What to trace. */
export interface PressureTraceOptions {
  /** Crank speed [1/min], 100 to 30 000. */
  readonly rpm: number;
  /** Number of the cylinder, from 1; default 1. */
  readonly cylinder?: number;
  /** Where, one or more. */
  readonly places: readonly PressurePoint[];
  /** Lengths of the cells in the ducts; default {@link DEFAULT_MESH}. */
  readonly mesh?: Mesh | undefined;
}

/**
 * Settles a speed as a forecast does and reads the pressures of one further cycle.
 *
 * @throws {@link DomainError} where the speed is out of range, there is no such cylinder, or a place lies beyond its pipe
 *
 * @example
 * ```ts
 * const places = [{ place: 'exhaust', fromValveM: 0.3 }] as const;
 * const { angleDeg, pressurePa } = tracePressures(combination, { rpm: 5500, places });
 * ```
 */
export function tracePressures(combination: Combination, options: PressureTraceOptions): PressureTrace {
  const { rpm, cylinder = 1, places, mesh } = options;
  const { cylinders } = combination.block;
  if (!(Number.isInteger(cylinder) && cylinder >= 1 && cylinder <= cylinders))
    throw new DomainError('cylinder', cylinder, `a number from 1 to ${cylinders}`);
  if (!(places.length > 0)) throw new DomainError('places', places.length, 'one or more');
  const settled = settledMarch(combination, rpm, mesh);
  const { fidelity } = settled;
  const index = standIn(combination, fidelity, cylinder);
  const gauges = places.map((place) => gaugeAt(settled, index, place));
  const steps = traceSteps(settled, index, () => gauges.map((gauge) => gauge()));
  return {
    rpm,
    fidelity,
    cylinder,
    status: settled.status,
    angleDeg: steps.map(({ angle }) => angle),
    pressurePa: gauges.map((_, i) => steps.map(({ reading }) => reading[i])),
  };
}

/** Where among those that march the cylinder stands, or the one that does the same some degrees before. */
function standIn(combination: Combination, fidelity: Fidelity, cylinder: number): number {
  const { cylinders, shifts, imageOf } = marchingOf(combination, fidelity);
  return cylinders.findIndex((one) => shifts.some((shift) => imageOf(one, shift) === cylinder));
}

/** Reads the static pressure of its place now [Pa]. */
type Gauge = () => number;

function gaugeAt(
  { march, engine, stood }: SettledMarch,
  index: number,
  { place, fromValveM }: PressurePoint,
): Gauge {
  const { network } = march;
  if (place === 'cylinder') {
    const { side } = network.cylinders[index];
    return () => side[SIDE.p];
  }
  const end = engine[place === 'intake' ? 'intakeEnds' : 'exhaustEnds'][index];
  const first = network.ends[end].spec.duct;
  const chain = place === 'intake' ? withTrumpet(network, first) : wayOut(network, first);
  // The pipe is as long as waves see it.
  const stretch = place === 'intake' ? stood.induction.runner.lengthMultiplier : 1;
  let left = stretch * fromValveM;
  for (const one of chain) {
    const pipe = network.ducts[one];
    const length = pipe.dx * pipe.cells;
    if (left >= 0 && left <= length) return gaugeIn(pipe, place === 'intake' ? length - left : left);
    left -= length;
  }
  const reach = chain.reduce((sum, one) => sum + network.ducts[one].dx * network.ducts[one].cells, 0);
  throw new DomainError(
    'fromValveM',
    fromValveM,
    `from 0 to ${(reach / stretch).toFixed(3)} m, the ${PIPES[place]}`,
  );
}

const PIPES = { intake: 'port and runner', exhaust: 'port, primary and the pipes behind it' } as const;

/** A trumpet stands in front of a throttle in the runner. */
function withTrumpet({ joints }: Network, duct: number): readonly number[] {
  const before = joints.find(({ spec }) => spec.right === duct);
  return before === undefined ? [duct] : [duct, before.spec.left];
}

/** A primary and the pipes that its gas goes on through, from merge to merge. */
function wayOut({ ends }: Network, primary: number): readonly number[] {
  const chain = [primary];
  for (let duct: number | undefined = primary; duct !== undefined; ) {
    const here: number = duct;
    const out = ends.find(({ spec }) => spec.duct === here && spec.at === 'right')?.spec.to;
    duct =
      out?.kind === 'volume'
        ? ends.find(({ spec: { at, to } }) => at === 'left' && to.kind === 'volume' && to.index === out.index)
            ?.spec.duct
        : undefined;
    if (duct !== undefined) chain.push(duct);
  }
  return chain;
}

/** Between the middles of two cells along a straight line. */
function gaugeIn({ p, dx, cells }: Duct, x: number): Gauge {
  const s = Math.min(Math.max(x / dx - 0.5, 0), cells - 1);
  const i = Math.min(Math.floor(s), Math.max(0, cells - 2));
  const share = s - i;
  return cells === 1 ? () => p[0] : () => p[i] + share * (p[i + 1] - p[i]);
}
