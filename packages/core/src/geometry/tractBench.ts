/**
 * A tract on a flow bench: what a valve, or a runner's mouth, must pass beside the friction of the duct, so that both together
 * flow what the sheet says.
 *
 * Steady flow of a perfect gas with friction along a duct of varying area: the stagnation pressure falls by
 * dp0 / p0 = -(gamma M^2 / 2) f (perimeter / area) dx, stagnation temperature kept (Shapiro, The Dynamics and Thermodynamics
 * of Compressible Fluid Flow, vol. 1 (1953), ch. 8; from memory). The ends are the network's own: out of a duct the nozzle
 * sees the duct's stagnation state, into it the jet meets the duct's static pressure.
 */
import { isentropicFluxFunction } from '../gas/isentropic.ts';
import { findRoot } from '../numerics/root.ts';
import { BENCH_AIR, type BenchAir, USUAL_DEPRESSION } from './flowSheet.ts';
import { areaAt, type Profile } from './tractProfile.ts';

/** A duct on the bench. */
export interface BenchDuct {
  readonly profile: Profile;
  /** Fanning friction factor [-]. */
  readonly fanning: number;
}

/** Stations of the integration between two corners of a profile. */
const STATIONS = 8;

/** Most of the depression that duct friction may take out of a sheet [-]: a port that took more never flowed such a sheet. */
const MOST_FRICTION = 0.5;

/** Least friction of a wall, over that of usual castings [-]: heat goes with friction, and a wall without any would give none. */
export const LEAST_FRICTION = 0.02;

/** Flow of a bench in units of p0 / sqrt(R T0) of its still air [m2], and the pressure behind over that in front. */
interface Bench {
  readonly flow: number;
  readonly ratio: number;
  readonly gamma: number;
}

function benchOf(area: number, depression: number, air: BenchAir): Bench {
  const ratio = (air.pressure - depression) / air.pressure;
  return { flow: area * isentropicFluxFunction(ratio, air.gamma), ratio, gamma: air.gamma };
}

/**
 * Effective area [m2] of a nozzle at the downstream end of a duct that, the duct in front, flows what `area` alone would.
 *
 * @param area - effective area that the sheet states [m2]
 */
export function nozzleBehindDuct(
  area: number,
  duct: BenchDuct,
  depression: number = USUAL_DEPRESSION,
  air: BenchAir = BENCH_AIR,
): number {
  const bench = benchOf(area, depression, air);
  const least = 1 - MOST_FRICTION * (1 - bench.ratio);
  const p0 = Math.max(least, along(bench, duct, 1, 1) ?? least);
  return bench.flow / (p0 * isentropicFluxFunction(bench.ratio / p0, bench.gamma));
}

/**
 * Effective area [m2] of a nozzle at the upstream end of a duct that, the duct behind, flows what `area` alone would. The far
 * end of the duct lies open. A pipe wider than the port gives pressure back, so that less may be needed than without.
 */
export function nozzleBeforeDuct(
  area: number,
  duct: BenchDuct,
  depression: number = USUAL_DEPRESSION,
  air: BenchAir = BENCH_AIR,
): number {
  const bench = benchOf(area, depression, air);
  const { profile } = duct;
  const left = profile[0].area;
  const right = profile[profile.length - 1].area;
  const end = stagnation(bench, bench.ratio, right);
  const p0 = along(bench, duct, end, -1);
  const face = p0 === null ? null : staticPressure(bench, p0, left);
  const most = 1 - (1 - MOST_FRICTION) * (1 - bench.ratio);
  return bench.flow / isentropicFluxFunction(Math.min(face ?? most, most), bench.gamma);
}

/** The mouth of a runner. */
export interface RunnerMouth {
  /** Effective area [m2], at most the runner's own. */
  readonly area: number;
  /** Friction of the walls over that assumed [-]: below 1 where it alone would take more than was lost. */
  readonly friction: number;
}

/**
 * Mouth of a runner whose tract, with a valve of effective area `valve` at its end, flows what `area` alone would: the share of
 * the manifold's loss that is not friction.
 *
 * @param duct - runner and port
 * @param valve - effective area of the valve at the end, friction taken out [m2]
 */
