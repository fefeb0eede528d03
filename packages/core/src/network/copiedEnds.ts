/** Cylinders that do not march: their duct ends deliver into shared volumes what a marching cylinder's end did so many degrees before. */
import { ZERO } from '../base/zero.ts';
import { CLOCK } from './clock.ts';
import type { FlowRecord } from './copies.ts';
import {
  createFlowRecord,
  PASSED,
  PASSED_SIZE,
  RECALL,
  RECALL_SIZE,
  rebinned,
  recallFlow,
  recordFlow,
} from './copies.ts';
import type { Duct } from './duct.ts';
import { NOZZLE } from './ductEnd.ts';
import type { OpenEnd } from './openEnd.ts';
import { TOTAL } from './openEnd.ts';
import type { PartGroup, Site, StillNode } from './part.ts';
import { SIDE } from './side.ts';

/** Copies of a recorded end that deliver into the same volume, each so many degrees later. */
export interface CopySpec {
  readonly end: number;
  readonly volume: number;
  readonly delays: readonly number[];
}

export interface Copy {
  readonly spec: CopySpec;
  record: FlowRecord;
  readonly volume: StillNode;
  readonly end: OpenEnd;
  /** Ducts end to end from there to the valve. */
  readonly pipes: readonly Duct[];
  /** Degrees that a wave takes up these pipes and back. */
  echo: number;
  /** Pressure of the waves that come back from the valves of the copies, mean of the copies over the step [Pa]. */
  returned: number;
  /** Rates of all copies together over the step [per s] and mean recorded pressure [Pa], see `RECALL`. */
  readonly rate: Float64Array;
  /** Volume's pressure at the start of the step [Pa]. */
  pressure: number;
  /** Sound speed, enthalpy and burned share of the volume, means of the last cycle, see {@link renewCopies}. */
  readonly mean: Float64Array;
  /** Their sums over the running cycle, and the degrees summed. */
  readonly sum: Float64Array;
  /** Offset of the running total of corrections in the state [kg], and its value when the cycle began. */
  readonly offset: number;
  total: number;
  /** Constant part of the correction, taken off so that a cycle's corrections sum to nothing [kg/s]. */
  bias: number;
}

/** Indices into a copy's means. */
const MEAN = { c: 0, h: 1, b: 2, degrees: 3 } as const;

/** The part of a network that these functions work on. */
interface WithCopies {
  readonly copies: readonly Copy[];
  /** Crank speed [deg/s]. */
  readonly degreesPerSecond: number;
}

/** @param pressure - of the volume before anything was recorded [Pa] */
export function createCopy(
  spec: CopySpec,
  { take, numbers }: Site,
  volume: StillNode,
  end: OpenEnd,
  pipes: readonly Duct[],
  pressure: number,
): Copy {
  volume.opening[0] += spec.delays.length * end.nozzle[NOZZLE.ductArea];
  return {
    spec,
    record: createFlowRecord(Float64Array.of(0, 720), pressure),
    volume,
    end,
    pipes,
    echo: ZERO,
    returned: ZERO,
    rate: numbers(RECALL_SIZE),
    pressure: ZERO,
    mean: numbers(3),
    sum: new Float64Array(4),
    offset: take(1),
    total: ZERO,
    bias: ZERO,
  };
}

/**
 * What is left of a wave that comes back from a cylinder [-]: the whole where its valve is shut, hardly any where that is open, in turns.
 * More of it swings by itself, less leaves the swing that it is there to end; between 0.5 and 0.7 the figure makes no difference.
 */
const ECHO = 0.6;

/**
 * The copies' recorded flow, corrected by what their pipes answer to a volume pressure other than the recorded one. The difference is
 * the sum of a wave that runs up the pipe and of one that comes back from the valve, sent some time before; the flow goes with the
 * difference of the two, dm = A (sent - returned) / c = A (dp - 2 returned) / c. It keeps the iteration stable however small the volume,
 * and without what comes back a swing that is no multiple of the firing would live on from one cycle to the next, the copies handing it
 * to the one that is recorded.
 *
 * In a periodic cycle of alike copies the correction vanishes but for the error of the steps. Its coefficients are the
 * volume's means over the last cycle and its mean is taken off, so that over a periodic cycle it adds no mass, energy
 * or burned gas at all.
 */
