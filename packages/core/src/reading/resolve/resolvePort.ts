/** Length and mean area of a port. */

import type { FlowCurve } from '../../combination/combination.ts';
import type { Side } from '../../combination/sides.ts';
import { areaRatio, minimumArea, portLength } from '../defaults/ports.ts';
import { throatDiameter } from '../defaults/valves.ts';
import type { ResolveContext } from './context.ts';
import type { ResolvedValves } from './resolveValves.ts';

export interface ResolvedPort {
  readonly length: number;
  readonly area: number;
}

/** What is known of a port before its area is. */
export interface PortInputs {
  readonly length: number;
  readonly flow: FlowCurve;
  /** Smallest area that the flow was estimated from [m2]; null where it wasn't. */
  readonly smallest: number | null;
}

/** Length of a port [m]. */
export function resolvePortLength({ file, ledger }: ResolveContext, side: Side): number {
  return ledger.quantity(`heads.${side}.portLength`, file.heads?.[side]?.portLength, 'length', 'in', () =>
    portLength(file.engine.bore, side),
  );
}

export function resolvePort(
  { file, ledger }: ResolveContext,
  side: Side,
  valves: ResolvedValves,
  { length, flow, smallest: known }: PortInputs,
): ResolvedPort {
  const section = file.heads?.[side] ?? {};
  if (section.portArea !== undefined) return { length, area: section.portArea };
  if (section.portVolume !== undefined) return { length, area: section.portVolume / length };
  const smallest = section.minimumArea ?? known ?? smallestArea({ file, ledger }, side, valves, flow);
  const ratio = ledger.number(`heads.${side}.areaRatio`, section.areaRatio, areaRatio);
  return { length, area: smallest / ratio };
}

function smallestArea(
  { file, ledger }: Pick<ResolveContext, 'file' | 'ledger'>,
  side: Side,
  valves: ResolvedValves,
  flow: FlowCurve,
): number {
  const stated = file.heads?.[side]?.throat;
  const throat = ledger.quantity(`heads.${side}.throat`, stated, 'length', 'in', () =>
    throatDiameter(valves.diameter, side),
  );
  return ledger.quantity(`heads.${side}.minimumArea`, undefined, 'area', 'in2', () =>
    minimumArea(
      (valves.count * Math.PI * throat * throat) / 4,
      side,
      flow.measuredTo === null ? 0 : Math.max(...flow.area),
    ),
  );
}
