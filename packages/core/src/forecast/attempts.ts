/** A speed marched as asked for and, where that comes to nothing, with every cylinder, then in shorter steps. */
import type { StandingEngine } from '../combination/atSpeed.ts';
import { MARCH_DEFAULTS } from '../cycle/march.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { createSimulation, type Simulation, type SimulationOptions, type SpeedResult } from './simulation.ts';

/** How often a march that lost its way is begun anew, in steps half as long each time. */
const RESTARTS = 3;

/** An engine set up to march in one way. */
interface Attempt {
  readonly options: SimulationOptions;
  /** Set up once, or at every speed where something goes with speed. */
  readonly setUp: (engine: StandingEngine) => Simulation;
}

/** The ways to march a speed, each for where the one before comes to nothing. */
export interface Attempts {
  readonly asked: Attempt;
  /** Copied flows don't settle everywhere (a small merge in resonance); there every cylinder marches. */
  readonly whole: Attempt;
  /** Steps half as long besides, for speeds that gave trouble. */
  readonly careful: Attempt;
}

export function attemptsOf(asked: SimulationOptions): Attempts {
  const whole: SimulationOptions = { ...asked, fidelity: 'all' };
  const usual = asked.march ?? MARCH_DEFAULTS;
  const careful: SimulationOptions = { ...whole, march: { ...usual, courant: usual.courant / 2 } };
  return { asked: attemptOf(asked), whole: attemptOf(whole), careful: attemptOf(careful) };
}

function attemptOf(options: SimulationOptions): Attempt {
  let last: Simulation | null = null;
  const setUp = (engine: StandingEngine): Simulation => {
    if (last?.combination !== engine) last = createSimulation(engine, options, last);
    return last;
  };
  return { options, setUp };
}

/** A speed as well as it can be marched. */
export interface BestAttempt {
  readonly result: SpeedResult;
  readonly tables: GasTables;
  /** One cylinder was asked for, and could not stand for the others. */
  readonly isWhole: boolean;
}

export function bestOfAttempts(
  engine: StandingEngine,
  rpm: number,
  { asked, whole, careful }: Attempts,
): BestAttempt {
  const simulation = asked.setUp(engine);
  let result = simulation.runSpeed(rpm);
  if (isLost(result)) result = begunAnew(engine, asked.options, rpm);
  const isWhole = isUnsettled(result) && asked.options.fidelity === 'representative';
  if (isWhole) result = whole.setUp(engine).runSpeed(rpm);
  if (isUnsettled(result)) {
    const again = careful.setUp(engine).runSpeed(rpm);
    if (!isLost(again)) result = again;
  }
  if (isLost(result)) result = begunAnew(engine, careful.options, rpm);
  return { result, tables: simulation.tables, isWhole };
}

/** Still gas set in motion at full speed can outrun the steps in its first cycle; what follows is then no number. */
function isLost(result: SpeedResult): boolean {
  return !isOverrun(result) && !Number.isFinite(result.cycle.totals.work);
}

/** Cycles did not come to repeat, and something may be done about it. */
function isUnsettled(result: SpeedResult): boolean {
  return !result.cycle.converged && !isOverrun(result);
}

/** Shorter steps, or more cylinders that march, would only take longer. */
function isOverrun({ march }: SpeedResult): boolean {
  return march.overrun !== null;
}

/** The speed from its start again, in shorter and shorter steps; the last attempt stands as it is. */
function begunAnew(combination: StandingEngine, options: SimulationOptions, rpm: number): SpeedResult {
  const march = options.march ?? MARCH_DEFAULTS;
  for (let attempt = 1; ; attempt++) {
    const shorter = { ...march, courant: march.courant / 2 ** attempt };
    const result = createSimulation(combination, { ...options, march: shorter }).runSpeed(rpm);
    if (!isLost(result) || attempt === RESTARTS) return result;
  }
}
