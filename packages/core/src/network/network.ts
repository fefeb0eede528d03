/** Volumes, cylinders and ducts joined by connections: packs the state into one vector and is a right-hand side, nothing else. */
import type { GasTables } from '../gas/gasTables.ts';
import type { FlowRecord } from './copies.ts';
import { createFlowRecord, RECALL, RECALL_SIZE, rebinned, recallFlow, recordFlow } from './copies.ts';
import type { Cylinder, CylinderSpec } from './cylinder.ts';
import { balanceCylinder, CYLINDER_STATE, createCylinder, decodeCylinder } from './cylinder.ts';
import type { Duct, DuctSpec } from './duct.ts';
import { balanceDuct, createDuct, decodeDuct, ductStateSize, FLUX, signalRate } from './duct.ts';
import { ductFace, END, END_SIZE, NOZZLE, NOZZLE_SIZE, SIDE, SIDE_SIZE, solveDuctEnd } from './ductEnd.ts';
import { orificeFlow } from './orifice.ts';
import type { Valve } from './valve.ts';
import { valveArea } from './valve.ts';
import type { Volume } from './volume.ts';
import { createVolume, decodeVolume, stillGas, VOLUME_STATE } from './volume.ts';

/** What stands at the other side of a connection. */
export interface NodeRef {
  readonly kind: 'volume' | 'cylinder' | 'reservoir';
  readonly index: number;
}

/** One end of a duct: where it leads and through what. */
export interface EndSpec {
  readonly duct: number;
  readonly right: boolean;
  readonly to: NodeRef;
  /** Fixed effective area [m2], or the valve of a cylinder. `outward`: its usual flow leaves the duct. */
  readonly opening: { readonly area: number } | { readonly valve: Valve; readonly outward: boolean };
}

/** A nozzle from still outside air into a volume, with fuel added to what passes. */
export interface OrificeSpec {
  readonly from: number;
  readonly to: number;
  /** [m2] */
  readonly area: number;
  /** Mass of mixture per mass of air [-]. */
  readonly gain: number;
  /** Specific enthalpy of the mixture that arrives [J/kg]. */
  readonly enthalpy: number;
}

/** Copies of a recorded end that deliver into the same volume, each so many degrees later. */
export interface CopySpec {
  readonly end: number;
  readonly volume: number;
  readonly delays: readonly number[];
}

/** Still gas whose state never changes: pressure [Pa], temperature [K], burned share. */
export interface ReservoirSpec {
  readonly p: number;
  readonly T: number;
  readonly b: number;
  /** Outside air that an orifice draws from: its own gas constant [J/(kg K)] and ratio of specific heats. */
  readonly R?: number;
  readonly gamma?: number;
}

export interface NetworkSpec {
  readonly tables: GasTables;
  readonly reservoirs: readonly ReservoirSpec[];
  readonly volumes: readonly { readonly name: string; readonly size: number }[];
  readonly cylinders: readonly CylinderSpec[];
  readonly ducts: readonly DuctSpec[];
  readonly ends: readonly EndSpec[];
  readonly orifices: readonly OrificeSpec[];
  readonly copies: readonly CopySpec[];
}

/** Offsets of an end's running totals in the state: mass out of the duct, burned mass, energy, mass times temperature. */
export const TOTAL = { mass: 0, burned: 1, energy: 2, massT: 3 } as const;
const END_STATE = 4;
/** An orifice's running totals: mass of air in, energy in. */
const ORIFICE_STATE = 2;

interface End {
  readonly spec: EndSpec;
  readonly duct: Duct;
  readonly nozzle: Float64Array;
  readonly side: Float64Array;
  readonly cylinder: Cylinder | null;
  readonly target: number;
  readonly offset: number;
  readonly face: Float64Array;
  readonly flow: Float64Array;
}

