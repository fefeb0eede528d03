/** From the outside air to the intake valves: metering into plenums, or throttles along the runners with still air or an airbox in front. */
import type { Combination, Stacks } from '../combination/combination.ts';
import { seriesArea } from '../geometry/flowSheet.ts';
import { INTAKE_FLOW, pipeFanning, ROUGHNESS } from '../geometry/pipeFriction.ts';
import { areaAt, cutAt } from '../geometry/tractProfile.ts';
import type { EndSpec } from '../network/openEnd.ts';
import type { Valve } from '../network/valve.ts';
import { heldAir } from './heldAir.ts';
import type { IntakeCharge } from './intakeCharge.ts';
import { cellCount, type Mesh, wall } from './mesh.ts';
import { METERED, putInlet, putMetering } from './meteringParts.ts';
import { type NetworkPlan, put, putCopy, volumeAt } from './networkPlan.ts';
import { cylinderValve } from './portValve.ts';
import { putRunnerBalance } from './runnerBalance.ts';
import { groupWeight, type MarchedCylinders } from './symmetry.ts';
import { intakeTract } from './tracts.ts';

/** What the parts of the intake are made for. */
export interface IntakeTask {
  readonly combination: Combination;
  readonly marching: MarchedCylinders;
  readonly mesh: Mesh;
  readonly charge: IntakeCharge;
  readonly valve: Valve;
  /** Volumes already in the plan, with the cylinders they feed. */
  readonly plenums: readonly { readonly volume: number; readonly cylinders: readonly number[] }[];
}

/** Where the parts stand in the plan. */
export interface IntakeParts {
  /** The end at each marching cylinder's valve. */
  readonly valveEnds: readonly number[];
  readonly ducts: readonly number[];
  readonly gauges: readonly { readonly duct: number; readonly cell: number }[];
}

/** Puts the intake into the plan. */
export function putIntake(plan: NetworkPlan, task: IntakeTask): IntakeParts {
  const { combination, marching, plenums } = task;
  const { stacks } = combination.induction;
  const runners = marching.cylinders.map((number, index) => putRunner(plan, task, number, index));
  const members = plenums.map(({ cylinders }) => cylinders);
  const pipes = plenums.flatMap(({ volume, cylinders }) => {
    const weight = groupWeight(marching, cylinders, members);
    const fed = { volume, share: cylinders.length / combination.block.cylinders, weight };
    return stacks === undefined ? putMetering(plan, task, fed) : putInlet(plan, task, stacks, fed);
  });
  const { dividerArea } = combination.induction;
  if (dividerArea !== undefined && plenums.length === 2)
    put(plan.orifices, {
      from: volumeAt(plenums[0].volume),
      to: volumeAt(plenums[1].volume),
      area: dividerArea,
    });
  const tubes = putRunnerBalance(
    plan,
    task,
    runners.map(({ ducts }) => ducts[0]),
  );
  return {
    valveEnds: runners.map(({ valveEnd }) => valveEnd),
    ducts: [...runners.flatMap(({ ducts }) => ducts), ...pipes, ...tubes],
    gauges: stacks === undefined ? [] : runners.map(({ ducts }) => ({ duct: ducts[0], cell: 0 })),
  };
}

/** Runner and port of one marching cylinder with its mouth and its valve; the duct at the valve comes first. */
function putRunner(
  plan: NetworkPlan,
  task: IntakeTask,
  number: number,
  index: number,
): { readonly valveEnd: number; readonly ducts: readonly number[] } {
  const { combination, marching, charge, valve, plenums } = task;
  const { weight } = marching;
  const ducts = putTract(plan, task, number);
  const plenum = plenums.find(({ cylinders }) => cylinders.includes(number));
  const mouth = put(plan.ends, {
    duct: ducts[ducts.length - 1],
    at: 'left',
    to: plenum === undefined ? METERED : volumeAt(plenum.volume),
    opening: { area: mouthArea(combination, plenum === undefined ? 'open' : 'plenum') },
    weight,
  });
  // What the marching cylinder does, its images do later, each into its own plenum where that marches.
  for (const shift of marching.shifts.slice(1)) {
    const image = marching.imageOf(number, shift);
    const into = plenums.find(({ cylinders }) => cylinders.includes(image));
    if (into !== undefined) putCopy(plan, mouth, into.volume, shift);
  }
  const end: EndSpec = {
    duct: ducts[0],
    at: 'right',
    to: { kind: 'cylinder', index },
    opening: { valve: cylinderValve(valve, combination.intake, number), outward: true },
    fuelling: charge.fuelling,
    weight,
  };
  return { valveEnd: put(plan.ends, end), ducts };
}

/** Effective area of a runner's mouth [m2]: in the open each trumpet has its own filter. */
function mouthArea({ block, induction }: Combination, leads: 'plenum' | 'open'): number {
  const { stacks, runner, airCleanerArea } = induction;
  const filtered = stacks !== undefined && leads === 'open' && airCleanerArea !== null;
  return filtered ? seriesArea(runner.mouthArea, airCleanerArea / block.cylinders) : runner.mouthArea;
}

/** The pipe from mouth to valve, cut at the throttle that stands in it; returns its ducts, the one at the valve first. */
function putTract(
  plan: NetworkPlan,
  { combination, marching, mesh, charge }: IntakeTask,
  number: number,
): readonly number[] {
  const { intake, induction } = combination;
  const { stacks, runner } = induction;
  const { weight } = marching;
  const profile = intakeTract(combination);
  const { portArea } = intake;
  const fanning = pipeFanning(ROUGHNESS.cast, portArea, INTAKE_FLOW);
  const walls = wall(fanning, INTAKE_FLOW, portArea, runner);
  const made = { ...walls, tables: charge.tables, weight };
  const whole = cellCount(profile, mesh.intakeCell, mesh.fewest);
  const length = profile[profile.length - 1].x;
  const share = (part: number): number => Math.max(1, Math.round((whole * part) / length));
  if (stacks === undefined)
    return [put(plan.ducts, { name: `intake ${number}`, profile, cells: share(length), ...made })];
  const at = stacks.at + length - tractLength(combination);
  const [trumpet, rest] = cutAt(profile, at);
  const right = put(plan.ducts, {
    name: `intake ${number}`,
    profile: rest,
    cells: share(length - at),
    ...made,
  });
  const held = heldAir({ combination, charge }).length;
  const left = put(plan.ducts, {
    name: `trumpet ${number}`,
    // Of the area only the end would differ: it is the throttle's.
    profile: trumpet.map(({ x, area }) => ({ x: x * held, area })),
    cells: share(at),
    ...made,
  });
  put(plan.joints, { left, right, loss: throttleLoss(combination, stacks, areaAt(profile, at)) });
  return [right, left];
}

/** Mouth to valve without what waves see beyond the mouth [m]. */
function tractLength({ intake, induction: { runner } }: Combination): number {
  return (runner.length + intake.portLength) * runner.lengthMultiplier;
}

/**
 * Stagnation pressure that a throttle takes from the stream in its runner, over the dynamic pressure there [-]. Its flow area was
 * found from still air to still air, where the speed in its bore is lost too: along a runner it is kept.
 */
export function throttleLoss({ block, induction }: Combination, stacks: Stacks, area: number): number {
  const { bore, most = Number.POSITIVE_INFINITY } = stacks;
  const each = induction.meteringArea / block.cylinders;
  return area ** 2 * Math.max(0, Math.min(most, 1 / each ** 2 - 1 / bore ** 2));
}
