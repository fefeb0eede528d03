/** Induction: metering, air cleaner, plenums, runners, charge temperature. */

import type { Block, FlowCurve, Fuel, Induction, Stacks } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import { flowArea } from '../../geometry/flowArea.ts';
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
  runnerEntryArea,
  runnerExitArea,
  runnerLength,
  runnerLengthMultiplier,
  throttleAt,
} from '../defaults/manifold.ts';
import { airboxInlet, airDemand, THROTTLE_COEFFICIENT } from '../defaults/metering.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { InductionSection, Manifold, RunnerSection } from '../schema/inductionSection.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { makeOf } from './makeOf.ts';
import { once } from './once.ts';
import type { ResolvedBlock } from './resolveBlock.ts';
import {
  airCleanerArea,
  kindOf,
  type Metering,
  resolveMetering,
  resolveRestrictor,
} from './resolveMetering.ts';
import { resolvePlenums, resolveRunnerBalance } from './resolvePlenums.ts';

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

/** Everything from the outside air to the head; estimates are listed in the order they are made. */
export function resolveInduction(context: ResolveContext, inputs: InductionInputs): Induction {
  const { file, ledger } = context;
  const section = file.induction ?? {};
  const { block } = inputs.block;
  const kind = kindOf(section, inputs.valves);
  const style = styleOf(context, inputs, kind);
  const tract = once(() => resolveTract(context, inputs, style));
  const metering = resolveMetering(context, inputs, {
    kind,
    style,
    runnerArea: () => areaAt(tract(), section.runner?.throttleAt ?? throttleAt(tract().length).value),
  });
  const { meteringArea, venturi } = metering;
  const injection =
    kind === 'carburetor'
      ? 'carburetor'
      : ledger.word('induction.injection', section.injection, () => injectionKind());
  const isOpen = style === 'individual-throttles';
  const parts = isOpen
    ? { plenums: airbox(section, block) }
    : resolvePlenums(context, { block: inputs.block, style, metering });
  const heat = ledger.word('induction.manifoldHeat', section.manifoldHeat, () =>
    manifoldHeat(injection, style, makeOf(context)),
  );
  const wall = (): Estimate => runnerWall(injection, heat, file.heat?.coolant);
  const { stacks, ...runner } = isOpen
    ? resolveStacks(context, inputs, { kind, meteringArea }, tract(), wall)
    : { stacks: null, ...resolveRunner(context, inputs, style, tract(), wall) };
  const evaporation = ledger.quantity('induction.evaporation', section.evaporation, 'share', '%', () =>
    evaporationOf(injection, inputs.fuel),
  );
  const cleaner = airCleanerArea(context);
  const restrictor = restrictorOf(context, metering, parts.plenums);
  const balance = resolveRunnerBalance(context, inputs.block, {
    runnerLength: runner.length,
    throttleAt: stacks === null ? 0 : stacks.at / runner.lengthMultiplier,
  });
  return {
    kind,
    meteringArea,
    ...(venturi === undefined ? {} : { venturi }),
    ...(restrictor === undefined ? {} : { restrictor }),
    airCleanerArea: cleaner,
    ...parts,
    ...(stacks === null ? {} : { stacks }),
    runner,
    ...(balance === undefined ? {} : { balance }),
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

/** A restrictor, which needs a plenum or an airbox to stand in front of. */
function restrictorOf(
  context: ResolveContext,
  metering: Metering,
  plenums: Induction['plenums'],
): Induction['restrictor'] {
  const restrictor = resolveRestrictor(context, metering);
  if (restrictor === undefined || plenums.length > 0) return restrictor;
  throw new FieldFault(
    'induction.restrictor',
    'restrictor',
    'stands in front of an airbox, and these throttles have none: a bore in each runner is the throttle diameter',
  );
}

/** The style of manifold that the file states, or the usual one. */
function styleOf(
  { file, ledger }: ResolveContext,
  { block, ratedSpeed }: InductionInputs,
  kind: 'carburetor' | 'throttle',
): Manifold {
  const section = file.induction ?? {};
  return ledger.word('induction.manifold', section.manifold, () =>
    manifoldStyle(kind, {
      cylinders: block.block.cylinders,
      isV: block.layout === 'v',
      isPlain: isPlain(section),
      ratedSpeed,
    }),
  );
}

/** Nothing is said of a plenum, or of what stands under a carburetor or in front of a throttle body. */
function isPlain({ plenum, groups, spacer, inletDuct, restrictor, divider }: InductionSection): boolean {
  return [plenum, groups, spacer, inletDuct, restrictor, divider].every((part) => part === undefined);
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
  tract: Tract,
  wall: () => Estimate,
): Induction['runner'] & { readonly stacks: Stacks } {
  const { file, ledger } = context;
  const section = file.induction ?? {};
  const { length, lengthMultiplier, entryArea } = tract;
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
  const here = areaAt(tract, at);
  const each = metering.meteringArea / cylinders;
  const bore =
    metering.kind === 'carburetor' ? here : each / (THROTTLE_COEFFICIENT * (section.flowMultiplier ?? 1));
  const loss = measuredOrStatedLoss(context, inputs);
  const word = (): 'bell' | 'plain' => ledger.word('induction.runner.mouth', section.runner?.mouth, mouth);
  const { most, ...opening } =
    loss === undefined
      ? { mouthArea: MOUTH_COEFFICIENT[word()] * entryArea, most: null }
      : mouthBeside(mouthOf(tract, loss, inputs), entryArea, Math.max(0, 1 / each ** 2 - 1 / bore ** 2));
  const inlet = resolveAirboxInlet(context, inputs);
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

/** The way into the airbox; where only an air cleaner is known of it, that is all there is. */
function resolveAirboxInlet(
  { file, ledger }: ResolveContext,
  { block: { displacement }, ratedSpeed }: InductionInputs,
): { readonly inside: number; readonly length?: number | undefined } | undefined {
  const { airbox: box, airCleaner } = file.induction ?? {};
  if (box === undefined || box.inlet !== undefined) return box?.inlet;
  if (airCleaner !== undefined && airCleaner !== 'none') return undefined;
  const path = 'induction.airbox.inlet.inside';
  const inside = ledger.quantity(path, undefined, 'length', 'mm', () =>
    airboxInlet(airDemand(displacement, ratedSpeed())),
  );
  return { inside };
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
  tract: Tract,
  wall: () => Estimate,
): Induction['runner'] {
  const { file, ledger } = context;
  const section = file.induction?.runner ?? {};
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
type Tract = Pick<Induction['runner'], 'length' | 'lengthMultiplier' | 'entryArea' | 'exitArea'>;

/** Area of the runner so far from its mouth [m2]. */
function areaAt({ length, entryArea, exitArea }: Tract, at: number): number {
  return entryArea + ((exitArea - entryArea) * at) / length;
}

function resolveTract({ file, ledger }: ResolveContext, inputs: InductionInputs, style: Manifold): Tract {
  const section = file.induction?.runner ?? {};
  const path = (field: keyof RunnerSection): FieldPath => `induction.runner.${field}`;
  const length = ledger.quantity(path('length'), section.length, 'length', 'in', () =>
    runnerLength(style, inputs.block.block.bore, inputs.portLength, inputs.ratedSpeed()),
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
