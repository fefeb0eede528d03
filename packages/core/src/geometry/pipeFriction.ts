/** Friction of the walls of pipes, by their roughness and the Reynolds number of the gas. */

/** Gas that a Reynolds number is worked out for. */
export interface PipeFlow {
  /** [m/s] */
  readonly speed: number;
  /** Kinematic viscosity [m2/s]. */
  readonly viscosity: number;
}

/** Air of the room in a port on the bench, charge at 300 K in a runner, and burned gas at 1000 K, five times as viscous for its weight. */
export const BENCH_FLOW: PipeFlow = { speed: 80, viscosity: 1.5e-5 };
export const INTAKE_FLOW: PipeFlow = { speed: 60, viscosity: 1.6e-5 };
export const EXHAUST_FLOW: PipeFlow = { speed: 100, viscosity: 1.2e-4 };

/**
 * Height of the roughness of walls [m]: of commercial steel tube (Moody, Trans. ASME 66 (1944) 671: 0.00015 ft), and of runners and ports, which are
 * cast with half the roughness of an iron pipe (the same: 0.00085 ft; the half is from memory).
 */
export const ROUGHNESS = { tube: 4.5e-5, cast: 1.25e-4 } as const;

/** @param area - of the pipe, taken as round [m2] */
export function pipeReynolds(area: number, { speed, viscosity }: PipeFlow): number {
  return (speed * diameterOf(area)) / viscosity;
}

/**
 * Fanning friction factor of turbulent flow in a pipe [-].
 *
 * @param roughness - height of the wall's roughness [m]
 * @param area - of the pipe, taken as round [m2]
 * @see Haaland, J. Fluids Eng. 105 (1983) 89, within 2 % of Colebrook and White
 */
export function pipeFanning(roughness: number, area: number, flow: PipeFlow): number {
  const rough = (roughness / (3.7 * diameterOf(area))) ** 1.11;
  const root = -3.6 * Math.log10(rough + 6.9 / pipeReynolds(area, flow));
  return 1 / (root * root);
}

function diameterOf(area: number): number {
  return Math.sqrt((4 * area) / Math.PI);
}
