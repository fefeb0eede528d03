/** What went in and out of the engine over one cycle, and what each cylinder did. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { accountOf } from '../network/network.ts';
import { TOTAL } from '../network/openEnd.ts';
import type { Account } from '../network/part.ts';
import { SIDE } from '../network/side.ts';
import type { March } from './march.ts';

/** One marching cylinder over a cycle. */
export interface CylinderTotals {
  /** Fresh gas through its intake valves, net [kg]. */
  readonly freshIn: number;
  /** Mean temperature of what passed its exhaust valves [K]. */
  readonly exhaustT: number;
  /** Work of compression and expansion, of gas exchange [J]. */
  readonly closedWork: number;
  readonly pumpingWork: number;
  /** Residual [-], highest pressure [Pa]. */
  readonly residual: number;
  readonly peakPressure: number;
}

/** Sums over one cycle of the whole engine. */
export interface CycleTotals extends Readonly<Account> {
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
  /** Fuel of cylinders whose mixture is their own, beyond that of the mean [kg]. */
  readonly fuelAdded: number;
  /** Mass that came of such cylinders changing their gas [kg]. */
  readonly massGained: number;
  /** In the order they march. */
  readonly cylinders: readonly CylinderTotals[];
}

/** @param before - state when the cycle began; the march holds the state at its end */
export function cycleTotals(engine: EngineNetwork, march: March, before: Float64Array): CycleTotals {
  const { network, y, diaries } = march;
  const { intakeEnds, exhaustEnds } = engine;
  const alone = (end: number, field: number) => {
    const { offset } = network.ends[end];
    return y[offset + field] - before[offset + field];
  };
  const through = (indices: readonly number[], field: number) =>
    indices.reduce((sum, i) => sum + (network.ends[i].spec.weight ?? 1) * alone(i, field), 0);
  // With the fuel that goes along as liquid, the same at every intake valve.
  const gain = network.ends[intakeEnds[0]].spec.fuelling?.gain ?? 1;
  const mean = (f: (d: (typeof diaries)[number]) => number) =>
    diaries.reduce((s, d) => s + f(d), 0) / diaries.length;
  return {
    ...accountOf(network, before, y),
    freshIn: gain * (through(intakeEnds, TOTAL.mass) - through(intakeEnds, TOTAL.burned)),
    intakeT: through(intakeEnds, TOTAL.massT) / through(intakeEnds, TOTAL.mass),
    exhaustT: through(exhaustEnds, TOTAL.massT) / through(exhaustEnds, TOTAL.mass),
    closedWork: mean((d) => d.closedWork),
    pumpingWork: mean((d) => d.pumpingWork),
    trappedMass: mean((d) => d.trappedMass),
    residual: mean((d) => d.residual),
    peakPressure: mean((d) => d.peakPressure),
    peakAngle: mean((d) => d.peakAngle),
    knock: diaries.reduce((most, d) => Math.max(most, d.knock), 0),
    fuelAdded: diaries.reduce((sum, d) => sum + d.fuelAdded, 0),
    massGained: diaries.reduce((sum, d) => sum + d.fuelAdded + d.massGained, 0),
    cylinders: diaries.map(({ closedWork, pumpingWork, residual, peakPressure }, i) => ({
      freshIn: gain * (alone(intakeEnds[i], TOTAL.mass) - alone(intakeEnds[i], TOTAL.burned)),
      exhaustT: alone(exhaustEnds[i], TOTAL.massT) / alone(exhaustEnds[i], TOTAL.mass),
      closedWork,
      pumpingWork,
      residual,
      peakPressure,
    })),
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
  const { massIn, massGained, massOut, energyIn, energyOut, work, cylinderHeat, ductHeat, unreleased } =
    totals;
  return {
    mass: (massIn + massGained - massOut) / massIn,
    energy: (energyIn - energyOut - work - cylinderHeat - ductHeat - unreleased) / fuelEnergy,
  };
}

/** Time mean of the absolute pressure in the plenums, or behind throttles of the runners [Pa]; feed it every accepted step. */
export function meanPlenum(
  engine: EngineNetwork,
  march: March,
): { add: (h: number) => void; mean: () => number } {
  let sum = 0;
  let time = 0;
  const { volumes, ducts } = march.network;
  const { plenums, gauges } = engine;
  const count = gauges.length > 0 ? gauges.length : plenums.length;
  return {
    add: (h) => {
      if (gauges.length > 0) for (const { duct, cell } of gauges) sum += (h * ducts[duct].p[cell]) / count;
      else for (const i of plenums) sum += (h * volumes[i].side[SIDE.p]) / count;
      time += h;
    },
    mean: () => sum / time,
  };
}
