/** Every sheet a combination file names, read once. */

import type { Problem } from '../../combination/problem.ts';
import { SIDES } from '../../combination/sides.ts';
import type { CombinationDocument } from '../combinationDocument.ts';
import { problemOf } from '../problemOf.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { valueAt } from '../valueAt.ts';
import { type FlowSheet, readFlowSheet } from './flowSheet.ts';
import { type LiftTable, readLiftTable } from './liftTable.ts';

/** Gives the text of a sheet by the name used in the file; undefined where there is none. */
export type SheetSource = (name: string) => string | undefined;

type FlowField = 'heads.flow' | 'heads.intake.flow' | 'heads.exhaust.flow';
type LobeField = 'cam.intake.table' | 'cam.exhaust.table';

/** Fields that may name a flow sheet, in the order they are read. */
export const FLOW_FIELDS: readonly FlowField[] = ['heads.flow', 'heads.intake.flow', 'heads.exhaust.flow'];
const LOBE_FIELDS: readonly LobeField[] = ['cam.intake.table', 'cam.exhaust.table'];

/** The sheets by the field that named them; missing where the field names none. */
export interface Sheets {
  readonly flow: Readonly<Partial<Record<FlowField, FlowSheet>>>;
  readonly lobe: Readonly<Partial<Record<LobeField, LiftTable>>>;
}

export interface SheetsResult {
  readonly sheets: Sheets;
  readonly problems: readonly Problem[];
}

/** Every field that may name a sheet. */
export const SHEET_FIELDS: readonly (FlowField | LobeField)[] = [...FLOW_FIELDS, ...LOBE_FIELDS];

/** Looks at the document itself, so that a slip elsewhere doesn't hide what is wrong with a sheet. */
export function readSheets(document: CombinationDocument, source: SheetSource | undefined): SheetsResult {
  const flow: { -readonly [Path in keyof Sheets['flow']]: Sheets['flow'][Path] } = {};
  const lobe: { -readonly [Path in keyof Sheets['lobe']]: Sheets['lobe'][Path] } = {};
  const problems: Problem[] = [];
  for (const path of FLOW_FIELDS) {
    const text = sheetText(document, path, source, problems);
    if (text === null) continue;
    const side = SIDES.find((each) => path === `heads.${each}.flow`) ?? null;
    const read = readFlowSheet(text.text, text.name, side);
    if (read.ok) flow[path] = read.value;
    else problems.push(...placed(read.problems, path));
  }
  for (const path of LOBE_FIELDS) {
    const text = sheetText(document, path, source, problems);
    if (text === null) continue;
    const read = readLiftTable(text.text, text.name, path === 'cam.intake.table' ? 'intake' : 'exhaust');
    if (read.ok) lobe[path] = read.value;
    else problems.push(...placed(read.problems, path));
  }
  return { sheets: { flow, lobe }, problems };
}

function sheetText(
  document: CombinationDocument,
  path: FieldPath,
  source: SheetSource | undefined,
  problems: Problem[],
): { name: string; text: string } | null {
  const name = valueAt(document.data, path);
  if (typeof name !== 'string' || name === '' || name.length > 200) return null;
  if (/^[/\\]|^[a-z]:/iu.test(name) || name.includes('\0')) {
    const message = `names '${name}', a place of one machine alone`;
    const hint = 'name sheets as seen from the file: flow.csv, sheets/flow.csv';
    problems.push(problemOf(document, path, 'sheet-outside', message, hint));
    return null;
  }
  const text = source?.(name);
  if (text !== undefined) return { name, text };
  problems.push(problemOf(document, path, 'sheet-missing', `names the sheet '${name}', which was not found`));
  return null;
}

function placed(problems: readonly Problem[], path: FieldPath): readonly Problem[] {
  return problems.map((problem) => ({ ...problem, path }));
}
