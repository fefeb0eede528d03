/** Sections of a usual port. */
import type { PortSections } from '../../src/geometry/defaultFlow.ts';
import { type PortState, USUAL_PORT } from '../../src/reading/defaults/ports.ts';

/** What the flow of a port in this state is estimated from. */
export function usualSections(ports: PortState): PortSections {
  const { throat, smallest } = USUAL_PORT[ports];
  return { throat, smallest: smallest * throat * throat };
}
