/** A lobe by its card: what the card leaves out is filled in, and listed. */
import { INCH } from '../../base/constants.ts';
import type { Lobe } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import type { Side } from '../../combination/sides.ts';
import { lengthText } from '../../combination/sizeText.ts';
import { completeCard, type Follower, standardDuration } from '../../geometry/lobeCard.ts';
import { checkingHeight, estimatedLift, LEAST_LOBE_LIFT } from '../defaults/cam.ts';
import type { CamSide, Lifter, ValvetrainType } from '../schema/camSection.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';

/** Lifter rises that cards state durations at [m]. */
export const CARD_LIFTS: { readonly at050: number; readonly at200: number } = {
  at050: 0.05 * INCH,
  at200: 0.2 * INCH,
};

/** Least lobe lift taken where a duration at 0.200 in is stated and no lift [m]. */
const LIFT_BESIDE_AT200 = 0.25 * INCH;

/** Lobe lift taken where a duration is brought to 0.050 in and no lift is known yet [m]. */
export const LIFT_BESIDE_ADVERTISED: number = 0.3 * INCH;

/** Rocker ratios no further apart are one, as the list of what was assumed shows them [-]. */
const SAME_RATIO = 1e-3;

/** What a side's lobe works with. */
export interface Gear {
  readonly type: ValvetrainType;
  readonly lifter: Lifter;
  readonly valves: number;
  readonly sizes: Readonly<Record<Side, number>>;
}

/** What follows the lobe: a roller, or a flat face. */
export function followerOf(lifter: Lifter): Follower {
  return lifter.endsWith('roller') ? 'roller' : 'flat';
}

/** The lobe of a side, through every line of its card. */
export function cardLobe(
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
  // Big twins count at 0.053 in, above the usual 0.050.
  lines.sort((a, b) => a.lift - b.lift);
  const follower = followerOf(gear.lifter);
  const maxLift = lobeLift(
    context,
    side,
    gear,
    ratio,
    card.at050 ?? standardDuration(lines, LIFT_BESIDE_ADVERTISED, follower),
  );
  const last = lines[lines.length - 1];
  if (!(last.lift < maxLift)) {
    const field =
      last.lift === CARD_LIFTS.at200 ? 'at200' : card.advertised === undefined ? 'at050' : 'advertised';
    const message = `is impossible: the lobe rises only ${lengthText(maxLift, context.file.units)}`;
    throw new FieldFault(path(card[field] === undefined ? 'valveLift' : field), 'lobe-lift', message);
  }
  const complete = completeCard(lines, maxLift, follower);
  const filled = complete.points.map((point) => {
    if (!complete.estimated.includes(point)) return point;
    return { lift: point.lift, duration: noteEstimate(context, path, point, card.advertised !== undefined) };
  });
  return { kind: 'card', points: filled, maxLift };
}

/** Duration at 0.050 in where the card gives only the one at 0.200 in. */
function durationFrom(at200: number, lobeLift: number | undefined, kind: Lifter): Estimate {
  const lift = Math.max(lobeLift ?? 0, LIFT_BESIDE_AT200);
  return {
    value: standardDuration([{ duration: at200, lift: CARD_LIFTS.at200 }], lift, followerOf(kind)),
    spread: 8,
    reason: 'from the duration at 0.200 in by a raised cosine; common practice, no source',
  };
}

/** Puts an estimated line of the card into the ledger and gives its duration as shown there; `isStatedHigher`: the card's own is not near the seat. */
function noteEstimate(
  { ledger }: ResolveContext,
  path: (field: keyof CamSide) => FieldPath,
  point: { readonly duration: number; readonly lift: number },
  isStatedHigher: boolean,
): number {
  const low = point.lift < CARD_LIFTS.at050;
  if (low) {
    ledger.quantity(path('checkedAt'), undefined, 'length', 'in', () => ({
      value: point.lift,
      spread: null,
      reason: isStatedHigher
        ? 'the stated duration counts at its own lift; near the seat another is estimated, at this height'
        : 'height the estimated advertised duration belongs to',
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
