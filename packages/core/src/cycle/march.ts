/** Marches a network over crank angle, step by step, cut at valve events and at the ends of the burn. */
import { prepareCopies, recordCopies, setBins } from '../network/copiedEnds.ts';
import type { BurnLaw, Cylinder } from '../network/cylinder.ts';
import { CYL, endBurn, KNOCK_SHARE, localAngle, startBurn } from '../network/cylinder.ts';
import { SIDE } from '../network/ductEnd.ts';
import type { Network } from '../network/network.ts';
import { decode, isSound, rates, stiffness } from '../network/network.ts';
import type { Rhs, Stepper, Tableau } from '../numerics/rungeKutta.ts';
import { createStepper, SSP2_FOUR, step } from '../numerics/rungeKutta.ts';
import { wiebeShareNormalised } from '../processes/wiebe.ts';

/** Knobs of the march. */
export interface MarchOptions {
  readonly tableau: Tableau;
  /**
   * Times a signal may cross the shortest cell in a step (Courant number) [-]. Waves grow above about 0.9 with the
   * tableau `SSP2`, above about 2.7 with `SSP2_FOUR`; with the latter limited slopes chatter above about 2, so that a cycle
   * no longer repeats itself.
   */
  readonly courant: number;
  /** Largest step [crank deg]; bounds the error of burn and piston motion where no duct does. */
  readonly maxStep: number;
  /** Largest step while a cylinder burns [crank deg]. */
  readonly maxBurnStep: number;
}

/** Halving these moves torque by less than 0.3 %; see the refinement tests. */
export const MARCH_DEFAULTS: MarchOptions = { tableau: SSP2_FOUR, courant: 1.9, maxStep: 5, maxBurnStep: 5 };

/** A grid is laid for the fastest moment of a cycle; for a moment the Courant number may be this much larger [-]. */
const FASTEST_MOMENT = 1.16;
/** A grid laid for a Courant number holds while the number stays within this share above it [-]. */
const LEEWAY = 0.06;
/** Shortest step that ducts and volumes of an engine can ask for [crank deg]: cells of a millimetre at 100 rpm bear a hundred times it. */
const SHORTEST = 1e-5;
/** Fastest rate of a running engine over that of still gas, for the grid of the first cycle [-]. */
const FIRST_GUESS = 1.5;

/** Crank angles after firing top centre at which a cylinder's life changes [deg], -360 to 360. */
export interface Calendar {
  readonly exhaustOpens: number;
  readonly intakeCloses: number;
}

/** What is known of a cylinder from its own events of the last 720 degrees. */
export interface CylinderDiary {
  /** Piston work up to the bottom centres before and after firing [J], running totals. */
  workBeforeCompression: number;
  workAfterExpansion: number;
  /** Work of the last compression and expansion, and of the last gas exchange [J]. */
  closedWork: number;
  pumpingWork: number;
  /** Mass and burned share when the intake valve closed [kg], [-]. */
  trappedMass: number;
  residual: number;
  closingPressure: number;
  closingTemperature: number;
  /** Internal energy when the intake valve closed [J]. */
  closingEnergy: number;
  /** Autoignition integral of octane number 100 when the burn ended. */
  knock: number;
  /** Of the last expansion that ended [Pa], [deg after firing top centre]. */
  peakPressure: number;
  peakAngle: number;
  /** Of the expansion under way. */
  risingPressure: number;
  risingAngle: number;
}

/** Called when a cylinder's intake valve has closed: may set the law of the burn to come. */
export type BurnPlanner = (cylinder: Cylinder, diary: CylinderDiary) => void;

export interface March {
  readonly network: Network;
  readonly options: MarchOptions;
  readonly stepper: Stepper;
  readonly y: Float64Array;
  readonly before: Float64Array;
  readonly calendars: readonly Calendar[];
  readonly diaries: readonly CylinderDiary[];
  readonly plan: BurnPlanner;
  readonly rhs: Rhs;
  /** Steps taken since the start. */
  steps: number;
  /** Fastest rate met since the grid was laid [1/s], see {@link stiffness}. */
  fastest: number;
  /** Crank degrees at whose multiples steps end, where copies want it; 720: free. */
  bin: number;
}

