/** The end of a duct at a node of gas at rest: through a nozzle of fixed area, or through a valve. */
import { BLEND, BLEND_SIZE, blendOfTemperature, frozenR } from '../gas/frozenBlend.ts';
import type { Cylinder } from './cylinder.ts';
import { CYL } from './cylinder.ts';
import type { Duct, DuctEnd } from './duct.ts';
import { FLUX } from './duct.ts';
import { ductFace, END, END_SIZE, NOZZLE, NOZZLE_SIZE, SHUT, solveDuctEnd } from './ductEnd.ts';
import type { NetworkMemory } from './networkMemory.ts';
import type { NodeRef, PartGroup, Site, StillNode, Weighted } from './part.ts';
import { countGiven } from './reservoir.ts';
import { SIDE, SIDE_SIZE } from './side.ts';
import type { Valve } from './valve.ts';
import { LIFTED, liftValve } from './valve.ts';

/** One end of a duct: where it leads and through what. */
export interface EndSpec extends Weighted {
  readonly duct: number;
  readonly at: DuctEnd;
  readonly to: NodeRef;
  /** Fixed effective area [m2], or the valve of a cylinder. `outward`: its usual flow leaves the duct. */
  readonly opening: { readonly area: number } | { readonly valve: Valve; readonly outward: boolean };
  /** Fuel that is no gas in the duct and goes with its fresh gas into the cylinder; left out: none. */
  readonly fuelling?: Fuelling | undefined;
}

/**
 * Fuel that goes with a duct's fresh gas without being part of it: liquid on walls and in drops takes no room, and waves leave it
 * behind.
 */
export interface Fuelling {
  /** Mass of mixture in the cylinder per mass of the duct's fresh gas [-]. */
  readonly gain: number;
  /** Specific enthalpy of the fuel [J/kg]. */
  readonly enthalpy: number;
  /** What boils off the hot valve that it runs along; left out: nothing. */
  readonly boiling?: Boiling | undefined;
}

/** Liquid that boils on hot metal on its way into the cylinder, by the heat of the metal alone. */
export interface Boiling {
  /** Share of the liquid that runs along the metal [-]. */
  readonly wetting: number;
  /** Speed of the crank [rad/s] at which the metal could boil just all of the liquid; at twice the speed it boils half of it. */
  readonly speed: number;
  /** [J/kg] */
  readonly latentHeat: number;
}

/** Offsets of an end's running totals in the state: mass out of the duct, burned mass, energy, mass times temperature. */
export const TOTAL = { mass: 0, burned: 1, energy: 2, massT: 3 } as const;
const END_STATE = 4;

export interface OpenEnd {
  readonly spec: EndSpec;
  readonly duct: Duct;
  readonly node: StillNode;
  /** The node's own `side` and `offset`: read from here, whatever kind of node it is. */
  readonly side: Float64Array;
  readonly target: number;
  readonly energyAt: number;
  readonly burnedAt: number;
  readonly momentumAt: number;
  /** The cylinder whose valve it is, or null. */
  readonly cylinder: Cylinder | null;
  readonly valve: Valve | null;
  readonly offset: number;
  /** All that follows in one piece, as the kernel meets it: {@link END_BLOCK}. */
  readonly block: Float64Array;
  /** See {@link NOZZLE}. */
  readonly nozzle: Float64Array;
  readonly face: Float64Array;
  readonly flow: Float64Array;
  /** Areas of the valve, see {@link LIFTED}. */
  readonly lifted: Float64Array;
  /** Fuel that goes along, see {@link FUEL}. */
  readonly fuel: Float64Array;
}

/** Of the fuel that goes along: share that is still liquid behind the valve, and specific enthalpy [J/kg]. */
const FUEL = { liquid: 0, enthalpy: 1 } as const;

/** Whole numbers at the head of an end's block, four bytes each: addresses [bytes] and places in the state; -1 for none. */
const END_HEAD = {
  duct: 0,
  side: 1,
  opening: 2,
  area: 3,
  against: 4,
  last: 5,
  cells: 6,
  right: 7,
  outward: 8,
  target: 9,
  energyAt: 10,
  burnedAt: 11,
  momentumAt: 12,
  offset: 13,
  liquidAt: 14,
  angle: 15,
} as const;
const END_HEAD_SIZE = 16;
/** Places behind them. A gain of 0 says that no fuel goes along. */
const END_BLOCK = {
  nozzle: 8,
  flow: 13,
  lifted: 18,
  fuel: 20,
  gain: 22,
  step: 24,
  face: 25,
} as const;
const END_BLOCK_SIZE: number = END_BLOCK.face + SIDE_SIZE;

