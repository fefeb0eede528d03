/** Induction: metering, air cleaner, plenums, runners, charge temperature. */

import type { Block, FlowCurve, Fuel, Induction, Stacks } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import { flowArea } from '../../geometry/flowArea.ts';
import { areaFromFlow } from '../../geometry/flowSheet.ts';
import type { BenchDuct, RunnerMouth } from '../../geometry/tractBench.ts';
import { nozzleBehindDuct, runnerMouth } from '../../geometry/tractBench.ts';
import type { Profile } from '../../geometry/tractProfile.ts';
import { CAST_FANNING, intakePortProfile, intakeProfile } from '../../geometry/tractProfile.ts';
import {
  evaporation as evaporationOf,
  heating,
  injectionKind,
  manifoldHeat,
  openHeating,
  runnerWall,
  vapour,
} from '../defaults/charge.ts';
import {
  flowLoss,
  MOUTH_COEFFICIENT,
  manifoldStyle,
  mouth,
  plenumVolume,
  runnerEntryArea,
  runnerExitArea,
  runnerLength,
  runnerLengthMultiplier,
  throttleAt,
} from '../defaults/manifold.ts';
import {
  airCleanerDrop,
  airDemand,
  barrels,
  carburetorRating,
  inductionKind,
  ratingDrop,
  THROTTLE_COEFFICIENT,
  throttleDiameter,
} from '../defaults/metering.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type {
  CarburetorSection,
  InductionSection,
  Manifold,
  RunnerSection,
} from '../schema/inductionSection.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { isProduction } from './isProduction.ts';
import type { ResolvedBlock } from './resolveBlock.ts';

/** What the induction is sized by. */
export interface InductionInputs {
  readonly block: ResolvedBlock;
  readonly valves: number;
  readonly portArea: number;
  readonly portLength: number;
  readonly flow: FlowCurve;
  /** Greatest valve lift, before lash [m]. */
  readonly maxLift: number;
  readonly fuel: Fuel;
  readonly ratedSpeed: () => number;
}

export function resolveInduction(context: ResolveContext, inputs: InductionInputs): Induction {
  const { file, ledger } = context;
  const section = file.induction ?? {};
  const { block, displacement } = inputs.block;
  const kind = kindOf(section, inputs.valves);
  const style = ledger.word('induction.manifold', section.manifold, () =>
    manifoldStyle(kind, block.cylinders, inputs.block.layout === 'v'),
  );
  const meteringArea =
    (section.flowMultiplier ?? 1) *
    (kind === 'throttle' ? throttleArea(context, inputs, style) : carburetorArea(context, inputs, style));
  const injection =
    kind === 'carburetor'
      ? 'carburetor'
      : ledger.word('induction.injection', section.injection, () => injectionKind());
  const isOpen = style === 'individual-throttles';
  const plenum = isOpen
    ? 0
    : ledger.quantity('induction.plenum', section.plenum, 'volume', 'l', () =>
        plenumVolume(style, displacement),
      );
  const heat = ledger.word('induction.manifoldHeat', section.manifoldHeat, () =>
    manifoldHeat(injection, style, isProduction(context)),
  );
  const wall = (): Estimate => runnerWall(injection, heat, file.heat?.coolant);
  const { stacks, ...runner } = isOpen
    ? resolveStacks(context, inputs, { kind, meteringArea }, wall)
    : { stacks: null, ...resolveRunner(context, inputs, style, wall) };
  const evaporation = ledger.quantity('induction.evaporation', section.evaporation, 'share', '%', () =>
    evaporationOf(injection, inputs.fuel),
  );
  return {
    kind,
    meteringArea,
    airCleanerArea: airCleanerArea(context),
    plenums: isOpen ? airbox(section, block) : plenums(style, block, plenum),
    ...(stacks === null ? {} : { stacks }),
    runner,
    injection,
    evaporation,
    vapour: Math.max(
      evaporation,
      ledger.quantity('induction.vapour', section.vapour, 'share', '%', () =>
        vapour(injection, heat, evaporation, inputs.fuel),
      ),
    ),
    heating: ledger.quantity('induction.heating', section.heating, 'temperature-difference', 'K', () =>
      isOpen ? openHeating() : heating(injection, heat, runner.wallTemperature, file.heat?.coolant),
    ),
  };
}

