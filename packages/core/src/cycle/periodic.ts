/** Cycle after cycle until the cycle repeats. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { renewCopies } from '../network/copiedEnds.ts';
import type { Audit, CycleTotals } from './cycleTotals.ts';
import { auditCycle, cycleTotals, meanPlenum } from './cycleTotals.ts';
import type { CylinderDiary } from './diary.ts';
import { isStuck } from './isStuck.ts';
import type { March } from './march.ts';
import { marchDegrees } from './march.ts';
import { type CycleFigures, meanOfCycles } from './meanCycle.ts';
import { type OutletGas, outletGas } from './outletGas.ts';
import { quickener } from './quicken.ts';
import { halveSteps, layGrid } from './stepGrid.ts';

/** When a cycle counts as repeating. */
export interface PeriodicOptions {
  /** Cycles marched at most. */
  readonly maxCycles: number;
  /** Largest change of work and trapped mass from cycle to cycle, and largest imbalance of the audit [-]. */
  readonly tolerance: number;
  /** Largest change of work and trapped mass over a cycle in steps half as long [-]; infinite: not tried. Default {@link STEP_TOLERANCE}. */
  readonly stepTolerance?: number;
}

/**
 * What one cycle changes is a half or a third of what the repeated cycle is off by, since cycles hand most of it on: torque
 * then stands to about 0.1 %.
 */
const STEP_TOLERANCE = 3e-4;
/** Most times that steps are halved. */
const MOST_HALVINGS = 3;

/** Audit within 5e-5, half of what is asked of it; torque then stands to about as much. */
export const PERIODIC_DEFAULTS: PeriodicOptions = { maxCycles: 60, tolerance: 5e-5 };

/** For cycles that are only compared with others marched alike: ten times the tolerance moves work by less than 0.05 %, by 0.01 % at most speeds. */
export const PERIODIC_COMPARED: PeriodicOptions = {
  maxCycles: 60,
  tolerance: 5e-4,
  stepTolerance: Number.POSITIVE_INFINITY,
};

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
  /** Largest relative change over one more cycle in steps half as long, the last tried [-]; null where that was not. */
  readonly stepError: number | null;
  /** Of the last cycle; where it does not repeat, means over the last {@link PeriodicCycle.averaged}. */
  readonly totals: CycleTotals;
  readonly audit: Audit;
  /** Mean absolute plenum pressure [Pa]. */
  readonly plenumPressure: number;
  /** Cycles that the figures are means of: 1 where the cycle repeats. */
  readonly averaged: number;
  /** One standard deviation of work from cycle to cycle over its two parts [-]; 0 where the cycle repeats. */
  readonly scatter: number;
}

/**
 * Share of the tolerance that is asked of copies [-]: they hand on half of what a cycle is off by, so that it is off by as much as it
 * changes. Work then stands to 1e-5, as it does where all cylinders march.
 */
const COPIED_SHARE = 0.5;

/** Cycles that are averaged where they don't repeat, and at most this share of all: the first are on their way. */
const AVERAGED = 20;
const AVERAGED_SHARE = 1 / 3;

/** Cycles before which the grid of steps is laid anew; it is kept from then on. */
const LAID = 3;
/** A cycle that was altered after so large a change tells nothing of those to come [-]. */
const UNLIKE = 2e-2;

/** First cycles, in which copies may come no closer yet. */
const PATIENCE = 6;

/** A look at the engine after a cycle that did not repeat yet; true where it altered something, the timing say. */
export type AfterCycle = (cycle: PeriodicCycle) => boolean;

