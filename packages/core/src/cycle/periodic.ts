/** Cycle after cycle until the cycle repeats. */
import type { EngineNetwork } from '../combination/assemble.ts';
import { renewCopies } from '../network/network.ts';
import type { Audit, CycleTotals } from './cycleTotals.ts';
import { auditCycle, cycleTotals, meanPlenum } from './cycleTotals.ts';
import type { March } from './march.ts';
import { marchDegrees } from './march.ts';

/** When a cycle counts as repeating. */
export interface PeriodicOptions {
  /** Cycles marched at most. */
  readonly maxCycles: number;
  /** Largest change of work and trapped mass from cycle to cycle, and largest imbalance of the audit [-]. */
  readonly tolerance: number;
}

/** Audit within 5e-5, half of what is asked of it; torque then stands to about as much. */
export const PERIODIC_DEFAULTS: PeriodicOptions = { maxCycles: 60, tolerance: 5e-5 };

/** The last cycle marched, and how well it repeats the one before. */
export interface PeriodicCycle {
  readonly converged: boolean;
  /** Cycles marched. */
  readonly cycles: number;
  /** Largest relative change of the last cycle. */
  readonly change: number;
  readonly totals: CycleTotals;
  readonly audit: Audit;
  /** Mean absolute plenum pressure [Pa]. */
  readonly plenumPressure: number;
}

/**
 * Marches from the state at hand until work, trapped mass and balances repeat. A cycle that does not is a value with
 * `converged` false, never an exception.
 *
 * @param fuelEnergyOf - fuel energy [J] of a mass of mixture [kg]
 */
export function marchToPeriodic(
  engine: EngineNetwork,
  march: March,
  fuelEnergyOf: (mixture: number) => number,
  options: PeriodicOptions = PERIODIC_DEFAULTS,
): PeriodicCycle {
  const before = new Float64Array(march.y.length);
  const works = march.diaries.map(() => Number.NaN);
  const masses = march.diaries.map(() => Number.NaN);
  let result: PeriodicCycle | null = null;
  for (let cycle = 1; cycle <= options.maxCycles; cycle++) {
    before.set(march.y);
    renewCopies(march.network, march.y);
    const plenum = meanPlenum(engine, march);
    marchDegrees(march, 0, 720, (_, h) => plenum.add(h));
    let change = 0;
    march.diaries.forEach((diary, i) => {
      const work = diary.closedWork + diary.pumpingWork;
      const changes = [
        Math.abs(work - works[i]) / Math.abs(work),
        Math.abs(diary.trappedMass / masses[i] - 1),
      ];
      for (const c of changes) change = Math.max(change, Number.isFinite(c) ? c : 1);
      works[i] = work;
      masses[i] = diary.trappedMass;
    });
    const totals = cycleTotals(engine, march, before);
    const audit = auditCycle(totals, fuelEnergyOf(totals.massIn));
    const worst = Math.max(change, Math.abs(audit.mass), Math.abs(audit.energy));
    const converged = worst <= options.tolerance;
    result = { converged, cycles: cycle, change, totals, audit, plenumPressure: plenum.mean() };
    if (converged || !Number.isFinite(worst)) break;
  }
  if (result === null) throw new RangeError('maxCycles must be 1 or more');
  return result;
}
