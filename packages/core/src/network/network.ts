/** Volumes, cylinders and ducts joined by connections: packs the state into one vector and is a right-hand side, nothing else. */
import type { GasTables } from '../gas/gasTables.ts';
import type { Copy, CopySpec } from './copiedEnds.ts';
import { connectCopy, createCopy } from './copiedEnds.ts';
import type { Cylinder, CylinderSpec } from './cylinder.ts';
import { balanceCylinder, CYLINDER_STATE, createCylinder, decodeCylinder } from './cylinder.ts';
import type { Duct, DuctSpec } from './duct.ts';
import { balanceDuct, createDuct, decodeDuct, ductStateSize, FLUX, signalRate } from './duct.ts';
import {
  ductFace,
  END,
  END_SIZE,
  NOZZLE,
  NOZZLE_SIZE,
  SIDE,
  SIDE_SIZE,
  solveDuctEnd,
  TOTAL,
} from './ductEnd.ts';
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
  const copies = spec.copies.map((c) =>
    createCopy(c, volumes[c.volume], ends[c.end], spec.reservoirs[0]?.p ?? 1e5, take(1)),
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
    const { valve } = spec.opening;
    let area = valveArea(valve.area, valve.step, c.now.angle);
    if (area > 0) {
      c.open = true;
      const outward =
        face[SIDE.p] + face[SIDE.rho] * face[SIDE.w] * duct.c[spec.right ? duct.cells - 1 : 0] > side[SIDE.p];
      if (outward !== spec.opening.outward) area = valveArea(valve.against, valve.step, c.now.angle);
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
