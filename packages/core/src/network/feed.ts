/** Outside air through the throats of carburetor, throttle or restrictor into the left end of a pipe, which carries it on as mixture. */
import { powerNearOne } from '../numerics/powerNearOne.ts';
import type { Duct } from './duct.ts';
import { FLUX } from './duct.ts';
import { ductFace } from './ductEnd.ts';
import type { NodeRef, PartGroup, Site, StillNode, Weighted } from './part.ts';
import { countGiven } from './reservoir.ts';
import { SIDE, SIDE_SIZE } from './side.ts';
import { findPass, PASS, passOf, type Throat } from './throat.ts';

export interface FeedSpec extends Weighted {
  /** Still air that is drawn. */
  readonly from: NodeRef;
  /** One throat or two in series. */
  readonly throats: readonly Throat[];
  /** Whose left end it is. */
  readonly duct: number;
  /** The mixture that the air becomes, as still gas of the duct's kind. */
  readonly becomes: NodeRef;
  /** Mass of mixture that arrives per mass of air that leaves [-]. */
  readonly gain: number;
}

/** Offsets of a feed's running totals in the state: mass and energy that arrived in the duct. */
const FEED = { mass: 0, energy: 1 } as const;
const FEED_STATE = 2;

export interface Feed {
  readonly spec: FeedSpec;
  readonly from: StillNode;
  readonly mixture: StillNode;
  readonly duct: Duct;
  readonly offset: number;
  readonly along: Float64Array;
  readonly against: Float64Array;
  readonly face: Float64Array;
  /** See {@link WAVE}. */
  readonly wave: Float64Array;
}

/** Pressure at the face when nothing passes [Pa], impedance of the wave that leaves [m/s], pressure found, and where the search for it starts. */
const WAVE = { still: 0, z: 1, p: 2, start: 3 } as const;
const WAVE_SIZE = 4;

export function createFeed(
  spec: FeedSpec,
  { take, numbers }: Site,
  nodeAt: (ref: NodeRef) => StillNode,
  duct: Duct,
): Feed {
  return {
    spec,
    from: nodeAt(spec.from),
    mixture: nodeAt(spec.becomes),
    duct,
    offset: take(FEED_STATE),
    along: passOf(spec.throats, 'along', numbers),
    against: passOf(spec.throats, 'against', numbers),
    face: numbers(SIDE_SIZE),
    wave: numbers(WAVE_SIZE),
  };
}

/** Relative error of the pressure at the face. */
const TOLERANCE = 1e-10;
const MAX_ITERATIONS = 40;
/** Least pressure looked for, over that of the air outside [-]. */
const LEAST = 0.05;

/**
 * Pressure at which the throats pass what the pipe's end takes. Along the wave that leaves the end pressure goes with flow as
 * `dp = c dG / (1 + M)` (linear acoustics in a stream), so that a steady stream meets the end unaltered. The jets that the throats don't
 * turn into pressure again are lost at constant pressure. Newton's method on squared flows, within bounds that close in.
 */
function findInflow({ spec, from: { side }, duct, along, wave }: Feed): void {
  const still = wave[WAVE.still];
  const perZ = duct.faceArea[0] / (wave[WAVE.z] * spec.gain);
  along[PASS.gamma] = side[SIDE.gamma];
  along[PASS.RT] = side[SIDE.R] * side[SIDE.T];
  along[PASS.up] = side[SIDE.p];
  let low = Math.max(still, LEAST * side[SIDE.p]);
  let high = side[SIDE.p];
  let p = wave[WAVE.start];
  if (!(p > low && p < high)) p = 0.5 * (low + high);
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    along[PASS.down] = p;
    findPass(along);
    const taken = perZ * (p - still);
    const over = along[PASS.mass] ** 2 - taken * taken;
    if (over > 0) low = p;
    else high = p;
    const step = over / (along[PASS.slope] - 2 * perZ * taken);
    if (Math.abs(step) <= TOLERANCE * p) break;
    p -= step;
    if (!(p > low && p < high)) p = 0.5 * (low + high);
  }
  wave[WAVE.p] = p;
}

