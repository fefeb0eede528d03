/** Figures that are sound by themselves and no engine's together: a slip of unit or of name is likelier, so the file is asked back. */

import type { Combination } from '../../combination/combination.ts';
import { SIDES, type Side } from '../../combination/sides.ts';
import type { ResolveContext } from '../resolve/context.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { Report } from './report.ts';

/** Durations at 0.050 in outside which no cam is ground [crank deg]: industrial engines have 170, the wildest race cams 320. */
const AT_050 = { min: 135, max: 330 } as const;
/** Shortest advertised duration of any cam [crank deg]. */
const LEAST_ADVERTISED = 150;
/** Most valve lift over valve diameter [-]: race engines reach 0.45 at the intake and 0.55 at the smaller exhaust valve; from memory. */
const MOST_LIFT: Readonly<Record<Side, number>> = { intake: 0.5, exhaust: 0.6 };

export function checkSlips(context: ResolveContext, combination: Combination, report: Report): void {
  for (const side of SIDES) {
    checkDuration(context, side, report);
    checkLobeLift(context, side, combination, report);
  }
}

function checkDuration({ file }: ResolveContext, side: Side, report: Report): void {
  const { at050, advertised } = file.cam?.[side] ?? {};
  const path = `cam.${side}` as const;
  if (at050 !== undefined && at050 > AT_050.max) {
    const message = `is longer than any cam's at 0.050 in: ${Number(at050.toFixed(2))} deg`;
    report.problem(`${path}.at050`, 'duration-slip', message, 'is it the advertised duration?');
  }
  if (at050 !== undefined && at050 < AT_050.min) tellCamDegrees(`${path}.at050`, at050, report);
  if (advertised !== undefined && advertised < LEAST_ADVERTISED)
    tellCamDegrees(`${path}.advertised`, advertised, report);
}

function tellCamDegrees(path: FieldPath, duration: number, report: Report): void {
  const shown = Number(duration.toFixed(2));
  const message = `is shorter than any cam's: ${shown} deg`;
  report.problem(path, 'duration-slip', message, `in cam degrees? write crank degrees, ${2 * shown} deg`);
}

function checkLobeLift({ file }: ResolveContext, side: Side, combination: Combination, report: Report): void {
  const { lobeLift, valveLift } = file.cam?.[side] ?? {};
  const valve = file.heads?.[side]?.valve;
  if (lobeLift === undefined || valveLift !== undefined || valve === undefined) return;
  const { rockerRatio } = combination[side];
  const most = MOST_LIFT[side] * valve;
  if (!(lobeLift * rockerRatio > most && lobeLift <= most)) return;
  const message = `of ${report.length(lobeLift)} would lift a valve of ${report.length(valve)} by ${report.length(lobeLift * rockerRatio)}`;
  report.problem(
    `cam.${side}.lobeLift`,
    'lift-slip',
    message,
    `is it the lift at the valve? write valveLift`,
  );
}
