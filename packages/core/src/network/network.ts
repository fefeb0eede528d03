/** Nodes of gas and the connections between them: packs their state into one vector and is a right-hand side, nothing else. */
import { ZERO } from '../base/zero.ts';
import type { GasTables } from '../gas/gasTables.ts';
import type { CopySpec } from './copiedEnds.ts';
import { copyGroup, createCopy } from './copiedEnds.ts';
import type { CylinderSpec } from './cylinder.ts';
import { createCylinder } from './cylinder.ts';
import { cylinderGroup } from './cylinderGroup.ts';
import type { Duct, DuctSpec } from './duct.ts';
import { blockSize, createDuct, DUCT_FIELDS, ductGroup } from './duct.ts';
import type { DuctCellSpec } from './ductCell.ts';
import { createDuctCell, ductCellGroup } from './ductCell.ts';
import type { FeedSpec } from './feed.ts';
import { createFeed, feedGroup } from './feed.ts';
import type { Joint, JointSpec } from './joint.ts';
import { createJoint, jointGroup } from './joint.ts';
import { type KernelNetwork, kernelNetwork } from './kernelNetwork.ts';
import { stepNumbersAtMost } from './kernelStep.ts';
import { type NetworkMemory, networkMemory } from './networkMemory.ts';
import type { NetworkParts } from './networkParts.ts';
import type { EndSpec, OpenEnd } from './openEnd.ts';
import { boilFilm, createEnd, endGroup } from './openEnd.ts';
import type { OrificeSpec } from './orifice.ts';
import { createOrifice, orificeGroup } from './orifice.ts';
import { type Account, FASTEST, type NodeRef, type PartGroup, type Site, type StillNode } from './part.ts';
import type { ReservoirSpec } from './reservoir.ts';
import { createReservoir } from './reservoir.ts';
import type { VolumeSpec } from './volume.ts';
import { createVolume, volumeGroup } from './volume.ts';

/** The parts of a network by kind; what it has none of is left out. Connections name nodes by kind and index. */
export interface NetworkSpec {
  readonly tables: GasTables;
  readonly reservoirs?: readonly ReservoirSpec[];
  readonly volumes?: readonly VolumeSpec[];
  readonly cylinders?: readonly CylinderSpec[];
  readonly ducts?: readonly DuctSpec[];
  /** Places along ducts that connections lead to. */
  readonly cells?: readonly DuctCellSpec[];
  readonly ends?: readonly EndSpec[];
  /** Ducts end to end. */
  readonly joints?: readonly JointSpec[];
  readonly orifices?: readonly OrificeSpec[];
  /** Outside air through throats into the ends of ducts. */
  readonly feeds?: readonly FeedSpec[];
  readonly copies?: readonly CopySpec[];
}

export interface Network extends NetworkParts {
  /** Entries of the state vector. */
  readonly size: number;
  /** The same parts as they are walked: nodes with a state, then connections. */
  readonly nodes: readonly PartGroup[];
  readonly connections: readonly PartGroup[];
  /** Crank angle of the state that is decoded [deg], at index 0. */
  readonly crankAngle: Float64Array;
  /** For states and rates that stand in its memory; null where there is none. */
  readonly kernel: KernelNetwork | null;
  /** Zeros for a state or its rates, of a kind that the network is quickest with. */
  readonly vector: () => Float64Array;
  /** Crank speed [deg/s]; set by {@link setSpeed}. */
  degreesPerSecond: number;
}

export function createNetwork(spec: NetworkSpec): Network {
  let size = 0;
  const memory = networkMemory(numbersOf(spec));
  const site: Site = {
    tables: spec.tables,
    numbers: memory.take,
    crankAngle: memory.take(1),
    take: (entries) => {
      size += entries;
      return size - entries;
    },
  };
  const parts = createParts(spec, site, memory);
  const { reservoirs, volumes, cylinders, ducts, cells, ends, joints, orifices, feeds, copies } = parts;
  const { crankAngle } = site;
  return {
    size,
    reservoirs,
    volumes,
    cylinders,
    ducts,
    cells,
    ends,
    joints,
    orifices,
    feeds,
    copies,
    nodes: [
      volumeGroup(volumes),
      cylinderGroup(cylinders, crankAngle),
      ductGroup(ducts),
      ductCellGroup(cells),
    ],
    connections: [
      endGroup(ends),
      jointGroup(joints),
      orificeGroup(orifices),
      feedGroup(feeds),
      copyGroup(copies),
    ],
    crankAngle,
    kernel: kernelNetwork({ ...parts, crankAngle, size }, memory),
    vector: () => memory.take(size),
    degreesPerSecond: ZERO,
  };
}

