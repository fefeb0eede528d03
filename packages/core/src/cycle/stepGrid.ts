/** How long a step may be, and the grid of crank angles that steps end on. */
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
}

/** The part of a march that says how long its steps may be. */
interface Stepped {
  readonly network: Network;
  readonly y: Float64Array;
  readonly options: { readonly courant: number; readonly maxStep: number };
  readonly grid: StepGrid;
}

/** A grid of equal steps is laid for the fastest moment of a cycle; for a moment the Courant number may be this much larger [-]. */
const FASTEST_MOMENT = 1.16;
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
  };
}

/**
 * Lays the grid for the rates met since it was laid last. Call it after the speed is set, and again after a cycle in which
 * rates were others than before.
 */
export function layGrid(march: Stepped): void {
  if (march.network.copies.length > 0) layEvenly(march);
  else layByCell(march);
}

/** Steps as long as the rates in each cell allow; before any were met they stay free. */
function layByCell({ network, options, grid }: Stepped): void {
  const { counts, rates, width } = grid;
  if (!(Math.max(...rates) > 0)) return;
  for (let k = 0; k < counts.length; k++)
    counts[k] = Math.ceil((width * rates[k]) / (options.courant * network.degreesPerSecond) - 1e-6);
  rates.fill(0);
  grid.leeway = 1 + LEEWAY;
}

/** Equal steps, a whole number of them in every delay of a copy, so that what is recorded on the grid is recalled exactly. */
function layEvenly({ network, options, grid, y }: Stepped): void {
  let fastest = Math.max(...grid.rates);
  if (fastest === 0) {
    decode(network, 0, y);
    fastest = FIRST_GUESS * stiffness(network);
  }
  const span = Math.min(
    options.maxStep,
    (FASTEST_MOMENT * options.courant * network.degreesPerSecond) / fastest,
  );
  const delays = network.copies.flatMap((c) => c.spec.delays);
  const common = delays.every(Number.isInteger) ? delays.reduce(greatestDivisor, 720) : 3;
  const cells = (720 / common) * Math.ceil(common / span);
  grid.width = 720 / cells;
  grid.counts = new Int32Array(cells).fill(1);
  grid.rates = new Float64Array(cells);
  grid.leeway = FASTEST_MOMENT * (1 + LEEWAY);
  setBins(network, cells);
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/** Longest step from `theta` to the next edge of the grid or `end` [deg], as the decoded state's rates allow; edges are met exactly. */
export function spanAllowed({ network, options, grid }: Stepped, theta: number, end: number): number {
  const { width, counts, rates, leeway } = grid;
  const cell = Math.floor(theta / width + 1e-6);
  const k = ((cell % counts.length) + counts.length) % counts.length;
  const rate = stiffness(network);
  if (rate > rates[k]) rates[k] = rate;
  const span = Math.min(options.maxStep, (leeway * options.courant * network.degreesPerSecond) / rate);
  const part = width / counts[k];
  const edge = Math.min(end, cell * width + (Math.floor((theta - cell * width) / part + 1e-6) + 1) * part);
  return (edge - theta) / Math.max(1, Math.ceil((edge - theta) / span - 1e-6));
}
