/** The lobes and what carries them: card or table, centrelines, rockers, lash, bending. */

import { middleOf } from '../../combination/atSpeed.ts';
import type { Lobe } from '../../combination/combination.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { Side } from '../../combination/sides.ts';
import { advance, exhaustDuration, lifter, separation } from '../defaults/cam.ts';
import { type BreathingSizes, intakeDuration } from '../defaults/ratedSpeed.ts';
import { flex, lash, PRODUCTION_RATIO_FACTOR, rockerRatio, valvetrainType } from '../defaults/valvetrain.ts';
import type { Lifter, ValvetrainType } from '../schema/camSection.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { LiftTable } from '../sheet/liftTable.ts';
import { cardLobe, type Gear, statedCardRatio } from './cardLobe.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { camKind, makeOf } from './makeOf.ts';
import { once } from './once.ts';
import { statedDuration } from './statedDuration.ts';

/** Centrelines may miss the separation by this much [cam deg]. */
export const ANGLE_SLACK = 1;

/** What one side's valves get. */
export interface ResolvedCam {
  readonly lobe: Lobe;
  readonly centreline: number;
  readonly rockerRatio: number;
  readonly lash: number;
  readonly deflection: number;
}

/** Cam and valvetrain of the whole engine. */
export interface ResolvedGear {
  readonly intake: ResolvedCam;
  readonly exhaust: ResolvedCam;
  readonly type: ValvetrainType;
  readonly lifter: Lifter;
}

/** Cam and valvetrain, with the bending of the valvetrain: one field for both sides, assumed once. */
interface Train extends Gear {
  /** [m] */
  readonly flex: () => number;
}

export function resolveGear(
  context: ResolveContext,
  breathing: BreathingSizes,
  exhaustValve: number,
  valves: number,
  ratedSpeed: () => number,
): ResolvedGear {
  const { file, ledger } = context;
  const type = ledger.word('valvetrain.type', file.valvetrain?.type, () => valvetrainType(valves));
  const kind = ledger.word('cam.lifter', file.cam?.lifter, () => usualLifter(context, valves));
  const gear: Train = {
    type,
    lifter: kind,
    valves,
    sizes: { intake: breathing.valveDiameter, exhaust: exhaustValve },
    flex: once(() =>
      ledger.quantity('valvetrain.flex', file.valvetrain?.flex, 'length', 'in', () => flex(type)),
    ),
  };
  const lines = centrelines(context);
  const estimate = (): Estimate => intakeDuration(breathing, ratedSpeed(), camKind(context));
  const intakeAt050 = (): number => statedDuration(file, 'intake', kind) ?? estimate().value;
  return {
    type,
    lifter: kind,
    intake: resolveSide(context, 'intake', gear, lines.intake, estimate),
    exhaust: resolveSide(context, 'exhaust', gear, lines.exhaust, () =>
      exhaustDuration(intakeAt050(), valves),
    ),
  };
}

/** The lifter of an engine whose file names none. A rated speed counts only where somebody wrote it. */
export function usualLifter({ file, written }: ResolveContext, valves: number): WordEstimate<Lifter> {
  return lifter(valves, file.valvetrain?.intakeLash, written.file.engine?.ratedSpeed);
}

function centrelines(context: ResolveContext): { intake: number; exhaust: number } {
  const { file, ledger } = context;
  const cam = file.cam ?? {};
  const intakeStated = statedCentreline(context, 'intake');
  const exhaustStated = statedCentreline(context, 'exhaust');
  if (intakeStated !== undefined && exhaustStated !== undefined) {
    const found = (intakeStated + exhaustStated) / 2;
    if (Math.abs((cam.separation ?? found) - found) > ANGLE_SLACK) {
      const message = `disagrees with the lobes as measured, which stand ${found.toFixed(1)} deg apart`;
      throw new FieldFault('cam.separation', 'separation-disagrees', message);
    }
    return { intake: intakeStated, exhaust: exhaustStated };
  }
  const lobes = ledger.quantity('cam.separation', cam.separation, 'angle', 'deg', () =>
    separation(makeOf(context)),
  );
  if (exhaustStated !== undefined && cam.advance === undefined) {
    return { intake: 2 * lobes - exhaustStated, exhaust: exhaustStated };
  }
  const ahead =
    intakeStated === undefined ? ledger.quantity('cam.advance', cam.advance, 'angle', 'deg', advance) : 0;
  const intake = intakeStated ?? lobes - ahead;
  return { intake, exhaust: exhaustStated ?? 2 * lobes - intake };
}

/** A centreline as the file gives it, or as measured with the lobe where the file's own angles don't tell; else undefined. */
function statedCentreline({ file, sheets }: ResolveContext, side: Side): number | undefined {
  const { separation, advance, intake, exhaust } = file.cam ?? {};
  const own = middleOf(file.cam?.[side]?.centreline);
  const angles = [intake?.centreline, exhaust?.centreline, advance];
  if (own !== undefined || (separation !== undefined && angles.some((angle) => angle !== undefined)))
    return own;
  return sheets.lobe[`cam.${side}.table`]?.centreline ?? undefined;
}

function resolveSide(
  context: ResolveContext,
  side: Side,
  gear: Train,
  centreline: number,
  duration: () => Estimate,
): ResolvedCam {
  const { file, ledger } = context;
  const train = file.valvetrain ?? {};
  const card = file.cam?.[side] ?? {};
  const ratioPath: FieldPath = `valvetrain.${side}Ratio`;
  const stated = side === 'intake' ? train.intakeRatio : train.exhaustRatio;
  // Lobe and valve lift on one card give the ratio, where nothing else does.
  const fromCard =
    card.lobeLift !== undefined && card.valveLift !== undefined && statedCardRatio(file, side) === undefined
      ? card.valveLift / card.lobeLift
      : undefined;
  const ratio = ledger.number(ratioPath, stated ?? fromCard, () => rockerRatio(gear.type));
  const clearance = side === 'intake' ? train.intakeLash : train.exhaustLash;
  const table = context.sheets.lobe[`cam.${side}.table`];
  const lobe = table ?? cardLobe(context, side, gear, ratio, duration);
  const rockers = {
    rockerRatio: train.ratioIs === 'production' ? ratio * PRODUCTION_RATIO_FACTOR : ratio,
    lash: ledger.quantity(`valvetrain.${side}Lash`, clearance, 'length', 'in', () =>
      lash(gear.type, gear.lifter),
    ),
    deflection: gear.flex(),
  };
  return { lobe: 'of' in lobe ? measuredLobe(lobe, ratio, rockers) : lobe, centreline, ...rockers };
}

/**
 * A lobe as measured, brought to the lobe. What the valve did net of lash and bending gets them back, so that other lash or rockers
 * act on it as on any other; a shut valve says no more of its lobe than that it is within the lash.
 */
function measuredLobe(
  { angle, lift, of }: LiftTable,
  ratio: number,
  { rockerRatio, lash: clearance, deflection }: Pick<ResolvedCam, 'rockerRatio' | 'lash' | 'deflection'>,
): Lobe {
  if (of === 'lobe') return { kind: 'table', angle, lift };
  if (of === 'valve') return { kind: 'table', angle, lift: lift.map((at) => at / ratio) };
  const highest = (Math.max(...lift) + clearance + deflection) / rockerRatio;
  const first = Math.max(0, lift.findIndex((at) => at > 0) - 1);
  const last = lift.findLastIndex((at) => at > 0) + 2;
  return {
    kind: 'table',
    angle: angle.slice(first, last),
    lift: lift.slice(first, last).map((at) => (at + clearance) / (rockerRatio - deflection / highest)),
  };
}