/** Pressure that copies begin from in a network without outside air [Pa]. */
const STILL = 1e5;

/** Nodes first, then what leads to them. Each takes its place in the state and in the memory in this order. */
function createParts(spec: NetworkSpec, site: Site, memory: NetworkMemory): NetworkParts {
  const reservoirs = (spec.reservoirs ?? []).map((r) => createReservoir(r, site));
  const volumes = (spec.volumes ?? []).map((v) => createVolume(v, site));
  const cylinders = (spec.cylinders ?? []).map((c) => createCylinder(c, site));
  const ducts = (spec.ducts ?? []).map((d) => createDuct(d, { ...site, memory }));
  const cells = (spec.cells ?? []).map((c) => createDuctCell(c, site, ducts[c.duct]));
  const still = { reservoir: reservoirs, volume: volumes, cylinder: cylinders, cell: cells };
  const nodeAt = ({ kind, index }: NodeRef): StillNode => still[kind][index];
  const ends = (spec.ends ?? []).map((e) => {
    const cylinder = e.to.kind === 'cylinder' ? cylinders[e.to.index] : null;
    return createEnd(e, { ...site, memory }, ducts[e.duct], nodeAt(e.to), cylinder);
  });
  const joints = (spec.joints ?? []).map((j) => createJoint(j, ducts));
  const orifices = (spec.orifices ?? []).map((o) => createOrifice(o, site, nodeAt(o.from), nodeAt(o.to)));
  const feeds = (spec.feeds ?? []).map((f) => createFeed(f, site, nodeAt, ducts[f.duct]));
  const outside = spec.reservoirs?.[0].p ?? STILL;
  const copies = (spec.copies ?? []).map((c) => {
    const end = ends[c.end];
    return createCopy(c, site, volumes[c.volume], end, pipesFrom(end, joints), outside);
  });
  return { reservoirs, volumes, cylinders, ducts, cells, ends, joints, orifices, feeds, copies };
}

/** The ducts that follow each other from an open end, joint after joint. */
function pipesFrom({ duct, spec }: OpenEnd, joints: readonly Joint[]): Duct[] {
  const pipes = [duct];
  // A duct that is entered on its left goes on at its right.
  const rightward = spec.at === 'left';
  for (;;) {
    const last = pipes[pipes.length - 1];
    const joint = joints.find(({ left, right }) => (rightward ? left : right) === last);
    if (joint === undefined) return pipes;
    pipes.push(rightward ? joint.right : joint.left);
  }
}

/** States and rates that a march keeps, and some to spare: for what is found of all ducts, too. */
const VECTORS = 10;
/** Entries of the state at most that a part takes beside those of the cells of ducts. */
const MOST_ENTRIES = 16;
/** Numbers at most that a part other than a duct keeps: its blocks and sides, its opening, and a place in a list. */
const PART = 90;
/** Numbers of a gas beside its tables, and of the plan of all. */
const GAS = 24;
const PLAN = 16;
/** Stages at most of a method that steps are taken with. */
const STAGES = 4;

function tableSize({ count, equilibrium }: GasTables): number {
  return GAS + 4 * count + equilibrium.u.length + equilibrium.R.length;
}

