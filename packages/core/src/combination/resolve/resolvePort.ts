/** Length and mean area of a port. */
import { portArea, portLength } from '../defaults/ports.ts';
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
): ResolvedPort {
  const section = file.heads?.[side] ?? {};
  const path = (field: string): string => `heads.${side}.${field}`;
  const length = ledger.quantity(path('portLength'), section.portLength, 'length', 'in', () =>
    portLength(file.engine.bore, side),
  );
  if (section.portArea !== undefined) return { length, area: section.portArea };
  const byThroat = section.portVolume === undefined && section.minimumArea === undefined;
  const throat = byThroat
    ? ledger.quantity(path('throat'), section.throat, 'length', 'in', () =>
        throatDiameter(valves.diameter, side),
      )
    : 0;
  const area = ledger.quantity(path('portArea'), undefined, 'area', 'in2', () =>
    portArea(side, {
      volume: section.portVolume,
      length,
      minimum: section.minimumArea,
      throats: (valves.count * Math.PI * throat * throat) / 4,
    }),
  );
  return { length, area };
}
