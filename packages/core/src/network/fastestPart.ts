/** Which part of a network asks for the shortest steps. */
import { cylinderGroup } from './cylinderGroup.ts';
import { ductGroup } from './duct.ts';
import { ductCellGroup } from './ductCell.ts';
import type { Network } from './network.ts';
import type { PartGroup } from './part.ts';
import { volumeGroup } from './volume.ts';

/** A part by kind and name, and what makes it fast: the size of a volume or cylinder [m3], or the length of a cell [m]. */
export interface FastPart {
  readonly kind: 'volume' | 'cylinder' | 'duct';
  readonly name: string;
  readonly size: number;
}

/** The fastest part of the decoded network. */
export function fastestPart({ volumes, cylinders, ducts, cells, crankAngle }: Network): FastPart {
  const parts: readonly [PartGroup, FastPart][] = [
    ...volumes.map((v) => part(volumeGroup([v]), 'volume', v.name, v.size)),
    ...cylinders.map((c) => part(cylinderGroup([c], crankAngle), 'cylinder', c.name, c.now.V)),
    ...ducts.map((d) => part(ductGroup([d]), 'duct', d.name, d.dx)),
    ...cells.map((c) => part(ductCellGroup([c]), 'duct', c.duct.name, c.duct.dx)),
  ];
  const rates = parts.map(([group]) => {
    const rate = new Float64Array(2);
    group.raiseFastest?.(rate);
    return Math.max(...rate);
  });
  return parts[rates.indexOf(Math.max(...rates))][1];
}

function part(group: PartGroup, kind: FastPart['kind'], name: string, size: number): [PartGroup, FastPart] {
  return [group, { kind, name, size }];
}
