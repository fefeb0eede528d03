/** Length and mean area of a port. */

import type { FlowCurve } from '../../combination/combination.ts';
import { areaRatio, minimumArea, portLength } from '../defaults/ports.ts';
import type { Side } from '../defaults/side.ts';
import { throatDiameter } from '../defaults/valves.ts';
import type { ResolveContext } from './context.ts';
import type { ResolvedValves } from './resolveValves.ts';

export interface ResolvedPort {
  readonly length: number;
  readonly area: number;
}

export function resolvePort(
  { file, ledger }: ResolveContext,
  side: Side,
  valves: ResolvedValves,
  flow: FlowCurve,
): ResolvedPort {
  const section = file.heads?.[side] ?? {};
  const path = (field: string): string => `heads.${side}.${field}`;
  const length = ledger.quantity(path('portLength'), section.portLength, 'length', 'in', () =>
    portLength(file.engine.bore, side),
  );
  if (section.portArea !== undefined) return { length, area: section.portArea };
  if (section.portVolume !== undefined) return { length, area: section.portVolume / length };
  const smallest = section.minimumArea ?? smallestArea({ file, ledger }, side, valves, flow);
  const ratio = ledger.number(path('areaRatio'), section.areaRatio, areaRatio);
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
