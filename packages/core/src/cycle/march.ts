/** Marches a network over crank angle, step by step, from one event in a cylinder's life to the next. */
import { CLOCK, CLOCK_SIZE } from '../network/clock.ts';
import { prepareCopies, recordCopies } from '../network/copiedEnds.ts';
import { type FastPart, fastestPart } from '../network/fastestPart.ts';
import type { KernelStep } from '../network/kernelNetwork.ts';
import type { Network } from '../network/network.ts';
import { decodeHere, isSound, keepStarts, ratesOfDecoded } from '../network/network.ts';
import type { Rhs, Stepper, Tableau } from '../numerics/rungeKutta.ts';
import { createStepper, finishStep, SSP2_FOUR, TIME } from '../numerics/rungeKutta.ts';
import type { BurnPlanner, Calendar } from './calendar.ts';
import { calendarOf, meetEvents, shortenForEvents } from './calendar.ts';
import type { CylinderDiary } from './diary.ts';
import { emptyDiary } from './diary.ts';
import type { StepGrid } from './stepGrid.ts';
import { freeGrid, shortenForRates } from './stepGrid.ts';

/** Knobs of the march. */
export interface MarchOptions {
  readonly tableau: Tableau;
  /**
   * Times a signal may cross the shortest cell in a step (Courant number) [-]. Waves grow above about 0.9 with the
   * tableau `SSP2`, above about 2.7 with `SSP2_FOUR`; with the latter limited slopes chatter above about 2, so that a cycle
   * no longer repeats itself.
   */
  readonly courant: number;
  /**
   * How much of the rates counts at which volumes and cylinders settle [-]. The tableau bears several times the steps that 1 makes of
   * them; the rest is for accuracy.
   */
  readonly settling: number;
  /** Largest step [crank deg]; bounds the error of burn and piston motion where no duct does. */
  readonly maxStep: number;
  /** Largest step while a cylinder burns [crank deg]. */
  readonly maxBurnStep: number;
}

/** Halving these moves torque by less than 0.3 %; see the refinement tests. */
export const MARCH_DEFAULTS: MarchOptions = {
  tableau: SSP2_FOUR,
  courant: 1.9,
  settling: 1,
  maxStep: 5,
  maxBurnStep: 5,
};

/**
 * For cycles that are only compared with others marched alike. On a coarse mesh it is the merge and the open cylinder that ask for short
 * steps: a third fewer move torque by 0.1 % where pipes are in tune, and much the same on either side.
 */
export const MARCH_COMPARED: MarchOptions = { ...MARCH_DEFAULTS, settling: 0.6 };

/**
 * Most steps of a march, as a multiple of those of a usual engine: one whose waves cross their cells so many times a second [1/s], as
 * sound does 25 mm of intake at 350 m/s with the stream, or 50 mm of exhaust. The finest pipes of real engines take three times as
 * many; a volume of a few cubic centimetres between pipes would take hundreds, and a forecast of it hours.
 */
export const MOST_TIMES_USUAL = 10;
const USUAL_RATE = 2.5e4;
/** With copies so many times more: their first cycle is cut evenly, into steps as short as the shortest, and a margin. */
const EVEN_STEPS = 2;
/** Fewest steps that are allowed anyhow in a degree [1/deg]. */
const FEWEST = 2;

export interface March {
  readonly network: Network;
  readonly options: MarchOptions;
  readonly stepper: Stepper;
  readonly rhs: Rhs;
  /** Steps in the network's kernel; null where they are left to the stepper. */
  readonly kernelStep: KernelStep | null;
  readonly plan: BurnPlanner;
  /** By cylinder of the network. */
  readonly calendars: readonly Calendar[];
  readonly diaries: readonly CylinderDiary[];
  /** The state, and that before the step at hand. */
  readonly y: Float64Array;
  readonly before: Float64Array;
  readonly grid: StepGrid;
  /** The step under way, see {@link CLOCK}. */
  readonly clock: Float64Array;
  /** Steps taken and right-hand sides worked out since the start. */
  steps: number;
  evaluations: number;
  /** The part that asked for the shortest steps where these were too many to march; null as long as they are not. */
  overrun: FastPart | null;
}