interface Copy {
  readonly spec: CopySpec;
  record: FlowRecord;
  readonly volume: Volume;
  readonly end: End;
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

export interface Network {
  readonly spec: NetworkSpec;
  readonly size: number;
  readonly volumes: readonly Volume[];
  readonly cylinders: readonly Cylinder[];
  readonly ducts: readonly Duct[];
  readonly ends: readonly End[];
  readonly orifices: readonly { readonly spec: OrificeSpec; readonly offset: number }[];
  readonly reservoirs: readonly Float64Array[];
  readonly copies: readonly Copy[];
  /** Areas of all pipe ends at each volume, copies included [m2]. */
  readonly openings: readonly number[];
  /** Crank speed [deg/s]; set by {@link setSpeed}. */
  degreesPerSecond: number;
  /** Set by the march where the next rates are those of the state decoded last: it need not be decoded twice. */
  decoded: boolean;
}

export function createNetwork(spec: NetworkSpec): Network {
  const { tables } = spec;
  let size = 0;
  const take = (n: number) => {
    size += n;
    return size - n;
  };
  const reservoirs = spec.reservoirs.map((r) => {
    const side = stillGas(tables, r.p, r.T, r.b);
    if (r.R !== undefined) side[SIDE.R] = r.R;
    if (r.gamma !== undefined) side[SIDE.gamma] = r.gamma;
    return side;
  });
  const volumes = spec.volumes.map((v) => createVolume(v.name, v.size, tables, take(VOLUME_STATE)));
  const cylinders = spec.cylinders.map((c) => createCylinder(c, tables, take(CYLINDER_STATE)));
  const ducts = spec.ducts.map((d) => createDuct(d, tables, take(ductStateSize(d.cells))));
  const ends = spec.ends.map((e): End => {
    const duct = ducts[e.duct];
    const cylinder = e.to.kind === 'cylinder' ? cylinders[e.to.index] : null;
    const node = cylinder ?? (e.to.kind === 'volume' ? volumes[e.to.index] : null);
    const nozzle = new Float64Array(NOZZLE_SIZE);
    if ('area' in e.opening) nozzle[NOZZLE.area] = e.opening.area;
    nozzle[NOZZLE.ductArea] = duct.faceArea[e.right ? duct.cells : 0];
    return {
      spec: e,
      duct,
      nozzle,
      side: node === null ? reservoirs[e.to.index] : node.side,
      cylinder,
      target: node === null ? -1 : node.offset,
      offset: take(END_STATE),
      face: new Float64Array(SIDE_SIZE),
      flow: new Float64Array(END_SIZE),
    };
  });
  const orifices = spec.orifices.map((o) => ({ spec: o, offset: take(ORIFICE_STATE) }));
  const copies = spec.copies.map(
    (c): Copy => ({
      spec: c,
      record: createFlowRecord(720, spec.reservoirs[0]?.p ?? 1e5),
      volume: volumes[c.volume],
      end: ends[c.end],
      rate: new Float64Array(RECALL_SIZE),
      pressure: 0,
      mean: new Float64Array(3),
      sum: new Float64Array(4),
      offset: take(1),
      total: 0,
      bias: 0,
    }),
  );
  const openings = volumes.map((v, i) => {
    const own = ends
      .filter((e) => e.target === v.offset)
      .reduce((sum, e) => sum + e.nozzle[NOZZLE.ductArea], 0);
    const copied = copies.filter((c) => c.spec.volume === i);
    return own + copied.reduce((sum, c) => sum + c.end.nozzle[NOZZLE.ductArea] * c.spec.delays.length, 0);
  });
  return {
    spec,
    size,
    volumes,
    cylinders,
    ducts,
    ends,
    orifices,
    reservoirs,
    copies,
    openings,
    degreesPerSecond: 0,
    decoded: false,
  };
}

/** @param rpm - crank speed [1/min] */
export function setSpeed(network: Network, rpm: number): void {
  network.degreesPerSecond = 6 * rpm;
  for (const c of network.cylinders) c.speed = (rpm * Math.PI) / 30;
}

/** Decodes every part of the state at crank angle theta [deg]. */
export function decode(network: Network, theta: number, y: Float64Array): void {
  for (const v of network.volumes) decodeVolume(v, y);
  for (const c of network.cylinders) decodeCylinder(c, theta, y);
  for (const d of network.ducts) decodeDuct(d, y);
}

/** dy/dt of the whole network; `t` [s] counts from crank angle 0. */
export function rates(network: Network, t: number, y: Float64Array, d: Float64Array): void {
  const theta = t * network.degreesPerSecond;
  d.fill(0);
  if (!network.decoded) decode(network, theta, y);
  network.decoded = false;
  for (const c of network.cylinders) c.open = false;
  for (const end of network.ends) connectEnd(end, d);
  for (const o of network.orifices) connectOrifice(network, o.spec, o.offset, d);
  for (const c of network.copies) connectCopy(c, d);
  for (const duct of network.ducts) balanceDuct(duct, d);
  for (const c of network.cylinders) balanceCylinder(c, y, d);
}

function connectEnd(end: End, d: Float64Array): void {
  const { spec, duct, side, flow, face, nozzle, cylinder, target, offset } = end;
  ductFace(duct, spec.right, face);
  if ('valve' in spec.opening) {
    const c = cylinder as Cylinder;
    let area = valveArea(spec.opening.valve, c.now.angle);
    if (area > 0) {
      c.open = true;
      const outward =
        face[SIDE.p] + face[SIDE.rho] * face[SIDE.w] * duct.c[spec.right ? duct.cells - 1 : 0] > side[SIDE.p];
      if (outward !== spec.opening.outward) area *= spec.opening.valve.reverseRatio;
    }
    nozzle[NOZZLE.area] = area;
  }
  solveDuctEnd(face, side, nozzle, flow);
  const mass = flow[END.mass];
  const burned = flow[END.burned];
  const energy = flow[END.energy];
  const flux = spec.right ? duct.right : duct.left;
  const sign = spec.right ? 1 : -1;
  flux[FLUX.mass] = sign * mass;
  flux[FLUX.momentum] = flow[END.force];
  flux[FLUX.energy] = sign * energy;
  flux[FLUX.burned] = sign * burned;
  // A volume and a cylinder begin alike: mass, energy, burned mass.
  if (target >= 0) {
    d[target] += mass;
    d[target + 1] += energy;
    d[target + 2] += burned;
  }
  d[offset + TOTAL.mass] += mass;
  d[offset + TOTAL.burned] += burned;
  d[offset + TOTAL.energy] += energy;
  d[offset + TOTAL.massT] += mass * (mass > 0 ? face[SIDE.T] : side[SIDE.T]);
}

function connectOrifice(network: Network, spec: OrificeSpec, offset: number, d: Float64Array): void {
  const volume = network.volumes[spec.to];
  const air = network.reservoirs[spec.from];
  const m = orificeFlow(air, volume.side, spec.area);
  const mixture = m > 0 ? m * spec.gain : m;
  const energy = mixture * (m > 0 ? spec.enthalpy : volume.side[SIDE.h]);
  const o = volume.offset;
  d[o] += mixture;
  d[o + 1] += energy;
  if (m < 0) d[o + 2] += m * volume.side[SIDE.b];
  d[offset] += mixture;
  d[offset + 1] += energy;
}

/**
 * The copies' recorded flow, corrected by what their pipe would answer at once to a volume pressure other than the
 * recorded one: dm = A dp / c, the admittance of a pipe's end. It keeps the iteration stable however small the volume.
 *
 * In a periodic cycle of alike copies the correction vanishes but for the error of the steps. Its coefficients are the
 * volume's means over the last cycle and its mean is taken off, so that over a periodic cycle it adds no mass, energy
 * or burned gas at all.
 */
function connectCopy(copy: Copy, d: Float64Array): void {
  const { volume, rate, end, spec, mean } = copy;
  const { side, offset: o } = volume;
  const admittance = (spec.delays.length * end.nozzle[NOZZLE.ductArea]) / mean[MEAN.c];
  const correction = admittance * (rate[RECALL.pressure] - side[SIDE.p]) - copy.bias;
  d[copy.offset] += correction;
  const drawn = rate[RECALL.drawn];
  d[o] += rate[RECALL.mass] - drawn + correction;
  d[o + 1] += rate[RECALL.energy] - drawn * side[SIDE.h] + correction * mean[MEAN.h];
  d[o + 2] += rate[RECALL.burned] - drawn * side[SIDE.b] + correction * mean[MEAN.b];
}

/** Share of a cycle's mean correction that is taken off the next [-]: the whole of it can swing from cycle to cycle. */
const GAIN = 0.9;

/** Takes over the means of the cycle just marched; before the first, the state at hand. Call it where a cycle begins. */
export function renewCopies(network: Network, y: Float64Array): void {
  for (const copy of network.copies) {
    const { mean, sum, volume } = copy;
    if (sum[MEAN.degrees] > 0)
      copy.bias += (GAIN * (y[copy.offset] - copy.total) * network.degreesPerSecond) / sum[MEAN.degrees];
    else addMeans(sum, volume.side, 1);
    copy.total = y[copy.offset];
    for (let i = 0; i < 3; i++) mean[i] = sum[i] / sum[MEAN.degrees];
    sum.fill(0);
  }
}

function addMeans(sum: Float64Array, side: Float64Array, degrees: number): void {
  sum[MEAN.c] += degrees * Math.sqrt(side[SIDE.gamma] * side[SIDE.R] * side[SIDE.T]);
  sum[MEAN.h] += degrees * side[SIDE.h];
  sum[MEAN.b] += degrees * side[SIDE.b];
  sum[MEAN.degrees] += degrees;
}

/** Share of the newest cycle in what copies recall [-]: 1 to begin with; half of it calms copies that swing. */
export function weighCopies(network: Network, weight: number): void {
  for (const copy of network.copies) copy.record.weight = weight;
}

/** Cuts the records of the copies into so many bins a cycle: steps that end at bin edges are recalled exactly. */
export function setBins(network: Network, bins: number): void {
  for (const copy of network.copies) {
    if (copy.record.mass.length !== bins) copy.record = rebinned(copy.record, bins);
  }
}

/** Scratch of {@link prepareCopies}: written and read within one call, never kept. */
const part = new Float64Array(RECALL_SIZE);

/** Readies the copies for a step between two crank angles [deg] that takes `h` seconds; the network is decoded at `from`. */
export function prepareCopies(network: Network, from: number, to: number, h: number): void {
  for (const copy of network.copies) {
    const { spec, record, rate, volume } = copy;
    copy.pressure = volume.side[SIDE.p];
    rate.fill(0);
    for (const delay of spec.delays) {
      recallFlow(record, from - delay, to - delay, part);
      rate[RECALL.mass] += part[RECALL.mass] / h;
      rate[RECALL.burned] += part[RECALL.burned] / h;
      rate[RECALL.energy] += part[RECALL.energy] / h;
      rate[RECALL.drawn] += part[RECALL.drawn] / h;
      rate[RECALL.pressure] += part[RECALL.pressure] / spec.delays.length;
    }
  }
}

/** Records what the marching cylinder delivered between two crank angles [deg]; the network is decoded at `to`. */
export function recordCopies(
  network: Network,
  from: number,
  to: number,
  before: Float64Array,
  after: Float64Array,
): void {
  for (const { record, end, volume, pressure, sum } of network.copies) {
    addMeans(sum, volume.side, to - from);
    const o = end.offset;
    recordFlow(
      record,
      from,
      to,
      after[o + TOTAL.mass] - before[o + TOTAL.mass],
      after[o + TOTAL.burned] - before[o + TOTAL.burned],
      after[o + TOTAL.energy] - before[o + TOTAL.energy],
      0.5 * (pressure + volume.side[SIDE.p]),
    );
  }
}

/**
 * How much of a volume's rate counts beside that of ducts [-]. It settles without swinging, and would bear steps twice as
 * long as a wave does; the rest is for accuracy.
 */
const VOLUME_SHARE = 0.8;

/**
 * Fastest rate in the network [1/s]: signal speed over cell length of the ducts, and {@link VOLUME_SHARE} of each volume's:
 * the areas that open into it times sound speed over its size, at which it would settle if they were pipe ends.
 */
export function stiffness(network: Network): number {
  let most = 0;
  for (let i = 0; i < network.volumes.length; i++) {
    const { side, size } = network.volumes[i];
    const rate =
      (VOLUME_SHARE * network.openings[i] * Math.sqrt(side[SIDE.gamma] * side[SIDE.R] * side[SIDE.T])) / size;
    if (rate > most) most = rate;
  }
  for (const duct of network.ducts) most = Math.max(most, signalRate(duct));
  return most;
}

/** False where the last decoded state is not one of a gas: a step was too long. */
export function isSound(network: Network): boolean {
  for (const { side } of network.volumes) if (!(side[SIDE.p] > 0 && side[SIDE.T] > 0)) return false;
  for (const { side } of network.cylinders) if (!(side[SIDE.p] > 0 && side[SIDE.T] > 0)) return false;
  for (const { cells, p, c } of network.ducts) {
    for (let i = 0; i < cells; i++) if (!(p[i] > 0 && c[i] > 0)) return false;
  }
  return true;
}
