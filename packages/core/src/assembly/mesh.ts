/** How finely ducts are cut, and how rough and warm their walls are. */
import { type PipeFlow, pipeReynolds } from '../geometry/pipeFriction.ts';
import type { Profile } from '../geometry/tractProfile.ts';
import type { DuctSpec } from '../network/duct.ts';
import { ductStanton } from '../processes/ductHeat.ts';

/** How finely ducts are cut. */
export interface Mesh {
  /** Longest cell of the intake ducts, runner with port [m]; 0 for a single cell. */
  readonly intakeCell: number;
  /** Longest cell of the exhaust ducts [m]; 0 for a single cell. */
  readonly exhaustCell: number;
  /** Fewest cells of a runner with port or a primary with port, half of it of a collector [-]; absent: 1. */
  readonly fewest?: number;
}

/**
 * Doubling the cells moves torque by less than 0.7 %; see the refinement tests. Hot gas is faster: its cells are longer. What a
 * short tract does hangs on its own length, so that it needs as many cells as a long one.
 */
export const DEFAULT_MESH: Mesh = { intakeCell: 0.025, exhaustCell: 0.05, fewest: 12 };

/** Cells of a duct none of which is longer than `cell` [m]. */
export function cellCount(profile: Profile, cell: number, fewest = 1): number {
  // A length of whole cells has as many in whatever unit it was written.
  return cell > 0 ? Math.max(fewest, Math.ceil(profile[profile.length - 1].x / cell - 1e-9)) : 1;
}

/**
 * A duct's wall. A duct's heat goes with its friction times a multiplier, which makes of it the heat of pulsating flow at a
 * usual Reynolds number, whatever the friction.
 *
 * @param area - of the duct [m2]
 */
export function wall(
  fanning: number,
  flow: PipeFlow,
  area: number,
  { wallTemperature, wallFriction = 1 }: { readonly wallTemperature: number; readonly wallFriction?: number },
): Pick<DuctSpec, 'fanning' | 'wallTemperature' | 'heatMultiplier'> {
  const factor = fanning * wallFriction;
  const heatMultiplier = ductStanton(pipeReynolds(area, flow)) / (0.5 * factor);
  return { fanning: factor, wallTemperature, heatMultiplier };
}