/** @param cylinder - whose valve the end is, where it is one's */
export function createEnd(
  spec: EndSpec,
  { take, memory }: Pick<Site, 'take'> & { readonly memory: NetworkMemory },
  duct: Duct,
  node: StillNode,
  cylinder: Cylinder | null,
): OpenEnd {
  const { opening, fuelling } = spec;
  const block = memory.take(END_BLOCK_SIZE);
  const at = (place: number, size: number): Float64Array => block.subarray(place, place + size);
  const nozzle = at(END_BLOCK.nozzle, NOZZLE_SIZE);
  const fuel = at(END_BLOCK.fuel, 2);
  if ('area' in opening) nozzle[NOZZLE.area] = opening.area;
  nozzle[NOZZLE.ductArea] = duct.faceArea[spec.at === 'right' ? duct.cells : 0];
  if ('area' in opening) node.opening[0] += nozzle[NOZZLE.ductArea];
  fuel[FUEL.liquid] = 1;
  fuel[FUEL.enthalpy] = fuelling?.enthalpy ?? 0;
  block[END_BLOCK.gain] = fuelling?.gain ?? 0;
  const end: OpenEnd = {
    spec,
    duct,
    node,
    side: node.side,
    target: node.offset,
    energyAt: node.energyAt,
    burnedAt: node.burnedAt,
    momentumAt: node.momentumAt,
    cylinder,
    valve: 'valve' in opening ? opening.valve : null,
    offset: take(END_STATE),
    block,
    nozzle,
    face: at(END_BLOCK.face, SIDE_SIZE),
    flow: at(END_BLOCK.flow, END_SIZE),
    lifted: at(END_BLOCK.lifted, 2),
    fuel,
  };
  writeHead(end, memory);
  return end;
}

/** What the kernel has to know of an end. */
function writeHead(end: OpenEnd, { addressOf }: NetworkMemory): void {
  const { spec, duct, node, valve, block } = end;
  const head = new Int32Array(block.buffer, block.byteOffset, END_HEAD_SIZE);
  head[END_HEAD.duct] = addressOf(duct.block);
  head[END_HEAD.side] = addressOf(node.side);
  head[END_HEAD.cells] = duct.cells;
  head[END_HEAD.right] = spec.at === 'right' ? 1 : 0;
  head[END_HEAD.target] = node.offset;
  head[END_HEAD.energyAt] = node.energyAt;
  head[END_HEAD.burnedAt] = node.burnedAt;
  head[END_HEAD.momentumAt] = node.momentumAt;
  head[END_HEAD.offset] = end.offset;
  head[END_HEAD.liquidAt] = node.offset + CYL.liquid;
  head[END_HEAD.area] = -1;
  if (valve === null) return;
  head[END_HEAD.opening] = addressOf(node.opening);
  head[END_HEAD.area] = addressOf(valve.area);
  head[END_HEAD.against] = addressOf(valve.against);
  head[END_HEAD.last] = valve.area.length - 2;
  head[END_HEAD.outward] = 'valve' in spec.opening && spec.opening.outward ? 1 : 0;
  block[END_BLOCK.step] = valve.step;
}

/** Tells the kernel where the angle of the end's cylinder stands [bytes]. */
export function followAngle({ block }: OpenEnd, address: number): void {
  new Int32Array(block.buffer, block.byteOffset, END_HEAD_SIZE)[END_HEAD.angle] = address;
}

/** Opens a valve as far as the decoded angle has it. */
function decodeValve({ valve, lifted, nozzle }: OpenEnd, cylinder: Cylinder): void {
  if (valve === null) return;
  liftValve(valve, cylinder.now, lifted);
  nozzle[NOZZLE.area] = lifted[LIFTED.along];
  if (lifted[LIFTED.along] > SHUT) cylinder.opening[0] += nozzle[NOZZLE.ductArea];
}

/** Boils of the fuel that goes along what the metal can at the cylinder's speed. */
export function boilFilm({ spec: { fuelling }, fuel, cylinder }: OpenEnd): void {
  if (fuelling?.boiling === undefined || cylinder === null) return;
  const { enthalpy, boiling } = fuelling;
  const boiled = Math.min(boiling.wetting, boiling.speed / cylinder.speed);
  fuel[FUEL.liquid] = 1 - boiled;
  fuel[FUEL.enthalpy] = enthalpy + boiled * boiling.latentHeat;
}

