/** Checks of flow sheets against valves, ports, bench and lift. */

import { INCH, INCH_OF_WATER } from '../../base/constants.ts';
import type { Combination, Port } from '../../combination/combination.ts';
import { DEPRESSION_SLACK } from '../../combination/otherBench.ts';
import type { Side } from '../../combination/sides.ts';
import { SIDES } from '../../combination/sides.ts';
import { areaText, depressionText, lengthText } from '../../combination/sizeText.ts';
import { flowArea } from '../../geometry/flowArea.ts';
import { type FlowDoubt, flowDoubts } from '../../geometry/flowDoubts.ts';
import { USUAL_DEPRESSION } from '../../geometry/flowSheet.ts';
import { netLift } from '../../geometry/valveLift.ts';
import type { ResolveContext } from '../resolve/context.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { FLOW_FIELDS } from '../sheet/readSheets.ts';
import type { Report } from './report.ts';

/** Exhaust over intake flow at equal lift that is worth a remark outside [-]; common practice, no source. */
export const EXHAUST_OVER_INTAKE: { readonly min: number; readonly max: number } = { min: 0.55, max: 1.05 };
/** Fixture and bore may differ by this much [m]: 0.06 in; common practice, no source. */
export const FIXTURE_SLACK: number = 0.06 * INCH;

/**
 * Most of the port's mean area that the open valve may have before a remark [-]: the gas before a fully choked valve then runs at
 * Mach 0.79 (NACA Report 1135, A/A* = 1.042). Forecasts of an exhaust port began not to settle between 0.957 and 0.972.
 */
export const MOST_OF_PORT = 0.96;

export function checkFlow(context: ResolveContext, combination: Combination, report: Report): void {
  for (const side of SIDES) {
    checkSheet(context, side, combination[side], report);
  }
  checkBalance(context, combination);
  checkDepression(context, report);
  checkPipe(context, report);
  const fixture = context.file.heads?.bench?.fixture;
  const { bore } = combination.block;
  if (fixture !== undefined && Math.abs(fixture - bore) > FIXTURE_SLACK) {
    const message = `was ${report.length(fixture)} for a bore of ${report.length(bore)}: flow in the engine may differ by 1 to 3 %`;
    context.ledger.warn('bore-fixture', 'heads.bench.fixture', message);
  }
  for (const path of FLOW_FIELDS) {
    const sheet = context.sheets.flow[path];
    if (sheet === undefined || sheet.ignored.length === 0) continue;
    const headers = sheet.ignored.map((header) => `'${header}'`).join(', ');
    context.ledger.warn('columns-ignored', path, `columns of ${sheet.name} that were not used: ${headers}`);
  }
}

/** A sheet that says another depression than the file does, or than is usual where the file says none. */
function checkDepression({ file, sheets, ledger }: ResolveContext, report: Report): void {
  const stated = file.heads?.bench?.depression;
  const assumed = ledger.assumed.find(({ path }) => path === 'heads.bench.depression')?.value;
  const used = stated ?? (assumed === undefined ? undefined : Number(assumed) * INCH_OF_WATER);
  if (used === undefined) return;
  for (const path of FLOW_FIELDS) {
    const { name, depression = null } = sheets.flow[path] ?? {};
    if (depression === null || Math.abs(depression / used - 1) <= DEPRESSION_SLACK) continue;
    const said = report.depression(depression);
    const other = report.depression(used);
    const message = `names the sheet ${name}, which says ${said}; ${stated === undefined ? 'the file gives no depression' : `the file gives ${other}`}`;
    report.problem(path, 'depression-contradicts', message, `state heads.bench.depression, ${said}?`);
  }
}

/** A sheet whose header says another thing of the pipe on the exhaust than the file does. */
function checkPipe({ file, sheets }: ResolveContext, report: Report): void {
  const stated = file.heads?.bench?.exhaustPipe;
  const { name, exhaustPipe: said = null } =
    sheets.flow['heads.exhaust.flow'] ?? sheets.flow['heads.flow'] ?? {};
  if (stated === undefined || said === null || said === stated) return;
  const message = `is ${stated}, but the header of ${name} says ${said ? 'with' : 'without'} pipe`;
  report.problem('heads.bench.exhaustPipe', 'pipe-contradicts', message, `write ${said}, or mend the sheet`);
}

function checkSheet(context: ResolveContext, side: Side, port: Port, report: Report): void {
  const { ledger } = context;
  if (port.flow.measuredTo === null) return;
  const path = flowPath(context, side);
  const { area: smallest, what } = smallestSection(context, side, port);
  const doubts = flowDoubts(port.flow, port.valveDiameter, port.valves, smallest);
  // One doubt of a kind is enough: the sheet as a whole is in question.
  const kinds = new Map(doubts.map((doubt) => [doubt.code, doubt] as const).reverse());
  // The limit is of intake valves; a weak exhaust port is nothing rare.
  if (side === 'exhaust') kinds.delete('low-for-depression');
  if (isLiftSlip(doubts)) {
    const message = `has ${side} flow of at least ${Math.min(...curtains(doubts)).toFixed(1)} times what can pass, at every lift up to ${report.length(port.valveDiameter / 4)}`;
    report.problem(path, 'flow-above-limit', message, 'is the unit of the lifts right?');
    return;
  }
  for (const doubt of kinds.values())
    noteDoubt(context, path, doubt, { lift: port.flow.lift[doubt.point], smallest: what }, report);
  const lift = greatestLift(port);
  if (lift > 0 && !kinds.has('above-minimum-area')) {
    const opens = flowArea(port.flow)(lift);
    if (opens > MOST_OF_PORT * port.portArea) {
      const message = `the ${side} port's mean area of ${report.area(port.portArea)} hardly passes what the valve does, ${report.area(opens)} at full lift: it chokes first, and at high speed cycles may not settle`;
      ledger.warn('port-chokes', path, message);
    }
  }
  if (lift > port.flow.measuredTo * BEYOND_SHEET) {
    const message = `the ${side} valve lifts ${report.length(lift)}, the sheet ends at ${report.length(port.flow.measuredTo)}: its last flow is held`;
    ledger.warn('lift-beyond-sheet', path, message);
  }
}

