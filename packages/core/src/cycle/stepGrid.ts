/** How long a step may be, and the grid of crank angles that steps end on. */
import { CLOCK } from '../network/clock.ts';
import { setBins } from '../network/copiedEnds.ts';
import type { Network } from '../network/network.ts';
import { decode, stiffness } from '../network/network.ts';

/**
 * A cycle in cells of equal angle, each cut into so many steps. It is laid once a march is under way and then kept, so that a
 * cycle is a smooth function of the state it begins with: steps chosen anew would jump in number and never quite repeat.
 */
export interface StepGrid {
  /** Width of a cell [crank deg], 720 over a whole number. */
  width: number;
  /** Steps in each cell. */
  counts: Int32Array;
  /** Fastest rate met in each cell since the grid was laid [1/s]. */
  rates: Float64Array;
  /** Times the Courant number that a step may have on this grid [-]. */
  leeway: number;
  /** How often each step was cut: 1, or more where steps as long as rates allow are not short enough. */
  fineness: number;
}

/** Cuts each step of a grid into two. */
export function halveSteps(grid: StepGrid): void {
  grid.fineness *= 2;
  for (let k = 0; k < grid.counts.length; k++) grid.counts[k] *= 2;
}

/** The part of a march that says how long its steps may be. */
interface Stepped {
  readonly network: Network;
  readonly y: Float64Array;
  readonly options: { readonly courant: number; readonly maxStep: number };
  readonly grid: StepGrid;
  /** See {@link CLOCK}. */
  readonly clock: Float64Array;
}

/** A grid laid for a Courant number holds while the number stays within this share above it [-]. */
const LEEWAY = 0.06;
/** Fastest rate of a running engine over that of still gas, for the grid of the first cycle [-]. */
const FIRST_GUESS = 1.5;

/** A grid of cells one largest step wide [deg], on which steps are as long as rates allow. */
export function freeGrid(maxStep: number): StepGrid {
  const cells = Math.ceil(720 / maxStep);
  return {
    width: 720 / cells,
    counts: new Int32Array(cells).fill(1),
    rates: new Float64Array(cells),
    leeway: 1,
    fineness: 1,
  };
}

/**
 * Lays the grid for the rates met since it was laid last. Call it after the speed is set, and again after a cycle in which
 * rates were others than before.
 */
export function layGrid(march: Stepped): void {
  const { network, options, grid } = march;
  const limit = options.courant * network.degreesPerSecond;
  const met = grid.rates.some((rate) => rate > 0);
  if (network.copies.length > 0) cutForCopies(march, met ? limit : 0);
  if (!met) return;
  grid.counts.forEach((_, k) => {
    grid.counts[k] = stepsIn(grid.width, grid.rates[k], limit);
  });
  grid.rates.fill(0);
  grid.leeway = 1 + LEEWAY;
}

/** Steps that a cell of a width [deg] takes at a rate [1/s], `limit` being the longest step times its rate. */
function stepsIn(width: number, rate: number, limit: number): number {
  return Math.max(1, Math.ceil((width * rate) / limit - 1e-6));
}

/**
 * Cuts the cycle into cells of which a whole number fits every delay of a copy, so that what is recorded by cells is recalled
 * exactly. They are at least as fine as half of all steps have to be, and otherwise such that fewest steps are needed.
 *
 * @param limit - longest step times its rate [deg/s]; 0 where no rates were met yet
 */
function cutForCopies({ network, options, grid, y }: Stepped, limit: number): void {
  const delays = network.copies.flatMap((c) => c.spec.delays);
  const common = delays.every(Number.isInteger) ? delays.reduce(greatestDivisor, 720) : 3;
  const span = (rate: number, most: number) => Math.min(options.maxStep, most / rate);
  const { rates, width } = grid;
  const ratesOf = (cells: number) =>
    Float64Array.from({ length: cells }, (_, k) => fastestOver(rates, width, k, 720 / cells));
  let cells = 0;
  if (limit === 0) {
    decode(network, 0, y);
    const first = span(FIRST_GUESS * stiffness(network), options.courant * network.degreesPerSecond);
    cells = (720 / common) * Math.ceil(common / first);
  } else {
    const sorted = rates.slice().sort();
    const coarsest = Math.ceil(common / span(sorted[Math.floor(sorted.length / 2)], limit));
    const finest = Math.ceil(common / span(sorted[sorted.length - 1], limit));
    let fewest = Number.POSITIVE_INFINITY;
    for (let n = coarsest; n <= finest; n++) {
      const tried = (720 / common) * n;
      const steps = ratesOf(tried).reduce((sum, rate) => sum + stepsIn(720 / tried, rate, limit), 0);
      if (steps < fewest) [fewest, cells] = [steps, tried];
    }
  }
  grid.rates = limit === 0 ? new Float64Array(cells) : ratesOf(cells);
  grid.width = 720 / cells;
  grid.counts = new Int32Array(cells).fill(1);
  setBins(network, cells);
}

/** Fastest of the rates in cells of one width [deg] that lie in a cell of another. */
function fastestOver(rates: Float64Array, width: number, cell: number, across: number): number {
  const last = Math.min(rates.length, Math.ceil(((cell + 1) * across) / width - 1e-6));
  let fastest = 0;
  for (let k = Math.floor((cell * across) / width + 1e-6); k < last; k++)
    fastest = Math.max(fastest, rates[k]);
  return fastest;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/**
 * Brings the end of the step on the clock back to the next edge of the grid, or to where the decoded state's rates allow; edges are met
 * exactly.
 */
export function shortenForRates({ network, options, grid, clock }: Stepped): void {
  const { width, counts, rates, leeway, fineness } = grid;
  const theta = clock[CLOCK.from];
  const cell = Math.floor(theta / width + 1e-6);
  const k = ((cell % counts.length) + counts.length) % counts.length;
  const rate = stiffness(network);
  if (rate > rates[k]) rates[k] = rate;
  const longest = Math.min(options.maxStep, (leeway * options.courant * network.degreesPerSecond) / rate);
  const span = longest / fineness;
  const part = width / counts[k];
  const next = cell * width + (Math.floor((theta - cell * width) / part + 1e-6) + 1) * part;
  const edge = Math.min(clock[CLOCK.to], next);
  clock[CLOCK.to] = theta + (edge - theta) / Math.max(1, Math.ceil((edge - theta) / span - 1e-6));
}
