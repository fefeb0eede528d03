/** Numbers of a column in SI. */
import { parseQuantity, toUnit } from '../../base/units.ts';
import type { Problem } from '../../combination/problem.ts';
import { sheetProblem } from './sheetProblem.ts';
import type { Column, Table } from './table.ts';

/** Values of a column in SI; blanks stay null. */
export function converted(
  table: Table,
  column: Column,
  dimension: 'length' | 'flow',
  max: number,
  problems: Problem[],
): readonly (number | null)[] {
  const example = dimension === 'length' ? 'in or mm' : 'cfm';
  if (column.unit === '') {
    const message = `has no unit in the header '${column.header}'`;
    problems.push(
      sheetProblem(table.name, table.headerLine, 'unit-missing', message, `end it with ${example}`),
    );
    return column.values.map(() => null);
  }
  const one = parseQuantity(`1 ${column.unit}`, dimension);
  if (!one.ok) {
    const message = `has the wrong unit in the header '${column.header}'`;
    problems.push(sheetProblem(table.name, table.headerLine, 'unit-mismatch', message, `use ${example}`));
    return column.values.map(() => null);
  }
  return column.values.map((value, row) => {
    if (value === null) return null;
    const si = value * one.value.kept;
    if (!(si >= 0 && si <= max)) {
      const message = `has ${value} ${column.unit} in column '${column.header}', which is impossible`;
      const hint = dimension === 'length' && si > max ? otherLength(value, column.unit, max) : null;
      problems.push(sheetProblem(table.name, table.lines[row], 'out-of-range', message, hint));
    }
    return si;
  });
}

/** The lift that was meant where millimetres stand under inches; null where it would be none in millimetres either. */
function otherLength(value: number, unit: string, max: number): string | null {
  const one = parseQuantity('1 mm', 'length');
  if (unit === 'mm' || !one.ok || !(value * one.value.kept <= max)) return null;
  return `${value} mm would be ${Number(toUnit(value * one.value.kept, unit, 'length').toPrecision(3))} ${unit}: one unit a column`;
}
