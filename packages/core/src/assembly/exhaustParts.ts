/** From the exhaust valves to the open air: primaries, merges in one or two stages, collectors, a balance tube, mufflers. */
import type { Combination, ExhaustSystem } from '../combination/combination.ts';
import { EXHAUST_FLOW } from '../geometry/pipeFriction.ts';
import type { NodeRef } from '../network/part.ts';
import type { Valve } from '../network/valve.ts';
import { bendFanning } from '../processes/bendFriction.ts';
import { exhaustPipe, tubeFanning } from './exhaustPipe.ts';
import { cellCount, type Mesh, wall } from './mesh.ts';
import { type NetworkPlan, put, putCopy, volumeAt } from './networkPlan.ts';
import { putOutlet } from './outletParts.ts';
import { cylinderValve } from './portValve.ts';
import { groupWeight, type MarchedCylinders } from './symmetry.ts';
import { collectorTract, exhaustTract, straightPipe } from './tracts.ts';

/** Shape of a sharp-edged or belled pipe mouth: effective over geometric area [-]. */
const OPEN_MOUTH = 0.95;

/** What the parts of the exhaust are made for. */
export interface ExhaustTask {
  readonly combination: Combination;
  readonly marching: MarchedCylinders;
  readonly mesh: Mesh;
  readonly valve: Valve;
  /** The open air. */
  readonly outside: NodeRef;
}

/** Puts the exhaust into the plan; returns the index of the end at each marching cylinder's valve. */
export function putExhaust(plan: NetworkPlan, task: ExhaustTask): readonly number[] {
  const { combination, marching } = task;
  const { collectors, secondary } = combination.exhaustSystem;
  const marched = (groups: readonly (readonly number[])[]): (readonly number[])[] =>
    groups.filter((g) => g.some((c) => marching.cylinders.includes(c)));
  const collectorGroups = collectors === null ? [] : marched(collectors.groups);
  const firstGroups = secondary === undefined ? collectorGroups : marched(secondary.groups);
  const size = secondary?.mergeVolume ?? collectors?.mergeVolume ?? 0;
  const firstMerges = firstGroups.map((_, i) => put(plan.volumes, { name: `merge ${i + 1}`, size }));
  const finalMerges =
    secondary === undefined || collectors === null
      ? firstMerges
      : collectorGroups.map((_, i) =>
          put(plan.volumes, { name: `collector merge ${i + 1}`, size: collectors.mergeVolume }),
        );
  const valveEnds = marching.cylinders.map((number, index) =>
    putPrimary(plan, task, { number, index, groups: firstGroups, merges: firstMerges }),
  );
  if (secondary !== undefined)
    firstGroups.forEach((group, i) => {
      const to = finalMerges[collectorGroups.findIndex((g) => g.includes(group[0]))];
      putSecondary(plan, task, secondary, firstMerges[i], to);
    });
  const pipes = collectorGroups.map((group, i) =>
    putCollector(plan, task, finalMerges[i], groupWeight(marching, group, collectorGroups)),
  );
  putBalance(plan, task, pipes);
  return valveEnds;
}

interface PrimaryTask {
  readonly number: number;
  readonly index: number;
  readonly groups: readonly (readonly number[])[];
  readonly merges: readonly number[];
}

/** Port and primary of one marching cylinder, into its merge or the open. */
function putPrimary(
  plan: NetworkPlan,
  { combination, marching, mesh, valve, outside }: ExhaustTask,
  { number, index, groups, merges }: PrimaryTask,
): number {
  const { exhaustSystem } = combination;
  const { primary } = exhaustSystem;
  const { weight } = marching;
  const profile = exhaustTract(combination, number);
  const { area, bends = 0 } = primary;
  const length = profile[profile.length - 1].x;
  const duct = put(plan.ducts, {
    name: `exhaust ${number}`,
    profile,
    cells: cellCount(profile, mesh.exhaustCell, mesh.fewest),
    ...wall(tubeFanning(area) + bendFanning(bends, area, length), EXHAUST_FLOW, area, primary),
    weight,
  });
  const valveEnd = put(plan.ends, {
    duct,
    at: 'left',
    to: { kind: 'cylinder', index },
    opening: { valve: cylinderValve(valve, combination.exhaust, number), outward: false },
    weight,
  });
  const merge = groups.findIndex((g) => g.includes(number));
  const end = profile[profile.length - 1].area;
  if (merge < 0) {
    putOutlet(plan, { exhaustSystem, mesh, outside, weight }, duct);
    return valveEnd;
  }
  const tail = put(plan.ends, {
    duct,
    at: 'right',
    to: volumeAt(merges[merge]),
    opening: { area: OPEN_MOUTH * end },
    weight,
  });
  // What the marching cylinder does, its images do later, each into its own merge where that marches.
  for (const shift of marching.shifts.slice(1)) {
    const image = groups.findIndex((g) => g.includes(marching.imageOf(number, shift)));
    if (image >= 0) putCopy(plan, tail, merges[image], shift);
  }
  return valveEnd;
}

/** The pipe from a first merge to the collector's. */
function putSecondary(
  plan: NetworkPlan,
  { mesh }: ExhaustTask,
  secondary: NonNullable<ExhaustSystem['secondary']>,
  from: number,
  to: number,
): void {
  const { length, area } = secondary;
  const profile = straightPipe(length, area);
  const duct = put(plan.ducts, exhaustPipe(`secondary ${from + 1}`, profile, secondary, mesh));
  const opening = { area: OPEN_MOUTH * area };
  put(plan.ends, { duct, at: 'left', to: volumeAt(from), opening });
  put(plan.ends, { duct, at: 'right', to: volumeAt(to), opening });
}

/** The pipe behind a merge and what stands at its end; returns its duct. */
function putCollector(
  plan: NetworkPlan,
  { combination: { exhaustSystem }, mesh, outside }: ExhaustTask,
  merge: number,
  weight: number,
): number {
  const { collectors } = exhaustSystem;
  if (collectors === null) throw new TypeError('there is no collector without a merge');
  const profile = collectorTract(exhaustSystem, collectors);
  const name = `collector ${merge + 1}`;
  const duct = put(plan.ducts, { ...exhaustPipe(name, profile, collectors, mesh), weight });
  const opening = { area: OPEN_MOUTH * collectors.area };
  put(plan.ends, { duct, at: 'left', to: volumeAt(merge), opening, weight });
  putOutlet(plan, { exhaustSystem, mesh, outside, weight }, duct);
  return duct;
}

/** A tube from the side of one collector to the side of the other. */
function putBalance(
  plan: NetworkPlan,
  { combination: { exhaustSystem }, mesh }: ExhaustTask,
  pipes: readonly number[],
): void {
  const { balance } = exhaustSystem;
  if (balance === undefined || pipes.length !== 2) return;
  const { length, area, at } = balance;
  const profile = straightPipe(length, area);
  const duct = put(plan.ducts, exhaustPipe('balance tube', profile, balance, mesh));
  pipes.forEach((collector, i) => {
    const index = put(plan.cells, { duct: collector, at });
    const opening = { area: OPEN_MOUTH * area };
    put(plan.ends, { duct, at: i === 1 ? 'right' : 'left', to: { kind: 'cell', index }, opening });
  });
}