function kindOf(section: InductionSection, valves: number): 'carburetor' | 'throttle' {
  if (section.carburetor !== undefined) return 'carburetor';
  return section.throttle !== undefined ? 'throttle' : inductionKind(valves).value;
}

function carburetorArea({ file, ledger }: ResolveContext, inputs: InductionInputs, style: Manifold): number {
  const section = file.induction?.carburetor ?? {};
  const { cylinders } = inputs.block.block;
  const { displacement } = inputs.block;
  const path = (field: keyof CarburetorSection): FieldPath => `induction.carburetor.${field}`;
  const each = ledger.number(path('barrels'), section.barrels, () => barrels(displacement));
  const count =
    section.count ??
    (isIndividual(style)
      ? ledger.number(path('count'), undefined, () => ({
          value: Math.max(1, Math.ceil(cylinders / each)),
          spread: null,
          reason: 'a barrel a cylinder',
        }))
      : 1);
  const drop = ledger.quantity(path('ratedAt'), section.ratedAt, 'pressure', 'inHg', () => ratingDrop(each));
  const rating = ledger.quantity(path('rating'), section.rating, 'flow', 'cfm', () =>
    carburetorRating(airDemand(displacement, inputs.ratedSpeed()), drop, count),
  );
  return count * areaFromFlow(rating, drop);
}

function throttleArea({ file, ledger }: ResolveContext, inputs: InductionInputs, style: Manifold): number {
  const section = file.induction?.throttle ?? {};
  const { cylinders } = inputs.block.block;
  const count =
    section.count ??
    (isIndividual(style)
      ? ledger.number('induction.throttle.count', undefined, () => ({
          value: cylinders,
          spread: null,
          reason: 'one a cylinder',
        }))
      : 1);
  const diameter = ledger.quantity('induction.throttle.diameter', section.diameter, 'length', 'mm', () =>
    throttleDiameter(airDemand(inputs.block.displacement, inputs.ratedSpeed()), count, areaFromFlow),
  );
  return count * THROTTLE_COEFFICIENT * (Math.PI / 4) * diameter * diameter;
}

function airCleanerArea({ file, ledger }: ResolveContext): number | null {
  const cleaner = file.induction?.airCleaner;
  if (cleaner === undefined || cleaner === 'none') {
    ledger.word('induction.airCleaner', cleaner, () => ({
      value: 'none',
      reason: 'none on a stand; in a car it costs about 1 % of pressure',
    }));
    return null;
  }
  const drop = ledger.quantity('induction.airCleaner.at', cleaner.at, 'pressure', 'inHg', airCleanerDrop);
  return areaFromFlow(cleaner.flow, drop);
}

/** One plenum, or one a cylinder, or one for every other cylinder in firing order where the manifold is split in planes. */
function plenums(style: Manifold, block: Block, volume: number): Induction['plenums'] {
  const order = block.firingOrder;
  if (style === 'individual-runner') {
    return order.map((_, index) => ({ volume: volume / block.cylinders, cylinders: [index + 1] }));
  }
  if (style === 'dual-plane' && block.cylinders >= 4 && block.cylinders % 2 === 0) {
    return [0, 1].map((plane) => ({
      volume: volume / 2,
      cylinders: order.filter((_, index) => index % 2 === plane).sort((a, b) => a - b),
    }));
  }
  return [{ volume, cylinders: order.map((_, index) => index + 1) }];
}

/** Each cylinder has its own throttle, or barrel. */
function isIndividual(style: Manifold): boolean {
  return style === 'individual-runner' || style === 'individual-throttles';
}

