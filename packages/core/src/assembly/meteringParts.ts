/** Ways of outside air into a volume of the intake: carburetor, throttle, restrictor and spacer into a plenum, a hole or pipe into an airbox. */
import type { Combination, Induction, Stacks } from '../combination/combination.ts';
import { seriesArea } from '../geometry/flowSheet.ts';
import { INTAKE_FLOW, pipeFanning, ROUGHNESS } from '../geometry/pipeFriction.ts';
import { LEAST_FRICTION } from '../geometry/tractBench.ts';
import type { Profile } from '../geometry/tractProfile.ts';
import type { NodeRef } from '../network/part.ts';
import type { Throat } from '../network/throat.ts';
import { heldAir } from './heldAir.ts';
import type { IntakeCharge } from './intakeCharge.ts';
import { cellCount, type Mesh, wall } from './mesh.ts';
import { type NetworkPlan, put, volumeAt } from './networkPlan.ts';
import { openPipe, straightPipe } from './tracts.ts';

/** Places of the network's reservoirs: the air that is metered, and the same air with its fuel and warmth, where pipes draw it. */
const AIR: NodeRef = { kind: 'reservoir', index: 0 };
export const METERED: NodeRef = { kind: 'reservoir', index: 2 };

export interface MeteringTask {
  readonly combination: Combination;
  readonly mesh: Mesh;
  readonly charge: IntakeCharge;
}

/** The volume that is fed, and how often it stands in the engine. */
export interface FedVolume {
  readonly volume: number;
  /** Of the cylinders, those it feeds [-]: its share of all metering. */
  readonly share: number;
  readonly weight: number;
}

/** Whether a pipe takes up the metered air: the network then needs that air as a reservoir. */
export function hasPipes({ stacks, feed, barrels }: Induction): boolean {
  return stacks !== undefined || feed !== undefined || barrels !== undefined;
}

/** Carburetor or throttle with what stands in series, into a plenum. Returns the ducts between. */
export function putMetering(plan: NetworkPlan, task: MeteringTask, fed: FedVolume): readonly number[] {
  const { combination, charge } = task;
  const { induction } = combination;
  const throats = throatsOf(induction, fed.share);
  const way = wayIn(induction);
  if (way !== null) return [putFeed(plan, task, fed, way, throats)];
  put(plan.orifices, {
    from: AIR,
    to: volumeAt(fed.volume),
    area: fed.share * meteringInSeries(induction),
    // A nozzle by itself is cheaper.
    ...(throats.length === 1 && throats[0].lost === 1 ? {} : { throats }),
    metering: charge.metering,
    weight: fed.weight,
  });
  return [];
}

/** Throats in the way of the air: the air cleaner's loss counts with the first, that of a spacer with the last. */
function throatsOf(induction: Induction, share: number): readonly Throat[] {
  const { meteringArea, venturi, restrictor, airCleanerArea, spacerArea, feed } = induction;
  if (venturi === undefined && restrictor === undefined && feed === undefined)
    return [{ area: share * meteringInSeries(induction), lost: 1 }];
  const metering: Throat = {
    area: share * meteringArea * (venturi?.overMetering ?? 1),
    lost: venturi?.lost ?? 1,
  };
  const chain =
    restrictor === undefined ? [metering] : [metering, { ...restrictor, area: share * restrictor.area }];
  if (restrictor?.place === 'front') chain.reverse();
  const [first] = chain;
  if (airCleanerArea !== null) chain[0] = withLoss(first, share * airCleanerArea);
  const behind =
    feed === undefined ? spacerArea : feed.loss > 0 ? feed.area / Math.sqrt(feed.loss) : undefined;
  const last = chain.length - 1;
  if (behind !== undefined) chain[last] = withLoss(chain[last], share * behind);
  return chain.map(({ area, lost }) => ({ area, lost }));
}

/** Effective area of carburetor or throttle with air cleaner and spacer, whole engine [m2]. */
function meteringInSeries({ meteringArea, airCleanerArea, spacerArea }: Induction): number {
  const losses = [airCleanerArea, spacerArea].filter((area) => area !== null && area !== undefined);
  return seriesArea(meteringArea, ...losses);
}

/** A throat with an incompressible loss beside it, by the effective area that would make it. */
function withLoss({ area, lost }: Throat, beside: number): Throat {
  return { area, lost: lost + (area / beside) ** 2 };
}

/** A pipe from the throats to a plenum. */
interface Way {
  /** [m] */
  readonly length: number;
  /** Whole engine [m2]. */
  readonly area: number;
  /** Pipes side by side to one plenum [-]. */
  readonly bores: number;
  /** Share of its length whose walls rub and are warm [-]: what barrels rub is in the rating, and their walls are as cold as the air. */
  readonly walls: number;
}

