/** The test depression that a flow sheet speaks of: in a header (`intake cfm @ 25"`), a column of its own, or a title. */
import { parseQuantity } from '../../base/units.ts';
import type { Problem } from '../../combination/problem.ts';
import { sheetProblem } from './sheetProblem.ts';
import type { Column, Table } from './table.ts';

interface Said {
  /** [Pa] */
  readonly depression: number | null;
  /** The column that gives it row by row. */
  readonly column: Column | null;
}

/** Depressions a bench can draw [inH2O]; a number behind `@` outside them is of something else. */
const BENCH = { min: 3, max: 60 } as const;
/** Rows of one depression differ by no more than the reading of a water column [-]. */
const READING = 0.01;

const WATER = /(\d+(?:\.\d+)?)\s*(?:in(?:ches)?\.?|"|'')\s*(?:of\s+)?(?:h2o|w\.?c\.?|wg|water)(?![a-z])/iu;
const NAMED =
  /(?:depression|test pressure|pressure drop)\D{0,12}?(\d+(?:\.\d+)?)\s*(in(?:ches)?\.?|"|kpa|mbar|hpa|mm ?h2o|cm ?h2o)(?!\s*hg)/iu;
const BEHIND_AT = /@\s*(\d+(?:\.\d+)?)(?!\s*(?:deg|°|rpm|%|\.?\d))/u;

export function depressionSaid(table: Table, problems: Problem[]): Said {
  const column = table.columns.find(isDepression) ?? null;
  if (column !== null) return { depression: ofColumn(table, column, problems), column };
  const inHeaders = table.columns.map(({ header }) => ofText(header) ?? atSaid(header));
  const inTitles = table.above.map(({ text }) => ofText(text));
  return { depression: [...inHeaders, ...inTitles].find((found) => found !== null) ?? null, column: null };
}

function ofText(text: string): number | null {
  const water = WATER.exec(text);
  if (water !== null) return pascal(`${water[1]} inH2O`);
  const named = NAMED.exec(text);
  if (named === null) return null;
  const unit = named[2].toLowerCase().replace(/\s/gu, '').replace('h2o', 'H2O');
  return pascal(`${named[1]} ${/^(?:in|")/u.test(unit) ? 'inH2O' : unit}`);
}

function atSaid(header: string): number | null {
  const inches = Number(BEHIND_AT.exec(header)?.[1] ?? Number.NaN);
  return inches >= BENCH.min && inches <= BENCH.max ? pascal(`${inches} inH2O`) : null;
}

function pascal(written: string): number | null {
  const read = parseQuantity(written, 'pressure');
  return read.ok ? read.value.kept : null;
}

/** `depression inH2O`, `test pressure (in. H2O)`. */
function isDepression({ header }: Column): boolean {
  return /depression|test pressure/iu.test(header) && unitOf(header) !== null;
}

function unitOf(header: string): string | null {
  const unit = /in(?:ches)?\.?\s*(?:of\s+)?h2o|"\s*h2o|kpa|mbar|hpa|mm ?h2o|cm ?h2o/iu.exec(header)?.[0];
  if (unit === undefined) return null;
  return /^(?:in|")/iu.test(unit) ? 'inH2O' : unit.toLowerCase().replace(' ', '').replace('h2o', 'H2O');
}

function ofColumn(table: Table, column: Column, problems: Problem[]): number | null {
  const values = column.values.filter((value) => value !== null);
  const [first] = values;
  if (first === undefined) return null;
  const row = column.values.findIndex((value) => value !== null && Math.abs(value / first - 1) > READING);
  if (row >= 0) {
    const message = `has a depression that changes from row to row: ${first}, then ${column.values[row]}`;
    const hint = 'bring all flows to one depression, by the square root of its ratio';
    problems.push(sheetProblem(table.name, table.lines[row], 'sheet-flow', message, hint));
  }
  return pascal(`${first} ${unitOf(column.header)}`);
}