/** A box in front of all trumpets, or none. */
function airbox({ airbox: box }: InductionSection, block: Block): Induction['plenums'] {
  return box === undefined
    ? []
    : [{ volume: box.volume, cylinders: block.firingOrder.map((_, index) => index + 1) }];
}

/** Runner with the throttle that stands in it. */
function resolveStacks(
  context: ResolveContext,
  inputs: InductionInputs,
  metering: { readonly kind: 'carburetor' | 'throttle'; readonly meteringArea: number },
  wall: () => Estimate,
): Induction['runner'] & { readonly stacks: Stacks } {
  const { file, ledger } = context;
  const section = file.induction ?? {};
  const tract = resolveTract(context, inputs, 'individual-throttles');
  const { length, lengthMultiplier, entryArea, exitArea } = tract;
  const { cylinders } = inputs.block.block;
  const count = section.throttle?.count;
  if (count !== undefined && count % cylinders !== 0)
    throw new FieldFault(
      'induction.throttle.count',
      'by-cylinder',
      `is ${count}: with individual-throttles each of the ${cylinders} cylinders has its own`,
    );
  const at = ledger.quantity('induction.runner.throttleAt', section.runner?.throttleAt, 'length', 'mm', () =>
    throttleAt(length),
  );
  if (!(at < length))
    throw new FieldFault(
      'induction.runner.throttleAt',
      'inconsistent',
      'lies behind the end of the runner, the face of the head',
    );
  const here = entryArea + ((exitArea - entryArea) * at) / length;
  const each = metering.meteringArea / cylinders;
  const bore =
    metering.kind === 'carburetor' ? here : each / (THROTTLE_COEFFICIENT * (section.flowMultiplier ?? 1));
  const loss = measuredOrStatedLoss(context, inputs);
  const word = (): 'bell' | 'plain' => ledger.word('induction.runner.mouth', section.runner?.mouth, mouth);
  const { most, ...opening } =
    loss === undefined
      ? { mouthArea: MOUTH_COEFFICIENT[word()] * entryArea, most: null }
      : mouthBeside(mouthOf(tract, loss, inputs), entryArea, Math.max(0, 1 / each ** 2 - 1 / bore ** 2));
  const inlet = section.airbox?.inlet;
  const stacks: Stacks = {
    at: at * lengthMultiplier,
    bore,
    ...(most === null ? {} : { most }),
    ...(inlet === undefined
      ? {}
      : { inlet: { length: inlet.length ?? 0, area: (Math.PI / 4) * inlet.inside ** 2 } }),
  };
  return {
    ...tract,
    ...opening,
    wallTemperature: ledger.quantity(
      'induction.runner.wallTemperature',
      section.runner?.wallTemperature,
      'temperature',
      'K',
      wall,
    ),
    stacks,
  };
}

/**
 * Mouth and throttle where the measured loss is of both together: the throttle takes what it is rated for, as far as the sheet leaves that
 * beside a mouth without loss, and the mouth what remains.
 */
function mouthBeside(
  { area, friction }: RunnerMouth,
  entryArea: number,
  throttle: number,
): Pick<Induction['runner'], 'mouthArea' | 'wallFriction'> & { readonly most: number } {
  const most = Math.max(0, 1 / area ** 2 - 1 / entryArea ** 2);
  return {
    mouthArea: 1 / Math.sqrt(1 / area ** 2 - Math.min(throttle, most)),
    ...(friction < 1 ? { wallFriction: friction } : {}),
    most,
  };
}

function resolveRunner(
  context: ResolveContext,
  inputs: InductionInputs,
  style: Manifold,
  wall: () => Estimate,
): Induction['runner'] {
  const { file, ledger } = context;
  const section = file.induction?.runner ?? {};
  const tract = resolveTract(context, inputs, style);
  const { area, friction } = mouthOf(tract, statedLoss(context, inputs, style), inputs);
  return {
    ...tract,
    mouthArea: area,
    ...(friction < 1 ? { wallFriction: friction } : {}),
    wallTemperature: ledger.quantity(
      'induction.runner.wallTemperature',
      section.wallTemperature,
      'temperature',
      'K',
      wall,
    ),
  };
}

