/** The lobes and what carries them: card or table, centrelines, rockers, lash, bending. */

import { INCH } from '../../base/constants.ts';
import { middleOf } from '../../combination/atSpeed.ts';
import type { Lobe } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import { completeCard, standardDuration } from '../../geometry/lobeCard.ts';
import { inches } from '../checks/report.ts';
import {
  advance,
  checkingHeight,
  estimatedLift,
  exhaustDuration,
  LEAST_LOBE_LIFT,
  lifter,
  separation,
} from '../defaults/cam.ts';
import { type BreathingSizes, intakeDuration } from '../defaults/ratedSpeed.ts';
import type { Side } from '../defaults/side.ts';
import { flex, lash, PRODUCTION_RATIO_FACTOR, rockerRatio, valvetrainType } from '../defaults/valvetrain.ts';
import type { CamSide, Lifter, ValvetrainType } from '../schema/camSection.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { LiftTable } from '../sheet/liftTable.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { makeOf } from './makeOf.ts';

/** Lifter rises that cards state durations at [m]. */
export const CARD_LIFTS: { readonly at050: number; readonly at200: number } = {
  at050: 0.05 * INCH,
  at200: 0.2 * INCH,
};

/** Centrelines may miss the separation by this much [cam deg]. */
export const ANGLE_SLACK = 1;

/** Least lobe lift taken where a duration at 0.200 in is stated and no lift [m]. */
const LIFT_BESIDE_AT200 = 0.25 * INCH;

/** Rocker ratios no further apart are one, as the list of what was assumed shows them [-]. */
const SAME_RATIO = 1e-3;

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

interface Gear {
  readonly type: ValvetrainType;
  readonly lifter: Lifter;
  readonly valves: number;
  readonly sizes: Readonly<Record<Side, number>>;
}