/** The same for a pipe that blows back out: its stream, stopped, drives the throats. */
function findOutflow({ from: { side }, duct, against, face, wave }: Feed): void {
  const still = wave[WAVE.still];
  const z = wave[WAVE.z];
  const area = duct.faceArea[0];
  const gamma = face[SIDE.gamma];
  const RT = face[SIDE.R] * face[SIDE.T];
  against[PASS.gamma] = gamma;
  against[PASS.down] = side[SIDE.p];
  let low = side[SIDE.p];
  let high = still;
  let p = 0.5 * (low + high);
  for (let i = 0; i < MAX_ITERATIONS && high - low > TOLERANCE * p; i++) {
    const g = (still - p) / z;
    const u = g / face[SIDE.rho];
    // What stops is warmer, and compressed without loss.
    const warmer = 1 + (0.5 * (gamma - 1) * u * u) / (gamma * RT);
    against[PASS.RT] = RT * warmer;
    against[PASS.up] = p * powerNearOne(warmer, gamma / (gamma - 1));
    findPass(against);
    if (against[PASS.mass] < g * area) low = p;
    else high = p;
    p = 0.5 * (low + high);
  }
  wave[WAVE.p] = p;
}

/** Pressure of a stream of this still gas at the speed of sound, over its mass flow per area [m/s]. */
function leastPressure(still: Float64Array): number {
  const gamma = still[SIDE.gamma];
  return Math.sqrt((2 * still[SIDE.R] * still[SIDE.T]) / (gamma * (gamma + 1)));
}

/**
 * Speed [m/s] of a stream of this still gas that carries `g` [kg/(s m2)] at pressure `p` [Pa]: what speed it has it lacks in warmth,
 * `T0 - u^2 / (2 cp) = p u / (g R)`.
 */
function speedAt(still: Float64Array, g: number, p: number): number {
  const gamma = still[SIDE.gamma];
  const R = still[SIDE.R];
  const T = still[SIDE.T];
  const perSpeed = p / (g * R);
  return (2 * T) / (perSpeed + Math.sqrt(perSpeed * perSpeed + (2 * T * (gamma - 1)) / (gamma * R)));
}

function connectFeed(feed: Feed, d: Float64Array): void {
  const { from, mixture, duct, offset, face, wave } = feed;
  ductFace(duct, 'left', face);
  // The face's velocity counts out of its duct.
  const u = -face[SIDE.w];
  const z = duct.c[0] / (1 + u / duct.c[0]);
  wave[WAVE.z] = z;
  wave[WAVE.still] = face[SIDE.p] - z * face[SIDE.rho] * u;
  const inward = wave[WAVE.still] < from.side[SIDE.p];
  if (inward) findInflow(feed);
  else findOutflow(feed);
  const area = duct.faceArea[0];
  const g = (wave[WAVE.p] - wave[WAVE.still]) / z;
  const mass = g * area;
  const arrives = mixture.side;
  // What has mixed behind the throats is no faster than sound: a wave that draws harder finds no more than they pass at their limit.
  const p = inward ? Math.max(wave[WAVE.p], g * leastPressure(arrives)) : wave[WAVE.p];
  const speed = inward ? speedAt(arrives, g, p) : g / face[SIDE.rho];
  const energy = mass * (inward ? arrives[SIDE.h] : face[SIDE.h] + 0.5 * u * u);
  const flux = duct.left;
  flux[FLUX.mass] = mass;
  flux[FLUX.momentum] = (p + g * speed) * area;
  flux[FLUX.energy] = energy;
  flux[FLUX.burned] = inward ? 0 : mass * face[SIDE.b];
  d[offset + FEED.mass] += mass;
  d[offset + FEED.energy] += energy;
}

/** What the kernel has to know of a feed, in the order of `tools/kernel/feed.as`. */
export function feedNumbers({
  spec,
  from,
  mixture,
  duct,
  offset,
  along,
  against,
  face,
  wave,
}: Feed): number[] {
  const gases = [from.side.byteOffset, mixture.side.byteOffset];
  const searched = [along, against, face, wave].map(({ byteOffset }) => byteOffset);
  return [...gases, duct.block.byteOffset, duct.cells, spec.gain, ...searched, offset, duct.faceArea[0]];
}

export function feedGroup(feeds: readonly Feed[]): PartGroup {
  return {
    addRates(_y, d) {
      for (const feed of feeds) connectFeed(feed, d);
    },
    keepStarts() {
      for (const { wave } of feeds) wave[WAVE.start] = wave[WAVE.p];
    },
    account(before, after, account) {
      for (const { spec, from, offset } of feeds) {
        const { weight = 1 } = spec;
        const mass = weight * (after[offset + FEED.mass] - before[offset + FEED.mass]);
        const energy = weight * (after[offset + FEED.energy] - before[offset + FEED.energy]);
        countGiven(from, mass, energy, account);
      }
    },
  };
}
