/** Runners from plenum to head: lengths, areas, and the mouth that loses what the manifold does. */
import type { FlowCurve, Induction } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import { flowArea } from '../../geometry/flowArea.ts';
import { BENCH_FLOW, pipeFanning, ROUGHNESS } from '../../geometry/pipeFriction.ts';
import type { BenchDuct, RunnerMouth } from '../../geometry/tractBench.ts';
import { nozzleBehindDuct, runnerMouth } from '../../geometry/tractBench.ts';
import type { Profile } from '../../geometry/tractProfile.ts';
import { intakePortProfile, intakeProfile } from '../../geometry/tractProfile.ts';
import {
  flowLoss,
  runnerEntryArea,
  runnerExitArea,
  runnerLength,
  runnerLengthMultiplier,
} from '../defaults/manifold.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { Manifold, RunnerSection } from '../schema/inductionSection.ts';
import type { ResolveContext } from './context.ts';
import type { ResolvedBlock } from './resolveBlock.ts';

/** What runners are sized by. */
export interface RunnerInputs {
  readonly block: ResolvedBlock;
  readonly portArea: number;
  readonly portLength: number;
  readonly flow: FlowCurve;
  /** Greatest valve lift, before lash [m]. */
  readonly maxLift: number;
  readonly ratedSpeed: () => number;
}

/** Lengths and areas of the runner. */
export type Tract = Pick<Induction['runner'], 'length' | 'lengthMultiplier' | 'entryArea' | 'exitArea'>;

/** Area of the runner so far from its mouth [m2]. */
export function runnerAreaAt({ length, entryArea, exitArea }: Tract, at: number): number {
  return entryArea + ((exitArea - entryArea) * at) / length;
}

export function resolveTract({ file, ledger }: ResolveContext, inputs: RunnerInputs, style: Manifold): Tract {
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

/** A runner that begins in a plenum. */
export function resolveRunner(
  context: ResolveContext,
  inputs: RunnerInputs,
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

/** Share of flow lost with the manifold bolted on: stated, from the sheet's own column, or by style. */
function statedLoss(context: ResolveContext, inputs: RunnerInputs, style: Manifold): number {
  const stated = measuredOrStatedLoss(context, inputs);
  return context.ledger.quantity('induction.flowLoss', stated, 'share', '%', () => flowLoss(style));
}

/** The loss that the file states, or else its sheets show; undefined where neither speaks of it. */
export function measuredOrStatedLoss(
  { file, sheets }: ResolveContext,
  inputs: RunnerInputs,
): number | undefined {
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
export function mouthOf(
  runner: Tract,
  loss: number,
  { flow, maxLift, portLength, portArea }: RunnerInputs,
): RunnerMouth {
  const { length, lengthMultiplier, entryArea, exitArea } = runner;
  const tract = {
    runnerLength: length * lengthMultiplier,
    portLength: portLength * lengthMultiplier,
    entryArea,
    exitArea,
    portArea,
  };
  const fanning = pipeFanning(ROUGHNESS.cast, portArea, BENCH_FLOW);
  const onBench = (profile: Profile): BenchDuct => ({ profile, fanning });
  const bare = flowArea(flow)(maxLift);
  const valve = nozzleBehindDuct(bare, onBench(intakePortProfile(tract)));
  return runnerMouth((1 - loss) * bare, onBench(intakeProfile(tract)), valve);
}
