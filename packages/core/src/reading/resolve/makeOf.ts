/** Whether a file speaks of nothing but the engine as it was made. */
import type { Make } from '../defaults/make.ts';
import type { ResolveContext } from './context.ts';
import { statedFlow } from './resolveFlow.ts';

/** `production` without cam card, lift table, flow sheet and worked ports: parts left out are then those of a production engine. */
export function makeOf({ file, sheets }: ResolveContext): Make {
  const { intake, exhaust } = file.cam ?? {};
  const isAsMade =
    intake === undefined &&
    exhaust === undefined &&
    (file.heads?.ports ?? 'as-cast') === 'as-cast' &&
    statedFlow(file, sheets, 'intake') === null;
  return isAsMade ? 'production' : 'performance';
}
