/** A pipe of the exhaust as a duct. */

import { EXHAUST_FLOW, pipeFanning, ROUGHNESS } from '../geometry/pipeFriction.ts';
import type { Profile } from '../geometry/tractProfile.ts';
import type { DuctSpec } from '../network/duct.ts';
import { cellCount, type Mesh, wall } from './mesh.ts';

/** @param profile - area along it, of its first part as far as friction goes */
export function exhaustPipe(
  name: string,
  profile: Profile,
  walls: { readonly wallTemperature: number; readonly wallFriction?: number },
  mesh: Mesh,
): DuctSpec {
  const cells = cellCount(profile, mesh.exhaustCell, Math.ceil((mesh.fewest ?? 1) / 2));
  const { area } = profile[0];
  return { name, profile, cells, ...wall(tubeFanning(area), EXHAUST_FLOW, area, walls) };
}

/** Friction of a tube of hot gas [-]. */
export function tubeFanning(area: number): number {
  return pipeFanning(ROUGHNESS.tube, area, EXHAUST_FLOW);
}
