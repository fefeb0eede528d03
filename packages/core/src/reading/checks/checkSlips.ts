/** Figures that are sound by themselves and no engine's together: a slip of unit or of name is likelier, so the file is asked back. */

import { splitNumber } from '../../base/units.ts';
import type { Combination } from '../../combination/combination.ts';
import type { CombinationDocument } from '../readDocument.ts';
import type { ResolveContext } from '../resolve/context.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { valueAt } from '../valueAt.ts';
import { inches, type Report } from './report.ts';

/** Durations at 0.050 in outside which no cam is ground [crank deg]: industrial engines have 170, the wildest race cams 320. */
const AT_050 = { min: 135, max: 330 } as const;
/** Shortest advertised duration of any cam [crank deg]. */
const LEAST_ADVERTISED = 150;
/** Least inside diameter of a primary over the diameter of one valve as large as the cylinder's exhaust valves [-]; usual: 1.0 to 1.2. */
const LEAST_PRIMARY = 0.6;
/** Most valve lift over valve diameter [-]: race engines reach 0.45. */
const MOST_LIFT = 0.5;

export function checkSlips(
  document: CombinationDocument,
  context: ResolveContext,
  combination: Combination,
  report: Report,
): void {
  for (const side of ['intake', 'exhaust'] as const) {
    checkDuration(context, side, report);
    checkLobeLift(context, side, combination, report);
  }
  checkPrimary(document, context, combination, report);
}

function checkDuration({ file }: ResolveContext, side: 'intake' | 'exhaust', report: Report): void {
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

function checkLobeLift(
  { file }: ResolveContext,
  side: 'intake' | 'exhaust',
  combination: Combination,
  report: Report,
): void {
  const { lobeLift, valveLift } = file.cam?.[side] ?? {};
  const valve = file.heads?.[side]?.valve;
  if (lobeLift === undefined || valveLift !== undefined || valve === undefined) return;
  const { rockerRatio } = combination[side];
  if (!(lobeLift * rockerRatio > MOST_LIFT * valve && lobeLift <= MOST_LIFT * valve)) return;
  const message = `of ${inches(lobeLift)} would lift a valve of ${inches(valve)} by ${inches(lobeLift * rockerRatio)}`;
  report.problem(
    `cam.${side}.lobeLift`,
    'lift-slip',
    message,
    `is it the lift at the valve? write valveLift`,
  );
}

/** A primary much smaller than the valve it serves. */
function checkPrimary(
  document: CombinationDocument,
  { file }: ResolveContext,
  { exhaust, exhaustSystem }: Combination,
  report: Report,
): void {
  const field = (['diameter', 'inside'] as const).find((name) => file.exhaust?.primary?.[name] !== undefined);
  if (field === undefined || file.heads?.exhaust?.valve === undefined) return;
  const inside = 2 * Math.sqrt(exhaustSystem.primary.area / Math.PI);
  const valve = exhaust.valveDiameter * Math.sqrt(exhaust.valves);
  if (inside >= LEAST_PRIMARY * valve) return;
  const path: FieldPath = `exhaust.primary.${field}`;
  const written = valueAt(document.data, path);
  const parts = typeof written === 'string' ? splitNumber(written.trim()) : null;
  const number =
    typeof written === 'string' && parts !== null ? written.trim().slice(0, -parts.unit.length).trim() : '';
  const hint = parts === null || parts.unit === 'in' ? null : `did you mean ${number} in?`;
  const message = `leaves ${inches(inside)} inside, for exhaust valves as large as one of ${inches(valve)}`;
  report.problem(path, 'primary-slip', message, hint);
}