/**
 * Lift over the last of the sheet from which on its flow is worth a remark [-]: at the end of a sheet a tenth more lift is 2 to 3 % more flow (common practice,
 * no source), so that less is below what two readings of a bench differ by.
 */
const BEYOND_SHEET = 1.02;

/** Share of the ideal flow through the curtain that no reading comes to by a leak or a slip of the pen, if every one does [-]. */
const LIFT_SLIP = 2;

const curtains = (doubts: readonly FlowDoubt[]): readonly number[] =>
  doubts.filter(({ code }) => code === 'curtain-coefficient').map(({ value }) => value);

/** Lifts in inches that are called millimetres: each passes far more than it could. */
function isLiftSlip(doubts: readonly FlowDoubt[]): boolean {
  const shares = curtains(doubts);
  return shares.length > 1 && Math.min(...shares) > LIFT_SLIP;
}

/** The smallest cross-section the file tells of: the valve heads, the port's smallest area, its mean area. */
function smallestSection(
  { file }: ResolveContext,
  side: Side,
  port: Port,
): { readonly area: number; readonly what: string } {
  const { minimumArea, portArea, portVolume, portLength } = file.heads?.[side] ?? {};
  const heads = (port.valves * Math.PI * port.valveDiameter * port.valveDiameter) / 4;
  const sections = [{ area: heads, what: port.valves > 1 ? 'that of the valve heads' : 'the valve head' }];
  if (minimumArea !== undefined) sections.push({ area: minimumArea, what: 'minimumArea' });
  if (portArea !== undefined) sections.push({ area: portArea, what: 'portArea' });
  else if (portVolume !== undefined && portLength !== undefined) {
    sections.push({ area: port.portArea, what: 'portVolume over portLength' });
  }
  const least = sections.reduce((a, b) => (b.area < a.area ? b : a));
  return { area: least.area, what: `${least.what}, ${areaText(least.area, file.units)}` };
}

/** A doubt as a problem where the sheet can't be right, else as a warning; `smallest`: the smallest cross-section, in words. */
function noteDoubt(
  { ledger, file }: ResolveContext,
  path: FieldPath,
  doubt: FlowDoubt,
  { lift, smallest }: { readonly lift: number; readonly smallest: string },
  report: Report,
): void {
  const message = `at ${lengthText(lift, file.units)} lift: ${doubt.message}`;
  if (doubt.code === 'above-minimum-area') {
    const slip = depressionSlip(doubt.value, file);
    report.problem(path, 'flow-above-limit', message, `the smallest is ${smallest}${slip}`);
  } else if (doubt.code === 'low-for-depression' && file.heads?.bench?.depression === undefined) {
    report.problem(path, 'depression-doubtful', message, 'state heads.bench.depression');
  } else {
    ledger.warn(doubt.code, path, message);
  }
}

/** Flow too large for the depression it is said to be of, and usual at 28 inH2O: a sheet of another bench, or one brought to 28. */
function depressionSlip(share: number, { heads, units }: ResolveContext['file']): string {
  const depression = heads?.bench?.depression;
  if (depression === undefined) return '';
  const atUsual = share * Math.sqrt(depression / USUAL_DEPRESSION);
  if (!(depression < 0.9 * USUAL_DEPRESSION && atUsual < 1)) return '';
  const usual = depressionText(USUAL_DEPRESSION, units);
  return `; the file gives ${depressionText(depression, units)}: is this sheet of ${usual}?`;
}

function checkBalance({ ledger, file }: ResolveContext, { intake, exhaust }: Combination): void {
  if (intake.flow.measuredTo === null || exhaust.flow.measuredTo === null) return;
  const lift = Math.min(intake.flow.measuredTo, exhaust.flow.measuredTo);
  const ratio = flowArea(exhaust.flow)(lift) / flowArea(intake.flow)(lift);
  if (ratio >= EXHAUST_OVER_INTAKE.min && ratio <= EXHAUST_OVER_INTAKE.max) return;
  const path = file.heads?.flow === undefined ? 'heads.exhaust.flow' : 'heads.flow';
  const message = `exhaust flow is ${Math.round(100 * ratio)} % of intake flow at ${lengthText(lift, file.units)}; 55 to 105 % is usual`;
  ledger.warn('exhaust-over-intake', path, message);
}

function flowPath({ file }: ResolveContext, side: Side): FieldPath {
  return file.heads?.[side]?.flow === undefined ? 'heads.flow' : `heads.${side}.flow`;
}

/** Net valve lift at the nose of the lobe [m]. */
export function greatestLift(port: Port): number {
  const top = port.lobe.kind === 'card' ? port.lobe.maxLift : Math.max(...port.lobe.lift);
  return netLift(top, top, port);
}