export function createMarch(network: Network, options: MarchOptions, plan: BurnPlanner): March {
  return {
    network,
    options,
    stepper: createStepper(options.tableau, network.size),
    y: new Float64Array(network.size),
    before: new Float64Array(network.size),
    calendars: network.cylinders.map((_, i) => calendarOf(network, i)),
    diaries: network.cylinders.map(() => ({
      workBeforeCompression: 0,
      workAfterExpansion: 0,
      closedWork: 0,
      pumpingWork: 0,
      trappedMass: 0,
      residual: 0,
      closingPressure: 0,
      closingTemperature: 0,
      closingEnergy: 0,
      knock: 0,
      peakPressure: 0,
      peakAngle: 0,
      risingPressure: 0,
      risingAngle: 0,
    })),
    plan,
    rhs: (t, y, d) => rates(network, t, y, d),
    steps: 0,
    fastest: 0,
    bin: 720,
  };
}

function calendarOf(network: Network, index: number): Calendar {
  let exhaustOpens = 180;
  let intakeCloses = -180;
  for (const { spec } of network.ends) {
    if (spec.to.kind !== 'cylinder' || spec.to.index !== index || !('valve' in spec.opening)) continue;
    if (spec.opening.outward) intakeCloses = spec.opening.valve.closes - 720;
    else exhaustOpens = spec.opening.valve.opens;
  }
  return { exhaustOpens, intakeCloses };
}

const EPSILON = 1e-7;

/**
 * Lays the steps on a grid where cylinders are copied, so that what is recorded on the grid is recalled exactly: a whole
 * number of bins in every delay, as wide as the fastest rate since the last call allows. Call it after the speed is set
 * and again where rates have changed.
 */