/**
 * Marches from the state at hand until work, trapped mass and balances repeat, and steps half as long change little. A cycle that
 * does not repeat is a value with `converged` false, never an exception; its figures are then means over many, with their scatter.
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
  const { maxCycles, tolerance, stepTolerance = STEP_TOLERANCE } = options;
  const { steps, evaluations } = march;
  const copied = march.network.copies.length > 0;
  const asked = (copied ? COPIED_SHARE : 1) * tolerance;
  const next = cycleMarcher(engine, march, fuelEnergyOf);
  const quick = quickener(march, next.outside);
  let result: PeriodicCycle | null = null;
  // A cycle that repeats, while the next is marched in steps half as long.
  let tried: PeriodicCycle | null = null;
  let halvings = 0;
  const recent: CycleFigures[] = [];
  const worsts: number[] = [];
  for (let cycles = 1; cycles <= maxCycles * (1 + halvings); cycles++) {
    // The rates of a cycle are not known before it was marched, and the first cycles are unlike the rest.
    if (cycles <= LAID) layGrid(march);
    const { worst, ...marched } = next.march();
    const spent = { cycles, steps: march.steps - steps, evaluations: march.evaluations - evaluations };
    if (tried !== null) {
      if (!(marched.change > stepTolerance) || !Number.isFinite(worst))
        return { ...tried, ...spent, stepError: marched.change };
      tried = null;
      // Shorter steps are the beginning of another way: what copies did before tells nothing of it.
      quick.forget();
      worsts.length = 0;
      continue;
    }
    result = {
      converged: worst <= asked,
      ...spent,
      ...marched,
      stepError: null,
      averaged: 1,
      scatter: 0,
    };
    recent.push(result);
    if (recent.length > AVERAGED) recent.shift();
    if (!Number.isFinite(worst)) break;
    worsts.push(worst);
    if (!result.converged && copied && isStuck(worsts, PATIENCE)) break;
    const again = afterCycle(result);
    if (again || !result.converged) {
      // Records of copies can be told apart once the grid that cuts them is laid for good.
      if ((again && result.change > UNLIKE) || (copied && cycles <= LAID)) quick.forget();
      else quick.look(next.before);
      continue;
    }
    if (halvings === MOST_HALVINGS || stepTolerance === Number.POSITIVE_INFINITY) break;
    halvings++;
    tried = result;
    halveSteps(march.grid);
  }
  if (result === null) throw new RangeError('maxCycles must be 1 or more');
  return result.converged || !Number.isFinite(result.totals.work)
    ? result
    : meanOfMany(result, recent, fuelEnergyOf);
}

/** What one more cycle came to, beside the one before. */
interface MarchedCycle extends Pick<PeriodicCycle, 'change' | 'totals' | 'audit' | 'plenumPressure'> {
  /** Its change, or an imbalance where that is larger. */
  readonly worst: number;
}

interface CycleMarcher {
  /** Marches the next cycle from the state at hand. */
  readonly march: () => MarchedCycle;
  /** The state that it began with. */
  readonly before: Float64Array;
  readonly outside: OutletGas;
}

function cycleMarcher(
  engine: EngineNetwork,
  march: March,
  fuelEnergyOf: (mixture: number) => number,
): CycleMarcher {
  const before = new Float64Array(march.y.length);
  const outside = outletGas(engine, march);
  return {
    before,
    outside,
    march: () => {
      before.set(march.y);
      renewCopies(march.network, march.y);
      const last = march.diaries.map((diary) => ({ work: workOf(diary), mass: diary.trappedMass }));
      const plenum = meanPlenum(engine, march);
      marchDegrees(march, 0, 720, (_, h) => {
        plenum.add(h);
        outside.add(h);
      });
      outside.renew();
      const change = changeSince(last, march.diaries);
      const totals = cycleTotals(engine, march, before);
      const audit = auditCycle(totals, fuelEnergyOf(totals.massIn));
      const worst = Math.max(change, Math.abs(audit.mass), Math.abs(audit.energy));
      return { change, totals, audit, plenumPressure: plenum.mean(), worst };
    },
  };
}

/** Largest change of a cylinder's work or trapped mass since the cycle before [-]; 1 where that is no number. */
function changeSince(
  last: readonly { readonly work: number; readonly mass: number }[],
  diaries: readonly CylinderDiary[],
): number {
  let change = 0;
  diaries.forEach((diary, i) => {
    // Net work may be next to nothing; its parts are not.
    const parts = Math.abs(diary.closedWork) + Math.abs(diary.pumpingWork);
    for (const moved of [(workOf(diary) - last[i].work) / parts, last[i].mass / diary.trappedMass - 1])
      change = Math.max(change, Number.isFinite(moved) ? Math.abs(moved) : 1);
  });
  return change;
}

function workOf(diary: CylinderDiary): number {
  return diary.closedWork + diary.pumpingWork;
}

/** Of a cycle that does not repeat, means over the last ones. */
function meanOfMany(
  result: PeriodicCycle,
  recent: readonly CycleFigures[],
  fuelEnergyOf: (mixture: number) => number,
): PeriodicCycle {
  const most = Math.max(1, Math.floor(AVERAGED_SHARE * result.cycles));
  const { of, scatter, totals, plenumPressure } = meanOfCycles(recent.slice(-most));
  const audit = auditCycle(totals, fuelEnergyOf(totals.massIn));
  return { ...result, totals, audit, plenumPressure, averaged: of, scatter };
}
