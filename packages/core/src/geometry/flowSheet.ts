/** Flow sheets and ratings: volume flow at a test depression to effective area and back. */

import { INCH_OF_MERCURY, INCH_OF_WATER, STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import { isentropicFluxFunction } from '../gas/isentropic.ts';

/** Still air in front of a flow bench. */
export interface BenchAir {
  /** [Pa] */
  readonly pressure: number;
  /** [K] */
  readonly temperature: number;
  /** Ratio of specific heats [-]. */
  readonly gamma: number;
  /** Specific gas constant [J/(kg K)]. */
  readonly gasConstant: number;
}

/** Standard atmosphere at 20 C, dry: what a sheet is taken to mean that doesn't say. */
export const BENCH_AIR: BenchAir = {
  pressure: STANDARD_ATMOSPHERE,
  temperature: 293.15,
  gamma: 1.4,
  gasConstant: 287.055,
};

/** Depression of most United States flow sheets [Pa]: 28 inH2O. */
export const USUAL_DEPRESSION: number = 28 * INCH_OF_WATER;

/**
 * Depression at which carburetors are rated [Pa]: 1.5 inHg for four barrels, 3.0 inHg for one and two.
 *
 * EngineLabs, carburetor series; one magazine page that names 28 inH2O instead stands alone.
 */
export const CARBURETOR_DEPRESSION: { readonly fourBarrel: number; readonly twoBarrel: number } = {
  fourBarrel: 1.5 * INCH_OF_MERCURY,
  twoBarrel: 3.0 * INCH_OF_MERCURY,
};

/**
 * Effective area [m2] that passes a volume flow, by the compressible nozzle law.
 *
 * Q = A sqrt(R T0) psi((p0 - dp)/p0), with Q at the density of the still air in front. All dynamic pressure is taken as
 * lost behind the throat, as the forecast's own nozzles do. The incompressible law would give an area 3.8 % smaller at
 * 28 inH2O: the two must not be mixed.
 *
 * @param flow - volume flow at inlet density [m3/s]
 * @param depression - pressure difference [Pa], less than the air's pressure
 *
 * @example
 * ```ts
 * areaFromFlow(0.118, 6974); // 250 cfm at 28 inH2O, in m2
 * ```
 */
export function areaFromFlow(flow: number, depression: number, air: BenchAir = BENCH_AIR): number {
  if (!(flow >= 0)) throw new DomainError('flow', flow, 'zero or positive m3/s');
  return flow / velocity(depression, air);
}

/**
 * Volume flow at inlet density [m3/s] through an effective area [m2]; inverse of {@link areaFromFlow}.
 *
 * @example
 * ```ts
 * flowFromArea(0.0011, 6974); // [m3/s]
 * ```
 */
export function flowFromArea(area: number, depression: number, air: BenchAir = BENCH_AIR): number {
  if (!(area >= 0)) throw new DomainError('area', area, 'zero or positive m2');
  return area * velocity(depression, air);
}

/** Volume flow through an area [m3/s] by the incompressible law, sqrt(2 dp/rho): the ceiling the trade quotes. */
export function incompressibleFlow(area: number, depression: number, air: BenchAir = BENCH_AIR): number {
  if (!(area >= 0)) throw new DomainError('area', area, 'zero or positive m2');
  if (!(depression > 0)) throw new DomainError('depression', depression, 'positive Pa');
  const density = air.pressure / (air.gasConstant * air.temperature);
  return area * Math.sqrt((2 * depression) / density);
}

/** Effective area of a carburetor or throttle body [m2] from its rating [m3/s] and the depression of the rating. */
export function carburetorArea(
  rating: number,
  barrels: keyof typeof CARBURETOR_DEPRESSION,
  air: BenchAir = BENCH_AIR,
): number {
  return areaFromFlow(rating, CARBURETOR_DEPRESSION[barrels], air);
}

/**
 * Effective area of restrictions one behind the other [m2]: 1/A^2 = sum of 1/A_i^2.
 *
 * Incompressible, each dynamic pressure lost before the next: good to about 1 % at bench depressions.
 */
export function seriesArea(...areas: readonly number[]): number {
  if (!(areas.length > 0)) throw new DomainError('areas', areas.length, 'at least one area');
  let sum = 0;
  for (const area of areas) {
    if (!(area > 0)) throw new DomainError('areas', area, 'positive m2');
    sum += 1 / (area * area);
  }
  return 1 / Math.sqrt(sum);
}

/** Volume flow per effective area [m/s]: sqrt(R T0) psi. */
function velocity(depression: number, air: BenchAir): number {
  if (!(air.pressure > 0)) throw new DomainError('pressure', air.pressure, 'positive Pa');
  if (!(air.temperature > 0)) throw new DomainError('temperature', air.temperature, 'positive K');
  if (!(air.gasConstant > 0)) throw new DomainError('gasConstant', air.gasConstant, 'positive J/(kg K)');
  if (!(depression > 0 && depression < air.pressure)) {
    throw new DomainError('depression', depression, `between 0 and the air's ${air.pressure} Pa`);
  }
  const ratio = (air.pressure - depression) / air.pressure;
  return Math.sqrt(air.gasConstant * air.temperature) * isentropicFluxFunction(ratio, air.gamma);
}