/** Lengths and areas of the runner. */
function resolveTract(
  { file, ledger }: ResolveContext,
  inputs: InductionInputs,
  style: Manifold,
): Pick<Induction['runner'], 'length' | 'lengthMultiplier' | 'entryArea' | 'exitArea'> {
  const section = file.induction?.runner ?? {};
  const path = (field: keyof RunnerSection): FieldPath => `induction.runner.${field}`;
  const length = ledger.quantity(path('length'), section.length, 'length', 'in', () =>
    runnerLength(style, inputs.block.block.bore),
  );
  const exitArea = ledger.quantity(path('exitArea'), section.exitArea, 'area', 'in2', () =>
    runnerExitArea(inputs.portArea),
  );
  const entryArea = ledger.quantity(path('entryArea'), section.entryArea, 'area', 'in2', () =>
    runnerEntryArea(style, exitArea),
  );
  const lengthMultiplier = ledger.number(
    path('lengthMultiplier'),
    section.lengthMultiplier,
    runnerLengthMultiplier,
  );
  return { length, lengthMultiplier, entryArea, exitArea };
}

/** Share of flow lost with the manifold bolted on: stated, from the sheet's own column, or by style. */
function statedLoss(context: ResolveContext, inputs: InductionInputs, style: Manifold): number {
  const stated = measuredOrStatedLoss(context, inputs);
  return context.ledger.quantity('induction.flowLoss', stated, 'share', '%', () => flowLoss(style));
}

function measuredOrStatedLoss({ file, sheets }: ResolveContext, inputs: InductionInputs): number | undefined {
  const sheet = sheets.flow['heads.intake.flow'] ?? sheets.flow['heads.flow'];
  const measured =
    sheet === undefined ? null : measuredLoss(sheet.intake, sheet.withManifold, inputs.maxLift);
  return file.induction?.flowLoss ?? measured ?? undefined;
}

/** Loss at the highest common lift up to the lift used; null where the sheet has no such pair. */
function measuredLoss(
  bare: { readonly lift: readonly number[]; readonly flow: readonly number[] } | null,
  fitted: { readonly lift: readonly number[]; readonly flow: readonly number[] } | null,
  maxLift: number,
): number | null {
  if (bare === null || fitted === null) return null;
  let loss: number | null = null;
  fitted.lift.forEach((lift, index) => {
    const same = bare.lift.indexOf(lift);
    if (same >= 0 && (lift <= maxLift || loss === null)) loss = 1 - fitted.flow[index] / bare.flow[same];
  });
  return loss === null ? null : Math.max(0, loss);
}

/**
 * The runner's mouth that gives the measured loss, at the lift used: what of the loss is not friction of the runner. A manifold
 * that lost less than usual friction takes has smoother walls.
 */
function mouthOf(
  runner: Pick<Induction['runner'], 'length' | 'lengthMultiplier' | 'entryArea' | 'exitArea'>,
  loss: number,
  { flow, maxLift, portLength, portArea }: InductionInputs,
): RunnerMouth {
  const { length, lengthMultiplier, entryArea, exitArea } = runner;
  const tract = {
    runnerLength: length * lengthMultiplier,
    portLength: portLength * lengthMultiplier,
    entryArea,
    exitArea,
    portArea,
  };
  const onBench = (profile: Profile): BenchDuct => ({ profile, fanning: CAST_FANNING });
  const bare = flowArea(flow)(maxLift);
  const valve = nozzleBehindDuct(bare, onBench(intakePortProfile(tract)));
  return runnerMouth((1 - loss) * bare, onBench(intakeProfile(tract)), valve);
}
