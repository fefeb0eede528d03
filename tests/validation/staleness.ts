/** Whether a committed report still says what the checks give. */
import type { CaseResult, SourceResult } from './results.ts';
import { cells, HEADINGS } from './validationDocument.ts';

/** A value may drift by this share of what is allowed before the page is stale: it then misleads. */
const DRIFT = 0.25;

/**
 * What has become stale, line by line; empty where nothing has.
 *
 * Compared are: the figures listed, their published values, their tolerances, whether they hold, and the program's values
 * to a quarter of the tolerance. Not compared: last digits, which move with any change of the model.
 */
export function staleLines(committed: string, sources: readonly SourceResult[]): readonly string[] {
  const sections = sectionsOf(committed);
  return sources.flatMap(({ source, results }) => {
    const rows = sections.get(source.title);
    if (rows === undefined) return [`${source.title}: not in the report`];
    const known = new Set(results.map((r) => r.check.what));
    const gone = [...rows.keys()].filter((what) => !known.has(what));
    return [
      ...results.flatMap((result) => staleCells(result, rows.get(result.check.what))),
      ...gone.map((what) => `${what}: no longer checked`),
    ].map((line) => `${source.title}: ${line}`);
  });
}

function staleCells(result: CaseResult, row: readonly string[] | undefined): readonly string[] {
  const { check, ours } = result;
  if (row === undefined) return [`${check.what}: missing`];
  const fresh = cells(result);
  const changed = [1, 4, 5].filter((column) => row[column] !== fresh[column]);
  const value = Number.parseFloat(row[2]);
  const allowed = check.relative ? check.within * Math.abs(check.value) : check.within;
  const drifted = check.within > 0 && !(Math.abs(value - ours) <= DRIFT * allowed + 10 ** -check.decimals);
  return [
    ...changed.map((column) => `${check.what}: ${HEADINGS[column]} is ${fresh[column]}, not ${row[column]}`),
    ...(drifted ? [`${check.what}: the program gives ${fresh[2]}, not ${row[2]}`] : []),
  ];
}

/** Rows of each section by their first cell. */
function sectionsOf(text: string): ReadonlyMap<string, ReadonlyMap<string, readonly string[]>> {
  const sections = new Map<string, Map<string, readonly string[]>>();
  let rows = new Map<string, readonly string[]>();
  for (const line of text.split('\n')) {
    if (line.startsWith('### ')) {
      rows = new Map();
      sections.set(line.slice(4), rows);
    } else if (line.startsWith('## ')) {
      rows = new Map();
    } else if (line.startsWith('| ')) {
      const row = line.slice(2, -2).split(' | ');
      if (row.length === HEADINGS.length && row[0] !== HEADINGS[0] && !row[0].startsWith('---')) {
        rows.set(
          row[0],
          row.map((cell) => cell.trim()),
        );
      }
    }
  }
  return sections;
}