function connectCopy(copy: Copy, d: Float64Array): void {
  const { volume, rate, end, spec, mean } = copy;
  const { side, offset: o } = volume;
  const admittance = (spec.delays.length * end.nozzle[NOZZLE.ductArea]) / mean[MEAN.c];
  const correction = admittance * (rate[RECALL.pressure] - side[SIDE.p] + 2 * copy.returned) - copy.bias;
  d[copy.offset] += correction;
  const drawn = rate[RECALL.drawn];
  d[o] += rate[RECALL.mass] - drawn + correction;
  d[o + 1] += rate[RECALL.energy] - drawn * side[SIDE.h] + correction * mean[MEAN.h];
  d[o + 2] += rate[RECALL.burned] - drawn * side[SIDE.b] + correction * mean[MEAN.b];
}

/** What the kernel has to know of copies, in the order of `tools/kernel/copiedEnds.as`; {@link tellCopy} adds what changes. */
export function copyNumbers({ volume, rate, mean, spec, end, offset }: Copy): number[] {
  const area = spec.delays.length * end.nozzle[NOZZLE.ductArea];
  return [volume.side.byteOffset, volume.offset, rate.byteOffset, mean.byteOffset, area, offset, 0, 0];
}

/** What changes from step to step, into the {@link copyNumbers}. */
export function tellCopy({ returned, bias }: Copy, block: Float64Array): void {
  block[RETURNED] = returned;
  block[RETURNED + 1] = bias;
}
const RETURNED = 6;

/** What the copies deliver changes from step to step, see {@link prepareCopies}: within one, rates depend on time and state alone. */
export function copyGroup(copies: readonly Copy[]): PartGroup {
  return {
    addRates(_y, d) {
      for (const copy of copies) connectCopy(copy, d);
    },
  };
}

/** Share of a cycle's mean correction that is taken off the next [-]: the whole of it can swing from cycle to cycle. */
const GAIN = 0.9;

/** Takes over the means of the cycle just marched; before the first, the state at hand. Call it where a cycle begins. */
export function renewCopies(network: WithCopies, y: Float64Array): void {
  for (const copy of network.copies) {
    const { mean, sum, volume } = copy;
    if (sum[MEAN.degrees] > 0)
      copy.bias += (GAIN * (y[copy.offset] - copy.total) * network.degreesPerSecond) / sum[MEAN.degrees];
    else addMeans(sum, volume.side, 1);
    copy.total = y[copy.offset];
    for (let i = 0; i < 3; i++) mean[i] = sum[i] / sum[MEAN.degrees];
    sum.fill(0);
    copy.echo = 2 * network.degreesPerSecond * timeThrough(copy.pipes);
  }
}

/** Time that sound takes through pipes [s]. */
function timeThrough(pipes: readonly Duct[]): number {
  let sum = 0;
  for (const { cells, c, dx } of pipes) for (let i = 0; i < cells; i++) sum += dx / c[i];
  return sum;
}

function addMeans(sum: Float64Array, side: Float64Array, degrees: number): void {
  sum[MEAN.c] += degrees * Math.sqrt(side[SIDE.gamma] * side[SIDE.R] * side[SIDE.T]);
  sum[MEAN.h] += degrees * side[SIDE.h];
  sum[MEAN.b] += degrees * side[SIDE.b];
  sum[MEAN.degrees] += degrees;
}

/** Cuts the records of the copies at the crank angles that steps end on, from 0 to 720 deg. */
export function setBins(network: WithCopies, edges: Float64Array): void {
  for (const copy of network.copies) copy.record = rebinned(copy.record, edges);
}

/** Scratch of {@link prepareCopies} and {@link recordCopies}: written and read within one call, never kept. */
const part = new Float64Array(RECALL_SIZE);
const passed = new Float64Array(PASSED_SIZE);

