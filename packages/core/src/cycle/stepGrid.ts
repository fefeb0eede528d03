/** How long a step may be, and the grid that steps end on where cylinders are copied. */
import { setBins } from '../network/copiedEnds.ts';
import type { Network } from '../network/network.ts';
import { decode, stiffness } from '../network/network.ts';

/** The part of a march that says how long its steps may be. */
interface Stepped {
  readonly network: Network;
  readonly y: Float64Array;
  readonly options: { readonly courant: number; readonly maxStep: number };
  /** Fastest rate met since the grid was laid [1/s], see {@link stiffness}. */
  fastest: number;
  /** Crank degrees at whose multiples steps end, where copies want it; 720: free. */
  bin: number;
}

/** A grid is laid for the fastest moment of a cycle; for a moment the Courant number may be this much larger [-]. */
const FASTEST_MOMENT = 1.16;
/** A grid laid for a Courant number holds while the number stays within this share above it [-]. */
const LEEWAY = 0.06;
/** Fastest rate of a running engine over that of still gas, for the grid of the first cycle [-]. */
const FIRST_GUESS = 1.5;

/**
 * Lays the steps on a grid where cylinders are copied, so that what is recorded on the grid is recalled exactly: a whole
 * number of bins in every delay, as wide as the fastest rate since the last call allows. Call it after the speed is set
 * and again where rates have changed.
 */
export function alignSteps(march: Stepped): void {
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

/** Longest step from `theta` to the next edge of the grid or `end` [deg], as the decoded state's rates allow; edges are met exactly. */
export function spanAllowed(march: Stepped, theta: number, end: number): number {
  const { network, options } = march;
  const courant = options.courant * (march.bin < 720 ? FASTEST_MOMENT * (1 + LEEWAY) : 1);
  const rate = stiffness(network);
  if (rate > march.fastest) march.fastest = rate;
  const span = Math.min(options.maxStep, (courant * network.degreesPerSecond) / rate);
  const edge = Math.min(end, (Math.floor(theta / march.bin + 1e-6) + 1) * march.bin);
  return (edge - theta) / Math.max(1, Math.ceil((edge - theta) / span - 1e-6));
}
