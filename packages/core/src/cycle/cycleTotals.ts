/** What went in and out of the engine over one cycle, and what each cylinder did. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { CYL } from '../network/cylinder.ts';
import { SIDE, TOTAL } from '../network/ductEnd.ts';
import type { March } from './march.ts';

/** Sums over one cycle of the whole engine; energies count formation enthalpies. */
export interface CycleTotals {
  /** Mixture through carburetor or throttle [kg]. */
  readonly massIn: number;
  /** Gas out of the exhaust outlets [kg]. */
  readonly massOut: number;
  /** [J] */
  readonly energyIn: number;
  readonly energyOut: number;
  /** Work on the pistons [J]. */
  readonly work: number;
  /** Heat from cylinder gas to walls, and from duct gas to walls [J]. */
  readonly cylinderHeat: number;
  readonly ductHeat: number;
  /** Chemical energy left unreleased [J]. */
  readonly unreleased: number;
  /** Fresh gas through the intake valves, net [kg]. */
  readonly freshIn: number;
  /** Mean temperature of what passed the intake and the exhaust valve [K]. */
  readonly intakeT: number;
  readonly exhaustT: number;
  /** Mean over the cylinders: work of compression and expansion, of gas exchange [J]; trapped mass [kg], residual [-]. */
  readonly closedWork: number;
  readonly pumpingWork: number;
  readonly trappedMass: number;
  readonly residual: number;
  /** Mean over the cylinders [Pa], [deg]. */
  readonly peakPressure: number;
  readonly peakAngle: number;
  /** Largest autoignition integral of octane number 100 of any cylinder [-]. */
  readonly knock: number;
}

/** @param before - state when the cycle began; the march holds the state at its end */
export function cycleTotals(engine: EngineNetwork, march: March, before: Float64Array): CycleTotals {
  const { network, y, diaries } = march;
  const { weights, cylinderWeight } = engine;
  const change = (offset: number) => y[offset] - before[offset];
  const orifice = (field: number) =>
    network.orifices.reduce((sum, o, i) => sum + weights.orifices[i] * change(o.offset + field), 0);
  const end = (indices: readonly number[], field: number) =>
    indices.reduce((sum, i) => sum + weights.ends[i] * change(network.ends[i].offset + field), 0);
  const cylinder = (field: number) =>
    cylinderWeight * network.cylinders.reduce((sum, c) => sum + change(c.offset + field), 0);
  const mean = (f: (d: (typeof diaries)[number]) => number) =>
    diaries.reduce((s, d) => s + f(d), 0) / diaries.length;
  const { intakeEnds, exhaustEnds, outletEnds } = engine;
  return {
    massIn: orifice(0),
    massOut: end(outletEnds, TOTAL.mass),
    energyIn: orifice(1),
    energyOut: end(outletEnds, TOTAL.energy),
    work: cylinder(CYL.work),
    cylinderHeat: cylinder(CYL.heat),
    ductHeat: -network.ducts.reduce((s, d, i) => s + weights.ducts[i] * change(d.offset + 4 * d.cells), 0),
    unreleased: cylinder(CYL.unreleased),
    freshIn: end(intakeEnds, TOTAL.mass) - end(intakeEnds, TOTAL.burned),
    intakeT: end(intakeEnds, TOTAL.massT) / end(intakeEnds, TOTAL.mass),
    exhaustT: end(exhaustEnds, TOTAL.massT) / end(exhaustEnds, TOTAL.mass),
    closedWork: mean((d) => d.closedWork),
    pumpingWork: mean((d) => d.pumpingWork),
    trappedMass: mean((d) => d.trappedMass),
    residual: mean((d) => d.residual),
    peakPressure: mean((d) => d.peakPressure),
    peakAngle: mean((d) => d.peakAngle),
    knock: diaries.reduce((most, d) => Math.max(most, d.knock), 0),
  };
}

/** Imbalances of a cycle, zero for a perfect periodic cycle [-]. */
export interface Audit {
  /** Mass in less mass out, over mass in. */
  readonly mass: number;
  /** Energy in less energy out, work and heat, over the fuel's energy. */
  readonly energy: number;
}

/** @param fuelEnergy - heating value of the fuel that came in [J] */
export function auditCycle(totals: CycleTotals, fuelEnergy: number): Audit {
  const { massIn, massOut, energyIn, energyOut, work, cylinderHeat, ductHeat, unreleased } = totals;
  return {
    mass: (massIn - massOut) / massIn,
    energy: (energyIn - energyOut - work - cylinderHeat - ductHeat - unreleased) / fuelEnergy,
  };
}

/** Time mean of the absolute pressure in the plenums [Pa]; feed it every accepted step. */
export function meanPlenum(
  engine: EngineNetwork,
  march: March,
): { add: (h: number) => void; mean: () => number } {
  let sum = 0;
  let time = 0;
  const { volumes } = march.network;
  return {
    add: (h) => {
      for (const i of engine.plenums) sum += (h * volumes[i].side[SIDE.p]) / engine.plenums.length;
      time += h;
    },
    mean: () => sum / time,
  };
}
