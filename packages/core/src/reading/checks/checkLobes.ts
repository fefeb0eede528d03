/** Checks that a lobe can be made of what card or table say. */

import { DomainError } from '../../base/errors.ts';
import type { Combination, Lobe } from '../../combination/combination.ts';
import type { Side } from '../../combination/sides.ts';
import { SIDES } from '../../combination/sides.ts';
import { lengthText } from '../../combination/sizeText.ts';
import { type CardFault, cardFault } from '../../geometry/cardFault.ts';
import { buildLobe } from '../../geometry/lobe.ts';
import { CARD_LIFTS } from '../resolve/cardLobe.ts';
import type { ResolveContext } from '../resolve/context.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { Report } from './report.ts';

type Card = Extract<Lobe, { kind: 'card' }>;

export function checkLobes(context: ResolveContext, combination: Combination, report: Report): void {
  for (const side of SIDES) {
    const { lobe } = combination[side];
    const fault = lobe.kind === 'card' ? cardFault(lobe.points, lobe.maxLift) : null;
    if (lobe.kind === 'card' && fault !== null) tellCard(context, side, lobe, fault, report);
    else tellUnbuilt(side, lobe, report);
  }
}

/** Two lines of a card that can't both be right: which, and by how much. */
function tellCard(context: ResolveContext, side: Side, lobe: Card, fault: CardFault, report: Report): void {
  const longer = lineOf(context, side, lobe, fault.longer);
  const shorter = lineOf(context, side, lobe, fault.shorter);
  const limit =
    fault.atLeast === null
      ? `at most ${Math.floor(fault.atMost ?? 0)} deg`
      : `at least ${Math.ceil(fault.atLeast)} deg`;
  const message =
    fault.shorter < lobe.points.length
      ? `can't go with ${shorter.field}: ${longer.text} and ${shorter.text} are ${degrees(fault.apart)} apart, and a lobe has them ${limit} apart`
      : `can't go with ${shorter.field}: ${longer.text} and a lobe of ${report.length(lobe.maxLift)}, which needs ${limit} there`;
  const at = isStated(context, side, longer.field) ? longer : shorter;
  report.problem(
    `cam.${side}.${at.field}`,
    'card-impossible',
    at === longer ? message : swapped(message, longer.field, shorter.field),
  );
}

/** The message as it reads at the other of the two fields. */
function swapped(message: string, longer: string, shorter: string): string {
  return message.replace(`can't go with ${shorter}:`, `can't go with ${longer}:`);
}

/** What passes the checks and still makes no lobe. */
function tellUnbuilt(side: Side, lobe: Lobe, report: Report): void {
  try {
    buildLobe(lobe);
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const path: FieldPath = lobe.kind === 'card' ? `cam.${side}` : `cam.${side}.table`;
    report.problem(path, 'card-impossible', `makes no lobe: ${error.message}`);
  }
}

type CardField = 'advertised' | 'at050' | 'at200' | 'lobeLift' | 'valveLift';

/** A line of the card as the file calls it, and as people say it. */
function lineOf(
  { file }: ResolveContext,
  side: Side,
  { points, maxLift }: Card,
  index: number,
): { readonly field: CardField; readonly text: string } {
  if (index >= points.length) {
    const field =
      file.cam?.[side]?.valveLift !== undefined && file.cam[side].lobeLift === undefined
        ? 'valveLift'
        : 'lobeLift';
    return { field, text: `a lobe of ${lengthText(maxLift, file.units)}` };
  }
  const { duration, lift } = points[index];
  const field = lift === CARD_LIFTS.at050 ? 'at050' : lift === CARD_LIFTS.at200 ? 'at200' : 'advertised';
  return { field, text: `${degrees(duration)} above ${lengthText(lift, file.units)}` };
}

function isStated({ file }: ResolveContext, side: Side, field: CardField): boolean {
  return file.cam?.[side]?.[field] !== undefined;
}

function degrees(angle: number): string {
  return `${Number(angle.toPrecision(4))} deg`;
}