/** Readies the copies for the step of a {@link CLOCK}; the network is decoded where it begins. */
export function prepareCopies(network: WithCopies, clock: Float64Array): void {
  const h = clock[CLOCK.seconds];
  for (const copy of network.copies) {
    const { spec, record, rate, volume } = copy;
    copy.pressure = volume.side[SIDE.p];
    rate.fill(0);
    recallEcho(copy, clock);
    for (const delay of spec.delays) {
      part[RECALL.from] = clock[CLOCK.from] - delay;
      part[RECALL.to] = clock[CLOCK.to] - delay;
      recallFlow(record, part);
      rate[RECALL.mass] += part[RECALL.mass] / h;
      rate[RECALL.burned] += part[RECALL.burned] / h;
      rate[RECALL.energy] += part[RECALL.energy] / h;
      rate[RECALL.drawn] += part[RECALL.drawn] / h;
      rate[RECALL.pressure] += part[RECALL.pressure] / spec.delays.length;
    }
  }
}

/** Notes what comes back over the step of a {@link CLOCK}; pipes too short for the step answer as endless ones do. */
function recallEcho(copy: Copy, clock: Float64Array): void {
  copy.returned = 0;
  if (copy.echo < clock[CLOCK.to] - clock[CLOCK.from]) return;
  part[RECALL.from] = clock[CLOCK.from] - copy.echo;
  part[RECALL.to] = clock[CLOCK.to] - copy.echo;
  recallFlow(copy.record, part);
  copy.returned = ECHO * part[RECALL.sent];
}

/** Records what the marching cylinder delivered over the step of a {@link CLOCK}; the network is decoded where it ends. */
export function recordCopies(
  network: WithCopies,
  clock: Float64Array,
  before: Float64Array,
  after: Float64Array,
): void {
  passed[PASSED.from] = clock[CLOCK.from];
  passed[PASSED.to] = clock[CLOCK.to];
  const degrees = clock[CLOCK.to] - clock[CLOCK.from];
  for (const { record, end, volume, pressure, sum, rate, returned } of network.copies) {
    addMeans(sum, volume.side, degrees);
    const o = end.offset;
    passed[PASSED.mass] = after[o + TOTAL.mass] - before[o + TOTAL.mass];
    passed[PASSED.burned] = after[o + TOTAL.burned] - before[o + TOTAL.burned];
    passed[PASSED.energy] = after[o + TOTAL.energy] - before[o + TOTAL.energy];
    passed[PASSED.pressure] = 0.5 * (pressure + volume.side[SIDE.p]);
    passed[PASSED.sent] = passed[PASSED.pressure] - rate[RECALL.pressure] - returned;
    recordFlow(record, passed);
  }
}

/** All that a copy hands on from one cycle to the next, as plain numbers. */
export type KeptCopy = readonly Float64Array[];

/** Notes what copies hand on, where a cycle has ended; records are told apart by their bins, which have to stay. */
export function keepCopies(network: WithCopies, y: Float64Array): readonly KeptCopy[] {
  return network.copies.map(({ record, sum, bias, offset, total }) => [
    ...RECORDED.map((field) => record[field].slice()),
    sum.slice(),
    Float64Array.of(bias, y[offset] - total),
  ]);
}

/** Has copies hand on a combination of what they handed on after some cycles, shares summing to one. */
export function combineCopies(
  network: WithCopies,
  y: Float64Array,
  kept: readonly (readonly KeptCopy[])[],
  shares: readonly number[],
): void {
  network.copies.forEach((copy, i) => {
    const combined = (field: number): Float64Array =>
      kept[0][i][field].map((_, k) =>
        shares.reduce((sum, share, c) => sum + share * kept[c][i][field][k], 0),
      );
    RECORDED.forEach((field, f) => {
      copy.record[field].set(combined(f));
    });
    copy.sum.set(combined(RECORDED.length));
    const [bias, corrected] = combined(RECORDED.length + 1);
    copy.bias = bias;
    copy.total = y[copy.offset] - corrected;
  });
}

const RECORDED = ['mass', 'burned', 'energy', 'drawn', 'pressure', 'sent'] as const;