export function runnerMouth(
  area: number,
  duct: BenchDuct,
  valve: number,
  depression: number = USUAL_DEPRESSION,
  air: BenchAir = BENCH_AIR,
): RunnerMouth {
  const bench = benchOf(area, depression, air);
  const entry = duct.profile[0].area;
  // Stagnation pressure that drives the flow through the valve: more than it is found to have can't be needed.
  const drive = (p0: number): number =>
    valve * p0 * isentropicFluxFunction(bench.ratio / p0, bench.gamma) - bench.flow;
  const atValve = drive(1) > 0 ? findRoot(drive, bench.ratio, 1, { tolerance: 1e-12 }).x : 1;
  const before = (friction: number): number =>
    along(bench, { ...duct, fanning: friction * duct.fanning }, atValve, -1) ?? 2;
  const p0 = before(1);
  if (p0 < 1) {
    const face = staticPressure(bench, p0, entry);
    if (face !== null) {
      const mouth = bench.flow / isentropicFluxFunction(face, bench.gamma);
      return { area: Math.min(entry, mouth), friction: 1 };
    }
  }
  const friction = before(0) < 1 ? findRoot((s) => before(s) - 1, 0, 1, { tolerance: 1e-6 }).x : 0;
  return { area: entry, friction: Math.max(friction, LEAST_FRICTION) };
}

/** Stagnation pressure at the other end of a duct, over that of the still air; null where the flow would choke in it. */
function along(bench: Bench, duct: BenchDuct, from: number, direction: 1 | -1): number | null {
  const { profile, fanning } = duct;
  const { gamma } = bench;
  let p0 = from;
  for (let k = 1; k < profile.length; k++) {
    const i = direction > 0 ? k : profile.length - k;
    const a = profile[i - 1].x;
    const dx = (profile[i].x - a) / STATIONS;
    for (let j = 0; j < STATIONS; j++) {
      const x = a + (direction > 0 ? j + 0.5 : STATIONS - j - 0.5) * dx;
      const area = areaAt(profile, x);
      // Midpoint: half a step to find the Mach number there.
      const first = machSquared(bench, p0, area);
      if (first === null) return null;
      const loss = gamma * fanning * Math.sqrt(Math.PI / area) * dx * direction;
      const middle = machSquared(bench, p0 * (1 - 0.5 * loss * first), area);
      if (middle === null) return null;
      p0 *= 1 - loss * middle;
    }
  }
  return p0;
}

/** Newton's steps at most: a flow that all but chokes takes some thirty, a usual one five. */
const MOST_STEPS = 60;
/** A Mach number stands once it moves by less than this share of itself [-]. */
const STANDS = 1e-13;

/** Mach number squared of the bench's flow at a stagnation pressure and area, subsonic; null where it does not pass. */
function machSquared({ flow, gamma }: Bench, p0: number, area: number): number | null {
  // flow = p0 area sqrt(gamma) M (1 + (gamma - 1) / 2 M^2)^-e.
  const g = 0.5 * (gamma - 1);
  const e = (0.5 * (gamma + 1)) / (gamma - 1);
  const passed = flow / (p0 * area * Math.sqrt(gamma));
  if (!(p0 > 0 && passed < (1 + g) ** -e)) return null;
  // Up to the speed of sound flow rises ever more slowly with it, so that steps from below come up to the root and never pass it.
  let mach = passed;
  for (let i = 0; i < MOST_STEPS; i++) {
    const s = 1 + g * mach * mach;
    const step = ((passed * s ** e - mach) * s) / (1 - mach * mach);
    mach += step;
    if (!(step > STANDS * mach)) break;
  }
  return mach * mach;
}

/** Static pressure where the bench's flow fills `area` at stagnation pressure `p0`; null where it does not pass. */
function staticPressure(bench: Bench, p0: number, area: number): number | null {
  const m2 = machSquared(bench, p0, area);
  const { gamma } = bench;
  return m2 === null ? null : p0 * (1 + 0.5 * (gamma - 1) * m2) ** (-gamma / (gamma - 1));
}

/** Stagnation pressure of the bench's flow where it fills `area` at static pressure `p`: continuity and energy. */
function stagnation({ flow, gamma }: Bench, p: number, area: number): number {
  // flow = p area M sqrt(gamma (1 + (gamma - 1) / 2 M^2)): a quadratic in M^2.
  const g = 0.5 * (gamma - 1);
  const q = (flow / (p * area)) ** 2 / gamma;
  const m2 = (Math.sqrt(1 + 4 * g * q) - 1) / (2 * g);
  return p * (1 + g * m2) ** (gamma / (gamma - 1));
}