/** Duration at 0.050 in as stated, or estimated from the longest stated line; null where the file gives none. */
export function statedDuration(context: ResolveContext, side: Side, kind: Lifter): number | null {
  const card = context.file.cam?.[side];
  if (card?.at050 !== undefined) return card.at050;
  if (card?.advertised === undefined) return null;
  const lift = card.checkedAt ?? checkingHeight(kind).value;
  return standardDuration(
    [{ duration: card.advertised, lift }],
    0.3 * INCH,
    kind.endsWith('roller') ? 'roller' : 'flat',
  );
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
  const kind = ledger.word('cam.lifter', file.cam?.lifter, () => lifter(valves, file.valvetrain?.intakeLash));
  const gear: Gear = {
    type,
    lifter: kind,
    valves,
    sizes: { intake: breathing.valveDiameter, exhaust: exhaustValve },
  };
  const lines = centrelines(context);
  const estimate = (): Estimate => intakeDuration(breathing, ratedSpeed(), makeOf(context));
  const intakeAt050 = (): number => statedDuration(context, 'intake', kind) ?? estimate().value;
  return {
    type,
    lifter: kind,
    intake: resolveSide(context, 'intake', gear, lines.intake, estimate),
    exhaust: resolveSide(context, 'exhaust', gear, lines.exhaust, () =>
      exhaustDuration(intakeAt050(), valves),
    ),
  };
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
  gear: Gear,
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
    deflection: ledger.quantity('valvetrain.flex', train.flex ?? flexSoFar(ledger), 'length', 'in', () =>
      flex(gear.type),
    ),
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

/** Bending is one field for both sides: assume it once. */
function flexSoFar(ledger: ResolveContext['ledger']): number | undefined {
  const entry = ledger.assumed.find((assumed) => assumed.path === 'valvetrain.flex');
  return entry === undefined ? undefined : Number(entry.value) * INCH;
}

function cardLobe(
  context: ResolveContext,
  side: Side,
  gear: Gear,
  ratio: number,
  duration: () => Estimate,
): Lobe {
  const { ledger } = context;
  const card: CamSide = context.file.cam?.[side] ?? {};
  const path = (field: keyof CamSide): FieldPath => `cam.${side}.${field}`;
  const lines: { duration: number; lift: number }[] = [];
  if (card.advertised !== undefined) {
    const lift = ledger.quantity(path('checkedAt'), card.checkedAt, 'length', 'in', () =>
      checkingHeight(gear.lifter),
    );
    lines.push({ duration: card.advertised, lift });
  }
  if (card.at050 !== undefined || card.advertised === undefined) {
    const at050 = ledger.quantity(path('at050'), card.at050, 'angle', 'deg', () =>
      card.at200 === undefined ? duration() : durationFrom(card.at200, card.lobeLift, gear.lifter),
    );
    lines.push({ duration: at050, lift: CARD_LIFTS.at050 });
  }
  if (card.at200 !== undefined) lines.push({ duration: card.at200, lift: CARD_LIFTS.at200 });
  const follower = gear.lifter.endsWith('roller') ? 'roller' : 'flat';
  const maxLift = lobeLift(
    context,
    side,
    gear,
    ratio,
    card.at050 ?? standardDuration(lines, 0.3 * INCH, follower),
  );
  const last = lines[lines.length - 1];
  if (!(last.lift < maxLift)) {
    const field =
      last.lift === CARD_LIFTS.at200 ? 'at200' : card.advertised === undefined ? 'at050' : 'advertised';
    const message = `is impossible: the lobe rises only ${inches(maxLift)}`;
    throw new FieldFault(path(card[field] === undefined ? 'valveLift' : field), 'lobe-lift', message);
  }
  const complete = completeCard(lines, maxLift, follower);
  const filled = complete.points.map((point) => {
    if (!complete.estimated.includes(point)) return point;
    return { lift: point.lift, duration: noteEstimate(context, path, point) };
  });
  return { kind: 'card', points: filled, maxLift };
}

/** Duration at 0.050 in where the card gives only the one at 0.200 in. */
function durationFrom(at200: number, lobeLift: number | undefined, kind: Lifter): Estimate {
  const lift = Math.max(lobeLift ?? 0, LIFT_BESIDE_AT200);
  const follower = kind.endsWith('roller') ? 'roller' : 'flat';
  return {
    value: standardDuration([{ duration: at200, lift: CARD_LIFTS.at200 }], lift, follower),
    spread: 8,
    reason: 'from the duration at 0.200 in by a raised cosine; common practice, no source',
  };
}

/** Puts an estimated line of the card into the ledger and gives its duration as shown there. */
function noteEstimate(
  { ledger }: ResolveContext,
  path: (field: keyof CamSide) => FieldPath,
  point: { readonly duration: number; readonly lift: number },
): number {
  const low = point.lift < CARD_LIFTS.at050;
  if (low) {
    ledger.quantity(path('checkedAt'), undefined, 'length', 'in', () => ({
      value: point.lift,
      spread: null,
      reason: 'height the estimated advertised duration belongs to',
    }));
  }
  return ledger.quantity(path(low ? 'advertised' : 'at200'), undefined, 'angle', 'deg', () => ({
    value: Math.round(10 * point.duration) / 10,
    spread: 5,
    reason: 'usual for this kind of lifter and duration at 0.050 in; common practice, no source',
  }));
}

function lobeLift(
  { file, ledger }: ResolveContext,
  side: Side,
  gear: Gear,
  ratio: number,
  at050: number,
): number {
  const card = file.cam?.[side] ?? {};
  if (card.lobeLift !== undefined) return card.lobeLift;
  if (card.valveLift !== undefined) {
    const known = statedCardRatio(file, side);
    if (known !== undefined) return card.valveLift / known;
    // One entry for both sides where their rockers are alike; a split set has two.
    const both = assumedNumber(ledger, 'cam.cardRatio');
    const alike = both !== undefined && Math.abs(both / ratio - 1) < SAME_RATIO;
    const path: FieldPath = both === undefined || alike ? 'cam.cardRatio' : `cam.${side}.cardRatio`;
    const cardRatio = ledger.number(path, alike ? both : undefined, () => ({
      value: ratio,
      spread: null,
      reason:
        gear.type === 'direct-acting'
          ? 'the lobe lifts the valve itself'
          : 'ratio of the rockers fitted; state it before trying others',
    }));
    return card.valveLift / cardRatio;
  }
  return ledger.quantity(`cam.${side}.lobeLift`, undefined, 'length', 'in', () => {
    const lift = estimatedLift(gear.sizes[side], at050, gear.valves);
    const least = card.at200 === undefined ? LEAST_LOBE_LIFT : LIFT_BESIDE_AT200;
    const value = Math.max(lift.value / ratio, least);
    return { value, spread: (lift.spread ?? 0) / ratio, reason: lift.reason };
  });
}

/** Rocker ratio that a side's valve lift on the card refers to [-]; undefined where the file leaves it out. */
export function statedCardRatio({ cam }: PartialFile, side: Side): number | undefined {
  return cam?.[side]?.cardRatio ?? cam?.cardRatio;
}

function assumedNumber(ledger: ResolveContext['ledger'], path: FieldPath): number | undefined {
  const entry = ledger.assumed.find((assumed) => assumed.path === path);
  return entry === undefined ? undefined : Number(entry.value);
}