/** Area of an open valve for the way the gas is about to take. */
function turnValve({ spec, duct, side, face, lifted, nozzle }: OpenEnd): void {
  if (!('valve' in spec.opening)) return;
  const c = duct.c[spec.at === 'right' ? duct.cells - 1 : 0];
  const leaves = face[SIDE.p] + face[SIDE.rho] * face[SIDE.w] * c > side[SIDE.p];
  nozzle[NOZZLE.area] = lifted[leaves === spec.opening.outward ? LIFTED.along : LIFTED.against];
}

/** Scratch of {@link leaveFuelBehind}: written and read within one call, never kept. */
const blend = new Float64Array(BLEND_SIZE);

/** Gas on its way back from the cylinder, made what the duct holds: the fuel that is none of the duct's gas stays out of it. */
function leaveFuelBehind({ duct: { tables }, side, flow }: OpenEnd, { gain }: Fuelling): void {
  const burned = flow[END.burned];
  const mass = burned + (flow[END.mass] - burned) / gain;
  blend[BLEND.T] = side[SIDE.T];
  blend[BLEND.b] = burned / mass;
  blendOfTemperature(tables, blend);
  flow[END.mass] = mass;
  flow[END.energy] = mass * (blend[BLEND.u] + frozenR(tables, blend[BLEND.b]) * side[SIDE.T]);
}

function connectEnd(end: OpenEnd, d: Float64Array): void {
  const { spec, duct, side, target, valve, flow, face, nozzle, offset } = end;
  ductFace(duct, spec.at, face);
  if (valve !== null && nozzle[NOZZLE.area] > 0) turnValve(end);
  solveDuctEnd(face, side, nozzle, flow);
  if (spec.fuelling !== undefined && flow[END.mass] < 0) leaveFuelBehind(end, spec.fuelling);
  const mass = flow[END.mass];
  const burned = flow[END.burned];
  const energy = flow[END.energy];
  const flux = spec.at === 'right' ? duct.right : duct.left;
  const sign = spec.at === 'right' ? 1 : -1;
  flux[FLUX.mass] = sign * mass;
  flux[FLUX.momentum] = flow[END.force];
  flux[FLUX.energy] = sign * energy;
  flux[FLUX.burned] = sign * burned;
  if (target >= 0) {
    d[target] += mass;
    d[end.energyAt] += energy;
    d[end.burnedAt] += burned;
    // What leaves a stream takes its momentum along; what enters through the side brings none.
    if (mass < 0 && end.momentumAt >= 0) d[end.momentumAt] += mass * side[SIDE.w];
    if (spec.fuelling !== undefined) {
      const fuel = (spec.fuelling.gain - 1) * (mass - burned);
      d[target] += fuel;
      d[end.energyAt] += fuel * end.fuel[FUEL.enthalpy];
      // What goes back is vapour, and counts as fuel again when its air returns.
      if (fuel > 0) d[target + CYL.liquid] += fuel * end.fuel[FUEL.liquid];
    }
  }
  d[offset + TOTAL.mass] += mass;
  d[offset + TOTAL.burned] += burned;
  d[offset + TOTAL.energy] += energy;
  d[offset + TOTAL.massT] += mass * (mass > 0 ? face[SIDE.T] : side[SIDE.T]);
}

export function endGroup(ends: readonly OpenEnd[]): PartGroup {
  return {
    decode() {
      for (const end of ends) if (end.cylinder !== null) decodeValve(end, end.cylinder);
    },
    addRates(_y, d) {
      for (const end of ends) connectEnd(end, d);
    },
    keepStarts() {
      for (const { nozzle, flow } of ends) nozzle[NOZZLE.start] = flow[END.speed];
    },
    account(before, after, account) {
      for (const { spec, node, offset, fuel: along } of ends) {
        const { weight = 1 } = spec;
        const mass = after[offset + TOTAL.mass] - before[offset + TOTAL.mass];
        const energy = after[offset + TOTAL.energy] - before[offset + TOTAL.energy];
        countGiven(node, -weight * mass, -weight * energy, account);
        if (spec.fuelling === undefined) continue;
        const burned = after[offset + TOTAL.burned] - before[offset + TOTAL.burned];
        const fuel = weight * (spec.fuelling.gain - 1) * (mass - burned);
        account.massIn += fuel;
        account.energyIn += fuel * along[FUEL.enthalpy];
      }
    },
  };
}