/** Room for the blocks of ducts and their ends, their gases, nodes, valves and the vectors of a march [-]. */
function numbersOf({ ducts = [], ...others }: NetworkSpec): number {
  const charges = (others.cylinders ?? []).map(({ charge }) => charge);
  const gases = new Set([...ducts, ...(others.volumes ?? [])].map(({ tables }) => tables));
  const tables = [...new Set([...gases, ...charges, others.tables])].reduce(
    (sum, gas) => sum + (gas === undefined ? 0 : tableSize(gas)),
    0,
  );
  const valves = new Set(
    (others.ends ?? []).flatMap(({ opening }) =>
      'valve' in opening ? [opening.valve.area, opening.valve.against] : [],
    ),
  );
  const lifts = [...valves].reduce((sum, { length }) => sum + length, 0);
  const blocks = ducts.reduce((sum, { cells }) => sum + blockSize(cells), 0);
  const cells = ducts.reduce((sum, duct) => sum + duct.cells, 0);
  const parts = Object.values(others).reduce((sum, list) => sum + (Array.isArray(list) ? list.length : 0), 0);
  return (
    PLAN +
    stepNumbersAtMost(STAGES) +
    tables +
    lifts +
    blocks +
    ducts.length +
    PART * parts +
    VECTORS * (DUCT_FIELDS * cells + MOST_ENTRIES * (parts + ducts.length))
  );
}

/** @param rpm - crank speed [1/min] */
export function setSpeed(network: Network, rpm: number): void {
  network.degreesPerSecond = 6 * rpm;
  for (const c of network.cylinders) c.speed = (rpm * Math.PI) / 30;
  for (const end of network.ends) boilFilm(end);
}

/** Decodes every part of the state at crank angle theta [deg]. */
export function decode(network: Network, theta: number, y: Float64Array): void {
  network.crankAngle[0] = theta;
  decodeHere(network, y);
}

/** The same at the crank angle that stands in the network. */
export function decodeHere(network: Network, y: Float64Array): void {
  const { kernel } = network;
  if (kernel !== null && y.buffer === kernel.buffer) {
    kernel.decode(y);
    return;
  }
  for (const group of network.nodes) group.decode?.(y);
  for (const group of network.connections) group.decode?.(y);
  kernel?.tell();
}

/** dy/dt of the state that was decoded last. */
export function ratesOfDecoded(network: Network, y: Float64Array, d: Float64Array): void {
  const { kernel } = network;
  if (kernel !== null && y.buffer === kernel.buffer && d.buffer === kernel.buffer) {
    kernel.rates(y, d);
    return;
  }
  d.fill(0);
  for (const group of network.connections) group.addRates?.(y, d);
  for (const group of network.nodes) group.addRates?.(y, d);
}

/** dy/dt of the whole network; `t` [s] counts from crank angle 0. Depends on nothing but time and state until {@link keepStarts}. */
export function rates(network: Network, t: number, y: Float64Array, d: Float64Array): void {
  decode(network, t * network.degreesPerSecond, y);
  ratesOfDecoded(network, y, d);
}

/** Has the next searches start from what those of the last rates found: to be called where a step begins, not within it. */
export function keepStarts(network: Network): void {
  if (network.kernel !== null) {
    network.kernel.keepStarts();
    return;
  }
  for (const group of network.nodes) group.keepStarts?.();
  for (const group of network.connections) group.keepStarts?.();
}

/** Scratch of {@link fastestOfParts}: written and read within one call, never kept. */
const fastest = new Float64Array(2);

/**
 * Fastest rate of any part of the decoded network [1/s].
 *
 * @param settling - how much of the rates counts at which volumes and cylinders settle [-]
 */
export function stiffness(network: Network, settling: number = 1): number {
  const rates = network.kernel?.fastest() ?? fastestOfParts(network);
  return Math.max(rates[FASTEST.wave], settling * rates[FASTEST.settling]);
}

function fastestOfParts(network: Network): Float64Array {
  fastest.fill(0);
  for (const group of network.nodes) group.raiseFastest?.(fastest);
  for (const group of network.connections) group.raiseFastest?.(fastest);
  return fastest;
}

/** False where the last decoded state is not one of a gas: a step was too long. */
export function isSound(network: Network): boolean {
  if (network.kernel !== null) return network.kernel.isSound();
  for (const group of network.nodes) if (group.isSound?.() === false) return false;
  return true;
}

/** What crossed the network's bounds between two states, by the parts' own accounts. */
export function accountOf(network: Network, before: Float64Array, after: Float64Array): Account {
  const account: Account = {
    massIn: 0,
    energyIn: 0,
    massOut: 0,
    energyOut: 0,
    work: 0,
    cylinderHeat: 0,
    ductHeat: 0,
    unreleased: 0,
  };
  for (const group of network.nodes) group.account?.(before, after, account);
  for (const group of network.connections) group.account?.(before, after, account);
  return account;
}
