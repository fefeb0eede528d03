/** Whether a file speaks of nothing but the engine as it was made. */
import type { ResolveContext } from './context.ts';
import { statedFlow } from './resolveFlow.ts';

/** No cam card, no lift table, no flow sheet, no ports worked: parts left out are then those of a production engine. */
export function isProduction({ file, sheets }: ResolveContext): boolean {
  const { intake, exhaust } = file.cam ?? {};
  return (
    intake === undefined &&
    exhaust === undefined &&
    (file.heads?.ports ?? 'as-cast') === 'as-cast' &&
    statedFlow(file, sheets, 'intake') === null
  );
}
