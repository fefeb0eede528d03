/** The end of an exhaust: through a muffler, or straight into the open. */

import type { ExhaustSystem, MufflerBox } from '../combination/combination.ts';
import type { NodeRef } from '../network/part.ts';
import { exhaustPipe } from './exhaustPipe.ts';
import { cellCount, type Mesh } from './mesh.ts';
import { type NetworkPlan, put, volumeAt } from './networkPlan.ts';
import { openPipe } from './tracts.ts';

/** What the end of an exhaust is made for. */
interface OutletTask {
  readonly mesh: Mesh;
  /** The open air. */
  readonly outside: NodeRef;
  readonly exhaustSystem: ExhaustSystem;
  readonly weight: number;
}

/** The end of a duct, through its muffler where there is one, into the open. */
export function putOutlet(plan: NetworkPlan, task: OutletTask, duct: number): void {
  const { exhaustSystem, outside, weight } = task;
  const { muffler, outletArea } = exhaustSystem;
  if (muffler === undefined) {
    put(plan.ends, { duct, at: 'right', to: outside, opening: { area: outletArea }, weight });
    return;
  }
  const box = volumeAt(put(plan.volumes, { name: `muffler ${duct + 1}`, size: muffler.volume }));
  if (muffler.kind === 'chambered') putChambers(plan, task, muffler, duct, box);
  else putHoles(plan, task, muffler, duct, box);
}

/** A pipe that opens into a box, and one that leads out of it. */
function putChambers(
  plan: NetworkPlan,
  { exhaustSystem: { outletArea }, mesh, outside, weight }: OutletTask,
  { pipe: tail, passage }: MufflerBox,
  duct: number,
  box: NodeRef,
): void {
  const { profile } = plan.ducts[duct];
  const inlet = profile[profile.length - 1].area;
  put(plan.ends, { duct, at: 'right', to: box, opening: { area: inlet }, weight });
  const out = openPipe(tail.length, tail.area);
  const tailDuct = put(plan.ducts, { ...exhaustPipe(`tail-pipe ${duct + 1}`, out, tail, mesh), weight });
  put(plan.ends, { duct: tailDuct, at: 'left', to: box, opening: { area: passage }, weight });
  put(plan.ends, { duct: tailDuct, at: 'right', to: outside, opening: { area: outletArea }, weight });
}

/**
 * Effective area of all holes in the wall of a pipe over its inside area [-]: a third of the wall is open along some five diameters, and
 * holes that gas streams past pass a third of what they would of still gas; from memory.
 */
const HOLES = 2;

/** A pipe with holes that leads through a box: every cell of it opens into the gas around. */
function putHoles(
  plan: NetworkPlan,
  { exhaustSystem: { outletArea }, mesh, outside, weight }: OutletTask,
  { pipe: core, passage }: MufflerBox,
  duct: number,
  box: NodeRef,
): void {
  const before = plan.ducts[duct];
  const length = before.profile[before.profile.length - 1].x;
  const profile = [
    ...before.profile,
    { x: length + STEP_LENGTH, area: core.area },
    { x: length + core.length, area: core.area },
  ];
  const cells = cellCount(profile, mesh.exhaustCell, mesh.fewest);
  plan.ducts[duct] = { ...before, profile, cells };
  const dx = (length + core.length) / cells;
  const first = Math.ceil(length / dx);
  for (let i = first; i < cells; i++) {
    const index = put(plan.cells, { duct, at: (i + 0.5) * dx, holes: true, passes: true });
    const area = (HOLES * core.area) / (cells - first);
    put(plan.orifices, { from: { kind: 'cell', index }, to: box, area, weight });
  }
  const opening = { area: Math.min(outletArea, passage) };
  put(plan.ends, { duct, at: 'right', to: outside, opening, weight });
}

/** Length over which a pipe takes on another's size [m]: what a flange or a weld takes. */
const STEP_LENGTH = 0.01;
