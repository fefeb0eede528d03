/** Whether a file speaks of nothing but the engine as it was made. */
import type { Make } from '../defaults/make.ts';
import type { CamSide } from '../schema/camSection.ts';
import type { ResolveContext } from './context.ts';
import { statedFlow } from './resolveFlow.ts';

/**
 * `production` without cam card, lift table, flow sheet and worked ports: parts left out are then those of a production engine. Estimates
 * that are written out for a change say nothing.
 */
export function makeOf({ written: { file, sheets } }: ResolveContext): Make {
  const isAsMade =
    !hasLobe(file.cam?.intake) &&
    !hasLobe(file.cam?.exhaust) &&
    (file.heads?.ports ?? 'as-cast') === 'as-cast' &&
    statedFlow(file, sheets, 'intake') === null;
  return isAsMade ? 'production' : 'performance';
}

/** Whether a card or a table says what the lobe is like; where it stands, any cam can be degreed. */
function hasLobe({ advertised, at050, at200, lobeLift, valveLift, table }: CamSide = {}): boolean {
  return [advertised, at050, at200, lobeLift, valveLift, table].some((said) => said !== undefined);
}