export function createMarch(network: Network, options: MarchOptions, plan: BurnPlanner): March {
  const stepper = createStepper(options.tableau, network.size, network.vector);
  const y = network.vector();
  const { kernel } = network;
  return {
    network,
    options,
    stepper,
    rhs: (t, y, d) => {
      network.crankAngle[0] = t[TIME.stage] * network.degreesPerSecond;
      decodeHere(network, y);
      ratesOfDecoded(network, y, d);
    },
    kernelStep: kernel !== null && y.buffer === kernel.buffer ? kernel.stepsOf(stepper) : null,
    plan,
    calendars: network.cylinders.map((_, i) => calendarOf(network, i)),
    diaries: network.cylinders.map(emptyDiary),
    y,
    before: new Float64Array(network.size),
    grid: freeGrid(options.maxStep),
    clock: new Float64Array(CLOCK_SIZE),
    steps: 0,
    evaluations: 0,
    overrun: null,
  };
}

/** Crank angles that differ by less are the same [deg]. */
const EPSILON = 1e-7;

/**
 * Marches `degrees` of crank angle from `from`; `onStep` sees every accepted step. A march that is lost, since a step was too
 * long or too many are asked for, ends at once with a state that is no number: its cycle then shows what it is.
 */
export function marchDegrees(
  march: March,
  from: number,
  degrees: number,
  onStep?: (theta: number, h: number) => void,
): void {
  const { network, y, clock } = march;
  const end = from + degrees;
  const last = march.steps + mostSteps(march, degrees);
  clock[CLOCK.from] = from;
  network.crankAngle[0] = from;
  decodeHere(network, y);
  while (clock[CLOCK.from] < end - EPSILON) {
    clock[CLOCK.to] = end;
    shortenStep(march);
    if (march.steps >= last) march.overrun = fastestPart(network);
    // Rates that leave no time to march are those of no gas.
    const possible = march.overrun === null && clock[CLOCK.to] > clock[CLOCK.from];
    if (!(possible && takeStep(march))) {
      y.fill(Number.NaN);
      return;
    }
    const altered = meetAllEvents(march);
    if (onStep !== undefined) onStep(clock[CLOCK.to], clock[CLOCK.seconds]);
    if (altered) decodeHere(network, y);
    clock[CLOCK.from] = clock[CLOCK.to];
  }
}

/** Most steps that a march of so many degrees may take, see {@link MOST_TIMES_USUAL}. */
function mostSteps({ network, options, grid }: March, degrees: number): number {
  const usual = ((degrees / network.degreesPerSecond) * USUAL_RATE) / options.courant;
  const times = MOST_TIMES_USUAL * (network.copies.length > 0 ? EVEN_STEPS : 1);
  return times * grid.fineness * usual + FEWEST * degrees;
}

/** Brings the end of the step on the clock back to where rates allow, to the next event at most. */
function shortenStep(march: March): void {
  const { network, options, calendars, clock } = march;
  shortenForRates(march);
  for (let i = 0; i < calendars.length; i++) {
    const cylinder = network.cylinders[i];
    if (cylinder.burning)
      clock[CLOCK.to] = Math.min(clock[CLOCK.to], clock[CLOCK.from] + options.maxBurnStep);
    shortenForEvents(cylinder, calendars[i], clock);
  }
}

/** The step on the clock, from the decoded state to another; false where that is no longer one of a gas. */
function takeStep(march: March): boolean {
  const { network, stepper, kernelStep, y, before, clock } = march;
  clock[CLOCK.speed] = network.degreesPerSecond;
  clock[CLOCK.seconds] = (clock[CLOCK.to] - clock[CLOCK.from]) / clock[CLOCK.speed];
  const copied = network.copies.length > 0;
  if (copied) {
    prepareCopies(network, clock);
    before.set(y);
  }
  const sound = kernelStep === null ? stepHere(march) : kernelStep(y, clock);
  if (!sound) return false;
  if (copied) recordCopies(network, clock, before, y);
  march.steps++;
  march.evaluations += stepper.stages.length;
  return true;
}

/** The same without the kernel. */
function stepHere({ network, stepper, rhs, y, clock }: March): boolean {
  ratesOfDecoded(network, y, stepper.stages[0]);
  keepStarts(network);
  stepper.time[TIME.from] = clock[CLOCK.from] / clock[CLOCK.speed];
  stepper.time[TIME.span] = clock[CLOCK.seconds];
  finishStep(stepper, rhs, y);
  network.crankAngle[0] = clock[CLOCK.to];
  decodeHere(network, y);
  return isSound(network);
}

function meetAllEvents(march: March): boolean {
  const { network, calendars, diaries, y, plan, clock } = march;
  let altered = false;
  for (let i = 0; i < calendars.length; i++)
    if (meetEvents(network.cylinders[i], calendars[i], diaries[i], clock, y, plan)) altered = true;
  return altered;
}
