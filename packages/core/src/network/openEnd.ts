/** The end of a duct at a node of gas at rest: through a nozzle of fixed area, or through a valve. */
import { BLEND, BLEND_SIZE, blendOfTemperature, frozenR } from '../gas/frozenBlend.ts';
import type { Cylinder } from './cylinder.ts';
import { CYL } from './cylinder.ts';
import type { Duct, DuctEnd } from './duct.ts';
import { FLUX } from './duct.ts';
import { ductFace, END, END_SIZE, NOZZLE, NOZZLE_SIZE, SHUT, solveDuctEnd } from './ductEnd.ts';
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
  /** Areas of the valve, see {@link LIFTED}. */
  readonly lifted: Float64Array;
  readonly offset: number;
  /** See {@link NOZZLE}. */
  readonly nozzle: Float64Array;
  readonly face: Float64Array;
  readonly flow: Float64Array;
  /** Fuel that goes along, see {@link FUEL}. */
  readonly fuel: Float64Array;
}

/** Of the fuel that goes along: share that is still liquid behind the valve, and specific enthalpy [J/kg]. */
const FUEL = { liquid: 0, enthalpy: 1 } as const;

/** @param cylinder - whose valve the end is, where it is one's */
export function createEnd(
  spec: EndSpec,
  { take }: Site,
  duct: Duct,
  node: StillNode,
  cylinder: Cylinder | null,
): OpenEnd {
  const nozzle = new Float64Array(NOZZLE_SIZE);
  if ('area' in spec.opening) nozzle[NOZZLE.area] = spec.opening.area;
  nozzle[NOZZLE.ductArea] = duct.faceArea[spec.at === 'right' ? duct.cells : 0];
  if ('area' in spec.opening) node.opening[0] += nozzle[NOZZLE.ductArea];
  return {
    spec,
    duct,
    node,
    side: node.side,
    target: node.offset,
    energyAt: node.energyAt,
    burnedAt: node.burnedAt,
    momentumAt: node.momentumAt,
    cylinder,
    valve: 'valve' in spec.opening ? spec.opening.valve : null,
    lifted: new Float64Array(2),
    offset: take(END_STATE),
    nozzle,
    face: new Float64Array(SIDE_SIZE),
    flow: new Float64Array(END_SIZE),
    fuel: Float64Array.of(1, spec.fuelling?.enthalpy ?? 0),
  };
}

/** Opens a valve as far as the decoded angle has it. */
function decodeValve(end: OpenEnd, cylinder: Cylinder): void {
  const { spec, valve, lifted, nozzle } = end;
  if (valve === null) return;
  liftValve(valve, cylinder.now, lifted);
  if (spec.fuelling !== undefined) boilFilm(end, spec.fuelling, cylinder);
  nozzle[NOZZLE.area] = lifted[LIFTED.along];
  if (lifted[LIFTED.along] > SHUT) cylinder.opening[0] += nozzle[NOZZLE.ductArea];
}

/** Boils what the metal can at the present speed. */
function boilFilm({ fuel }: OpenEnd, { enthalpy, boiling }: Fuelling, { speed }: Cylinder): void {
  if (boiling === undefined) return;
  const boiled = Math.min(boiling.wetting, boiling.speed / speed);
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