export function alignSteps(march: March): void {
  const { network, options, y } = march;
  if (network.copies.length === 0) return;
  if (march.fastest === 0) {
    decode(network, 0, y);
    march.fastest = FIRST_GUESS * stiffness(network);
  }
  const span = Math.min(
    options.maxStep,
    (FASTEST_MOMENT * options.courant * network.degreesPerSecond) / march.fastest,
  );
  march.fastest = 0;
  const delays = network.copies.flatMap((c) => c.spec.delays);
  const common = delays.every(Number.isInteger) ? delays.reduce(greatestDivisor, 720) : 3;
  const bins = (720 / common) * Math.ceil(common / span);
  march.bin = 720 / bins;
  setBins(network, bins);
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/**
 * Marches `degrees` of crank angle from `from`; `onStep` sees every accepted step. A march that is lost, since a step was too
 * long, ends at once with a state that is no number: its cycle then shows what it is.
 */
export function marchDegrees(
  march: March,
  from: number,
  degrees: number,
  onStep?: (theta: number, h: number) => void,
): void {
  const { network, options, y, before, stepper } = march;
  const speed = network.degreesPerSecond;
  const end = from + degrees;
  const courant = options.courant * (march.bin < 720 ? FASTEST_MOMENT * (1 + LEEWAY) : 1);
  let theta = from;
  decode(network, theta, y);
  network.decoded = true;
  while (theta < end - EPSILON) {
    const rate = stiffness(network);
    if (rate > march.fastest) march.fastest = rate;
    let span = Math.min(options.maxStep, (courant * speed) / rate);
    // Rates that leave no time to march are those of no gas.
    if (!(span > SHORTEST)) {
      network.decoded = false;
      y.fill(Number.NaN);
      return;
    }
    const edge = Math.min(end, (Math.floor(theta / march.bin + 1e-6) + 1) * march.bin);
    span = (edge - theta) / Math.max(1, Math.ceil((edge - theta) / span - 1e-6));
    for (let i = 0; i < network.cylinders.length; i++) {
      const cylinder = network.cylinders[i];
      if (cylinder.burning) span = Math.min(span, options.maxBurnStep);
      span = Math.min(span, nextEvent(march, i, localAngle(cylinder, theta)));
    }
    const h = span / speed;
    prepareCopies(network, theta, theta + span, h);
    if (network.copies.length > 0) before.set(y);
    step(stepper, march.rhs, theta / speed, h, y);
    decode(network, theta + span, y);
    if (!isSound(network)) {
      y.fill(Number.NaN);
      return;
    }
    network.decoded = true;
    recordCopies(network, theta, theta + span, before, y);
    theta += span;
    march.steps++;
    for (let i = 0; i < network.cylinders.length; i++) {
      if (handleEvents(march, i, theta)) network.decoded = false;
    }
    if (onStep !== undefined) onStep(theta, h);
  }
  network.decoded = false;
}

/** Degrees to a cylinder's next event. */
function nextEvent(march: March, i: number, angle: number): number {
  const { burn } = march.network.cylinders[i];
  const { exhaustOpens, intakeCloses } = march.calendars[i];
  let least = ahead(exhaustOpens, angle);
  least = Math.min(least, ahead(intakeCloses, angle), ahead(180, angle), ahead(-180, angle));
  least = Math.min(least, ahead(Math.max(burn.start, intakeCloses), angle));
  if (march.network.cylinders[i].endGas) least = Math.min(least, ahead(endGasGone(burn), angle));
  return Math.min(least, ahead(Math.min(burn.start + burn.duration, exhaustOpens), angle));
}

/** Angle from which on end gas is too little to ring [deg after firing top centre]. */
function endGasGone(burn: BurnLaw): number {
  return burn.start + burn.duration * wiebeShareNormalised(KNOCK_SHARE, burn.a, burn.m);
}

/** Degrees from `angle` forward to `event`, above zero. */
function ahead(event: number, angle: number): number {
  let d = (event - angle) % 720;
  if (d <= EPSILON) d += 720;
  return d <= EPSILON ? 720 : d;
}

function near(a: number, b: number): boolean {
  const d = Math.abs(a - b) % 720;
  return d < 2 * EPSILON || d > 720 - 2 * EPSILON;
}

/** @returns whether an event altered what the state decodes to */
function handleEvents(march: March, i: number, theta: number): boolean {
  const { network, y } = march;
  const cylinder = network.cylinders[i];
  const diary = march.diaries[i];
  const { exhaustOpens, intakeCloses } = march.calendars[i];
  const angle = localAngle(cylinder, theta);
  const o = cylinder.offset;
  let altered = false;
  if (cylinder.firing && cylinder.side[SIDE.p] > diary.risingPressure) {
    diary.risingPressure = cylinder.side[SIDE.p];
    diary.risingAngle = angle;
  }
  if (near(angle, 180)) {
    diary.workAfterExpansion = y[o + CYL.work];
    diary.closedWork = diary.workAfterExpansion - diary.workBeforeCompression;
  }
  if (near(angle, -180)) {
    diary.workBeforeCompression = y[o + CYL.work];
    diary.pumpingWork = diary.workBeforeCompression - diary.workAfterExpansion;
  }
  if (near(angle, intakeCloses)) {
    diary.trappedMass = y[o + CYL.mass];
    diary.residual = y[o + CYL.burned] / y[o + CYL.mass];
    diary.closingPressure = cylinder.side[SIDE.p];
    diary.closingTemperature = cylinder.side[SIDE.T];
    diary.closingEnergy = y[o + CYL.energy];
    diary.risingPressure = 0;
    y[o + CYL.knock] = 0;
    march.plan(cylinder, diary);
    cylinder.endGas = true;
    altered = true;
  }
  const start = Math.max(cylinder.burn.start, intakeCloses);
  const finish = Math.min(cylinder.burn.start + cylinder.burn.duration, exhaustOpens);
  if (near(angle, start) && finish > start) {
    startBurn(cylinder, theta, y);
    altered = true;
  }
  if (cylinder.endGas && (near(angle, endGasGone(cylinder.burn)) || near(angle, finish)))
    cylinder.endGas = false;
  if (cylinder.burning && near(angle, finish)) {
    diary.knock = y[o + CYL.knock];
    endBurn(cylinder, theta, y);
    altered = true;
  }
  if (near(angle, exhaustOpens)) {
    cylinder.firing = false;
    diary.peakPressure = diary.risingPressure;
    diary.peakAngle = diary.risingAngle;
  }
  return altered;
}