/** Barrels with the pipes behind them, as one pipe in which gas weighs as much; null where there is neither. */
function wayIn({ barrels, feed }: Induction): Way | null {
  if (barrels === undefined) return feed === undefined ? null : { ...feed, walls: 1 };
  if (feed === undefined) return { ...barrels, bores: 1, walls: 0 };
  const length = feed.length + (barrels.length * feed.area) / barrels.area;
  return { ...feed, length, walls: feed.length / length };
}

/** Longest pipe that is one cell [m]: shorter cells would slow the whole march for a spacer. */
const ONE_CELL = 0.06;

/** The pipe, or pipes side by side, from the throats to a plenum. */
function putFeed(
  plan: NetworkPlan,
  { combination, charge, mesh }: MeteringTask,
  { volume, share, weight }: FedVolume,
  { length, area: whole, bores, walls }: Way,
  throats: readonly Throat[],
): number {
  // What stands behind a carburetor holds the mixture.
  const built = combination.induction.kind === 'carburetor' ? null : heldAir({ combination, charge });
  const area = share * whole * (built?.area ?? 1);
  const profile = straightPipe(length * (built?.length ?? 1), area);
  const duct = put(plan.ducts, {
    name: 'inlet duct',
    profile,
    cells: walls === 0 ? barrelCells(mesh) : feedCells(profile, length, mesh),
    // Walls of several pipes are longer than that of one of their area.
    ...wallAlong(walls, castFanning(area / bores) * Math.sqrt(bores), area, combination.induction.runner),
    tables: charge.tables,
    weight,
  });
  put(plan.feeds, { from: AIR, becomes: METERED, throats, duct, gain: charge.metering.gain, weight });
  put(plan.ends, { duct, at: 'right', to: volumeAt(volume), opening: { area }, weight });
  return duct;
}

/** Barrels swing as one slug, far below the note of their length: more cells than three move torque by 0.03 % at most. */
function barrelCells({ fewest = 1 }: Mesh): number {
  return Math.ceil(fewest / 4);
}

function feedCells(profile: Profile, length: number, { intakeCell, fewest = 1 }: Mesh): number {
  return length <= ONE_CELL ? 1 : cellCount(profile, intakeCell, Math.ceil(fewest / 2));
}

/** Friction of a cast pipe of cold gas [-]. */
function castFanning(area: number): number {
  return pipeFanning(ROUGHNESS.cast, area, INTAKE_FLOW);
}

/** Friction and heat of a pipe of whose length only a share has walls. */
function wallAlong(
  share: number,
  fanning: number,
  area: number,
  runner: Induction['runner'],
): ReturnType<typeof wall> {
  const rubs = Math.max(share, LEAST_FRICTION);
  const whole = wall(fanning * rubs, INTAKE_FLOW, area, runner);
  return { ...whole, heatMultiplier: share * whole.heatMultiplier };
}

/** The way into an airbox: a hole, or a pipe, with air cleaner and restrictor in series. Returns the pipe's duct. */
export function putInlet(
  plan: NetworkPlan,
  { combination, charge, mesh }: MeteringTask,
  { inlet }: Stacks,
  { volume, weight }: FedVolume,
): readonly number[] {
  const { airCleanerArea, restrictor, runner } = combination.induction;
  const cleaned = (area: number): number =>
    airCleanerArea === null ? area : seriesArea(area, airCleanerArea);
  const { metering } = charge;
  const hole = inlet === undefined || inlet.length === 0;
  if (hole) {
    const area = cleaned(inlet?.area ?? Number.POSITIVE_INFINITY);
    const throats = restrictor === undefined ? {} : { throats: [throatOf(restrictor), { area, lost: 1 }] };
    put(plan.orifices, { from: AIR, to: volumeAt(volume), area, ...throats, metering, weight });
    return [];
  }
  const built = heldAir({ combination, charge });
  const area = inlet.area * built.area;
  const profile = openPipe(inlet.length, inlet.area).map(({ x }) => ({ x: x * built.length, area }));
  const duct = put(plan.ducts, {
    name: 'airbox inlet',
    profile,
    cells: cellCount(profile, mesh.intakeCell, Math.ceil((mesh.fewest ?? 1) / 2)),
    ...wall(castFanning(area), INTAKE_FLOW, area, runner),
    tables: charge.tables,
    weight,
  });
  if (restrictor === undefined)
    put(plan.ends, { duct, at: 'left', to: METERED, opening: { area: cleaned(area) }, weight });
  else {
    const throat = throatOf(restrictor);
    const throats = [airCleanerArea === null ? throat : withLoss(throat, airCleanerArea)];
    put(plan.feeds, { from: AIR, becomes: METERED, throats, duct, gain: metering.gain, weight });
  }
  put(plan.ends, { duct, at: 'right', to: volumeAt(volume), opening: { area }, weight });
  return [duct];
}

function throatOf({ area, lost }: NonNullable<Induction['restrictor']>): Throat {
  return { area, lost };
}
