/** Checks of cam card and valvetrain as stated. */

import { INCH } from '../../base/constants.ts';
import { middleOf } from '../../combination/atSpeed.ts';
import { SIDES, type Side } from '../../combination/sides.ts';
import { CARD_LIFTS, statedCardRatio } from '../resolve/cardLobe.ts';
import { ANGLE_SLACK } from '../resolve/resolveCam.ts';
import type { CamSection } from '../schema/camSection.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { Report } from './report.ts';

/** Lift may miss lobe times ratio by this much [-]: cards are rounded to a thousandth. */
const LIFT_SLACK = 0.02;

const CARD_FIELDS = ['advertised', 'checkedAt', 'at050', 'at200', 'lobeLift', 'valveLift'] as const;

export function checkCam(file: PartialFile, report: Report): void {
  const { cam } = file;
  if (cam === undefined) return;
  for (const side of SIDES) {
    const card = cam[side];
    if (card === undefined) continue;
    const path = `cam.${side}` as const;
    checkOrder(card, side, report);
    if (card.table !== undefined && CARD_FIELDS.some((field) => card[field] !== undefined)) {
      report.problem(`${path}.table`, 'cam-twice', 'is given beside a cam card: keep one of the two');
    }
    if (card.at200 !== undefined && card.lobeLift !== undefined && !(card.lobeLift > 0.2 * INCH)) {
      report.problem(
        `${path}.at200`,
        'lobe-lift',
        `is impossible: the lobe rises only ${report.length(card.lobeLift)}`,
      );
    }
    if (card.lobeLift !== undefined && !(card.lobeLift > 0.05 * INCH)) {
      report.problem(`${path}.lobeLift`, 'lobe-lift', 'is not above 0.050 in, where durations are taken');
    }
    checkLift(file, side, report);
  }
  checkAngles(cam, report);
}

/** An angle as people read it. */
function shown(angle: number): string {
  return `${Number(angle.toPrecision(5))} deg`;
}

function checkOrder(card: NonNullable<CamSection['intake']>, side: Side, report: Report): void {
  const path = `cam.${side}` as const;
  const { advertised, at050, at200, checkedAt = 0 } = card;
  if (advertised !== undefined && at050 !== undefined) {
    const isLower = checkedAt < CARD_LIFTS.at050;
    if (isLower ? !(at050 < advertised) : !(at050 > advertised)) {
      const side = isLower ? 'below' : 'above';
      const message = `is not ${side} the advertised duration: ${shown(at050)} against ${shown(advertised)}`;
      report.problem(`${path}.at050`, 'duration-order', message);
    }
  }
  const longer = at050 ?? advertised;
  if (at200 !== undefined && longer !== undefined && !(at200 < longer)) {
    const message = `is not below the duration at lower lift: ${shown(at200)} against ${shown(longer)}`;
    report.problem(`${path}.at200`, 'duration-order', message);
  }
}

function checkLift(file: PartialFile, side: Side, report: Report): void {
  const { lobeLift, valveLift } = file.cam?.[side] ?? {};
  if (lobeLift === undefined || valveLift === undefined) return;
  const fitted = side === 'intake' ? file.valvetrain?.intakeRatio : file.valvetrain?.exhaustRatio;
  const ratio = statedCardRatio(file, side) ?? fitted;
  if (ratio === undefined) return;
  const expected = lobeLift * ratio;
  if (Math.abs(valveLift / expected - 1) > LIFT_SLACK) {
    const message = `is not lobe lift times rocker ratio: ${report.length(lobeLift)} times ${ratio} is ${report.length(expected)}`;
    const hint = 'where the card is for other rockers, state cam.cardRatio';
    report.problem(`cam.${side}.valveLift`, 'lift-disagrees', message, hint);
  }
}

function checkAngles(cam: CamSection, report: Report): void {
  const { separation, advance } = cam;
  const intake = middleOf(cam.intake?.centreline);
  const exhaust = middleOf(cam.exhaust?.centreline);
  if (separation !== undefined && intake !== undefined && exhaust !== undefined) {
    const found = (intake + exhaust) / 2;
    if (Math.abs(found - separation) > ANGLE_SLACK) {
      const message = `disagrees with the centrelines: ${shown(intake)} and ${shown(exhaust)} make ${shown(found)}`;
      report.problem('cam.separation', 'separation-disagrees', message);
    }
  }
  if (advance === undefined || intake === undefined) return;
  const lobes = separation ?? (exhaust === undefined ? undefined : (intake + exhaust) / 2);
  if (lobes !== undefined && Math.abs(lobes - intake - advance) > ANGLE_SLACK) {
    const message = `disagrees with the centreline: ${shown(lobes)} less ${shown(intake)} is ${shown(lobes - intake)}`;
    report.problem('cam.advance', 'advance-disagrees', message);
  }
}
