/** How long a step may be, and the grid of crank angles that steps end on. */
import { CLOCK } from '../network/clock.ts';
import { setBins } from '../network/copiedEnds.ts';
import type { Network } from '../network/network.ts';
import { decode, stiffness } from '../network/network.ts';

/**
 * The crank angles of a cycle that steps end on, each step as long as the rates there allow. It is laid while a march gets under
 * way and then kept, so that a cycle is a smooth function of the state it begins with: steps chosen anew would jump in number and
 * never quite repeat.
 */
export interface StepGrid {
  /** From 0 to 720, rising [crank deg]. */
  edges: Float64Array;
  /** Fastest rate met between an edge and the next since the grid was laid [1/s]. */
  rates: Float64Array;
  /** The last edge that was passed. */
  at: number;
  /** Times the Courant number that a step may have on this grid [-]. */
  leeway: number;
  /** How often each step was cut: 1, or more where steps as long as rates allow are not short enough. */
  fineness: number;
}

/** Cuts each step of a grid into two. */
export function halveSteps(grid: StepGrid): void {
  grid.fineness *= 2;
}

/** The part of a march that says how long its steps may be. */
interface Stepped {
  readonly network: Network;
  readonly y: Float64Array;
  readonly options: { readonly courant: number; readonly settling: number; readonly maxStep: number };
  readonly grid: StepGrid;
  /** See {@link CLOCK}. */
  readonly clock: Float64Array;
}

/** A grid laid for a Courant number holds while the number stays within this share above it [-]. */
const LEEWAY = 0.06;
/** Fastest rate of a running engine over that of still gas, for the grid of the first cycle [-]. */
const FIRST_GUESS = 1.5;
/**
 * With copies of cylinders, this share of the Courant number [-]. In steps of 0.95 of it and more, each as long as a pipe's cells allow,
 * rounding grows a millionfold within a cycle; cylinders that all march forget it, copies hand it on from cycle to cycle, until the same
 * engine in other units differs by 1e-4.
 */
const COPIED = 0.92;
/** Shortest step that ducts and volumes of an engine can ask for [crank deg]: cells of a millimetre at 100 rpm bear a hundred times it. */
const SHORTEST = 1e-5;
/** Angles that differ by less are the same [deg]. */
const EPSILON = 1e-6;

/** A grid of one largest step after another [deg], on which steps are as long as rates allow. */
export function freeGrid(maxStep: number): StepGrid {
  const edges = evenEdges(720 / maxStep);
  return { edges, rates: new Float64Array(edges.length - 1), at: 0, leeway: 1, fineness: 1 };
}

function evenEdges(parts: number): Float64Array {
  const n = Math.ceil(parts);
  return Float64Array.from({ length: n + 1 }, (_, k) => (720 * k) / n);
}

/**
 * Lays the grid for the rates met since it was laid last. Call it after the speed is set, and again after a cycle in which
 * rates were others than before.
 */
export function layGrid(march: Stepped): void {
  const { network, options, grid, y } = march;
  const limit = courantOf(march) * network.degreesPerSecond;
  if (grid.rates.some((rate) => rate > 0)) {
    grid.edges = edgesFor(grid, options.maxStep, limit);
    grid.leeway = 1 + LEEWAY;
  } else if (network.copies.length > 0) {
    decode(network, 0, y);
    const first = Math.min(options.maxStep, limit / (FIRST_GUESS * stiffness(network, options.settling)));
    grid.edges = evenEdges(720 / first);
  }
  grid.rates = new Float64Array(grid.edges.length - 1);
  grid.at = 0;
  // What is recorded by steps is recalled by steps.
  setBins(network, grid.edges);
}

function courantOf({ network, options }: Stepped): number {
  return network.copies.length > 0 ? COPIED * options.courant : options.courant;
}

/** Widths of the cells that are cut into equal steps [deg]: narrower ones waste more of a step each, wider ones have longer to wait. */
const CELL = 15;

/**
 * Edges in each cell as far apart as the fastest rate met there allows, `limit` being the longest step times its rate. Whole numbers
 * of steps in cells of one width forget a rounding, of which the first cycles make much.
 */
function edgesFor({ edges, rates }: StepGrid, maxStep: number, limit: number): Float64Array {
  const laid = [0];
  for (let from = 0, k = 0; from < 720; from += CELL) {
    const to = from + CELL;
    let fastest = limit / maxStep;
    while (k > 0 && edges[k] > from) k--;
    for (; k < rates.length && edges[k] < to - EPSILON; k++)
      if (edges[k + 1] > from + EPSILON) fastest = Math.max(fastest, rates[k]);
    const count = Math.ceil((CELL * fastest) / limit - EPSILON);
    for (let i = 1; i <= count; i++) laid.push(i === count ? to : from + (CELL * i) / count);
  }
  return Float64Array.from(laid);
}

/**
 * Brings the end of the step on the clock back to the next edge of the grid, or to where the decoded state's rates allow; edges are met
 * exactly. Rates that leave no time leave no step: it ends where it begins.
 */
export function shortenForRates(march: Stepped): void {
  const { network, options, grid, clock } = march;
  const { edges, rates, leeway, fineness } = grid;
  const from = clock[CLOCK.from];
  const turns = 720 * Math.floor(from / 720 + 1e-9);
  const theta = from - turns;
  let k = grid.at < rates.length && edges[grid.at] <= theta + EPSILON ? grid.at : 0;
  while (k < rates.length - 1 && edges[k + 1] <= theta + EPSILON) k++;
  grid.at = k;
  const rate = stiffness(network, options.settling);
  if (rate > rates[k]) rates[k] = rate;
  const longest = Math.min(options.maxStep, (leeway * courantOf(march) * network.degreesPerSecond) / rate);
  if (!(longest > SHORTEST)) {
    clock[CLOCK.to] = from;
    return;
  }
  const part = (edges[k + 1] - edges[k]) / fineness;
  const parts = Math.floor((theta - edges[k]) / part + EPSILON) + 1;
  const next = turns + (parts < fineness ? edges[k] + parts * part : edges[k + 1]);
  const edge = Math.min(clock[CLOCK.to], next);
  clock[CLOCK.to] =
    from + (edge - from) / Math.max(1, Math.ceil(((edge - from) * fineness) / longest - EPSILON));
}
