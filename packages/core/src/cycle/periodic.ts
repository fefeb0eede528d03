/** Cycle after cycle until the cycle repeats. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { renewCopies, weighCopies } from '../network/copiedEnds.ts';
import type { Audit, CycleTotals } from './cycleTotals.ts';
import { auditCycle, cycleTotals, meanPlenum } from './cycleTotals.ts';
import type { CylinderDiary } from './diary.ts';
import type { March } from './march.ts';
import { marchDegrees } from './march.ts';
import { outletGas } from './outletGas.ts';
import { layGrid } from './stepGrid.ts';

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
  /** Steps taken and right-hand sides worked out in all of them. */
  readonly steps: number;
  readonly evaluations: number;
  /** Largest relative change of the last cycle. */
  readonly change: number;
  readonly totals: CycleTotals;
  readonly audit: Audit;
  /** Mean absolute plenum pressure [Pa]. */
  readonly plenumPressure: number;
}

/** Cycles before which the grid of steps is laid anew; it is kept from then on. */
const LAID = 3;
/** Cycles after which copied flows that still change are taken to swing, and the weight of the newest cycle from then on. */
const PATIENCE = 6;
const CALM = 0.7;

/** A look at the engine after a cycle that did not repeat yet; true where it altered something, the timing say. */
export type AfterCycle = (cycle: PeriodicCycle) => boolean;

/**
 * Marches from the state at hand until work, trapped mass and balances repeat. A cycle that does not is a value with
 * `converged` false, never an exception.
 *
 * @param fuelEnergyOf - fuel energy [J] of a mass of mixture [kg]
 * @param afterCycle - called between cycles; a cycle after which it altered something is not the last
 */
export function marchToPeriodic(
  engine: EngineNetwork,
  march: March,
  fuelEnergyOf: (mixture: number) => number,
  options: PeriodicOptions = PERIODIC_DEFAULTS,
  afterCycle: AfterCycle = () => false,
): PeriodicCycle {
  const before = new Float64Array(march.y.length);
  const { steps, evaluations } = march;
  const outside = outletGas(engine, march);
  let result: PeriodicCycle | null = null;
  for (let cycles = 1; cycles <= options.maxCycles; cycles++) {
    before.set(march.y);
    // The rates of a cycle are not known before it was marched, and the first cycles are unlike the rest.
    if (cycles <= LAID) layGrid(march);
    renewCopies(march.network, march.y);
    weighCopies(march.network, cycles > PATIENCE ? CALM : 1);
    const works = march.diaries.map(workOf);
    const masses = march.diaries.map((diary) => diary.trappedMass);
    const plenum = meanPlenum(engine, march);
    marchDegrees(march, 0, 720, (_, h) => {
      plenum.add(h);
      outside.add(h);
    });
    outside.renew();
    let change = 0;
    march.diaries.forEach((diary, i) => {
      for (const ratio of [works[i] / workOf(diary), masses[i] / diary.trappedMass])
        change = Math.max(change, Number.isFinite(ratio) ? Math.abs(ratio - 1) : 1);
    });
    const totals = cycleTotals(engine, march, before);
    const audit = auditCycle(totals, fuelEnergyOf(totals.massIn));
    const worst = Math.max(change, Math.abs(audit.mass), Math.abs(audit.energy));
    result = {
      converged: worst <= options.tolerance,
      cycles,
      steps: march.steps - steps,
      evaluations: march.evaluations - evaluations,
      change,
      totals,
      audit,
      plenumPressure: plenum.mean(),
    };
    if (!Number.isFinite(worst) || (!afterCycle(result) && result.converged)) break;
  }
  if (result === null) throw new RangeError('maxCycles must be 1 or more');
  return result;
}

function workOf(diary: CylinderDiary): number {
  return diary.closedWork + diary.pumpingWork;
}
