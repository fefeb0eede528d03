/** Checks of flow sheets against valves, ports, bench and lift. */

import { flowArea } from '../../geometry/flowArea.ts';
import { type FlowDoubt, flowDoubts } from '../../geometry/flowDoubts.ts';
import { netLift } from '../../geometry/valveLift.ts';
import type { Combination, Port } from '../combination.ts';
import type { Side } from '../defaults/side.ts';
import type { ResolveContext } from '../resolve/context.ts';
import { inches, type Report } from './report.ts';

/** Exhaust over intake flow at equal lift that is worth a remark outside [-]; common practice, no source. */
export const EXHAUST_OVER_INTAKE: { readonly min: number; readonly max: number } = { min: 0.55, max: 1.05 };
/** Fixture and bore may differ by this much [m]: 0.06 in; common practice, no source. */
export const FIXTURE_SLACK: number = 0.06 * 0.0254;

export function checkFlow(context: ResolveContext, combination: Combination, report: Report): void {
  for (const side of ['intake', 'exhaust'] as const) {
    checkSheet(context, side, combination[side], report);
  }
  checkBalance(context, combination);
  const fixture = context.file.heads?.bench?.fixture;
  const { bore } = combination.block;
  if (fixture !== undefined && Math.abs(fixture - bore) > FIXTURE_SLACK) {
    const message = `was ${inches(fixture)} for a bore of ${inches(bore)}: flow in the engine may differ by 1 to 3 %`;
    context.ledger.warn('bore-fixture', 'heads.bench.fixture', message);
  }
  for (const [path, sheet] of Object.entries(context.sheets.flow)) {
    if (sheet.ignored.length === 0) continue;
    const headers = sheet.ignored.map((header) => `'${header}'`).join(', ');
    context.ledger.warn('columns-ignored', path, `columns of ${sheet.name} that were not used: ${headers}`);
  }
}

function checkSheet(context: ResolveContext, side: Side, port: Port, report: Report): void {
  const { ledger, file } = context;
  if (port.flow.measuredTo === null) return;
  const head = (port.valves * Math.PI * port.valveDiameter * port.valveDiameter) / 4;
  const smallest = Math.min(file.heads?.[side]?.minimumArea ?? head, head);
  const path = flowPath(context, side);
  const doubts = flowDoubts(port.flow, port.valveDiameter, port.valves, smallest);
  // One doubt of a kind is enough: the sheet as a whole is in question.
  const kinds = new Map(doubts.map((doubt) => [doubt.code, doubt] as const).reverse());
  // The limit is of intake valves; a weak exhaust port is nothing rare.
  if (side === 'exhaust') kinds.delete('low-for-depression');
  for (const doubt of kinds.values()) tell(context, path, doubt, port, report);
  const lift = greatestLift(port);
  if (lift > port.flow.measuredTo * 1.001) {
    const message = `the ${side} valve lifts ${inches(lift)}, the sheet ends at ${inches(port.flow.measuredTo)}: its last flow is held`;
    ledger.warn('lift-beyond-sheet', path, message);
  }
}

function tell(
  { ledger, file }: ResolveContext,
  path: string,
  doubt: FlowDoubt,
  port: Port,
  report: Report,
): void {
  const message = `at ${inches(port.flow.lift[doubt.point])} lift: ${doubt.message}`;
  if (doubt.code === 'above-minimum-area') {
    report.problem(path, 'flow-above-limit', message);
  } else if (doubt.code === 'low-for-depression' && file.heads?.bench?.depression === undefined) {
    report.problem(path, 'depression-doubtful', message, 'state heads.bench.depression');
  } else {
    ledger.warn(doubt.code, path, message);
  }
}

function checkBalance({ ledger, file }: ResolveContext, { intake, exhaust }: Combination): void {
  if (intake.flow.measuredTo === null || exhaust.flow.measuredTo === null) return;
  const lift = Math.min(intake.flow.measuredTo, exhaust.flow.measuredTo);
  const ratio = flowArea(exhaust.flow)(lift) / flowArea(intake.flow)(lift);
  if (ratio >= EXHAUST_OVER_INTAKE.min && ratio <= EXHAUST_OVER_INTAKE.max) return;
  const path = file.heads?.flow === undefined ? 'heads.exhaust.flow' : 'heads.flow';
  const message = `exhaust flow is ${Math.round(100 * ratio)} % of intake flow at ${inches(lift)}; 55 to 105 % is usual`;
  ledger.warn('exhaust-over-intake', path, message);
}

function flowPath({ file }: ResolveContext, side: Side): string {
  return file.heads?.[side]?.flow === undefined ? 'heads.flow' : `heads.${side}.flow`;
}

/** Net valve lift at the nose of the lobe [m]. */
export function greatestLift(port: Port): number {
  const top = port.lobe.kind === 'card' ? port.lobe.maxLift : Math.max(...port.lobe.lift);
  return netLift(top, top, port);
}
