/** Valves of both sides: how many, how wide. */

import type { Side } from '../../combination/sides.ts';
import type { ChamberShape } from '../../geometry/squish.ts';
import { splitValves, stemDiameter, valveDiameter } from '../defaults/valves.ts';
import type { HeadsSection } from '../schema/headsSection.ts';
import type { ResolveContext } from './context.ts';

/** Valves of one side of a cylinder. */
export interface ResolvedValves {
  readonly count: number;
  readonly diameter: number;
  readonly stem: number;
}

/** How many valves each side has: as stated by side, or from the number in a cylinder; null where neither is given. */
export function valveCounts(
  heads: HeadsSection | undefined,
): { readonly intake: number; readonly exhaust: number } | null {
  const perCylinder = heads?.valvesPerCylinder;
  const split = perCylinder === undefined ? null : splitValves(perCylinder);
  const intake = heads?.intake?.valves ?? split?.intake;
  const exhaust = heads?.exhaust?.valves ?? split?.exhaust;
  return intake === undefined || exhaust === undefined ? null : { intake, exhaust };
}

export function resolveValves(
  { file, ledger }: ResolveContext,
  side: Side,
  counts: { readonly intake: number; readonly exhaust: number },
  chamber: ChamberShape,
): ResolvedValves {
  const section = file.heads?.[side] ?? {};
  const count = counts[side];
  const all = counts.intake + counts.exhaust;
  const diameter = ledger.quantity(`heads.${side}.valve`, section.valve, 'length', 'in', () =>
    valveDiameter(file.engine.bore, side, count, all, chamber),
  );
  const stem = ledger.quantity(`heads.${side}.stem`, section.stem, 'length', 'in', () =>
    stemDiameter(diameter),
  );
  return { count, diameter, stem };
}
