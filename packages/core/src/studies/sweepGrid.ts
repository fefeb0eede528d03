/** The points of a sweep before they are forecast. */

import { DomainError } from '../base/errors.ts';
import { applyChanges } from '../changes/applyChanges.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import { isSameEngine } from '../changes/sameEngine.ts';
import { sourceProblem } from '../changes/sourceProblem.ts';
import type { Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import type { Variable } from './sweepResult.ts';

/** One value a variable, as they would stand in a file. */
export type GridValues = readonly (string | number)[];

/** A point of the grid before it is forecast. */
export interface Planned {
  readonly name: string;
  readonly values: GridValues;
  readonly combination: Combination | null;
  readonly problems: readonly Problem[];
}

/** @throws {@link DomainError} where there are not one or two variables of different paths with values, or more points than `most` */
export function gridOf(variables: readonly Variable[], most: number): readonly GridValues[] {
  if (!(variables.length >= 1 && variables.length <= 2))
    throw new DomainError('variables', variables.length, 'one or two');
  if (variables.length === 2 && variables[0].path === variables[1].path)
    throw new DomainError('variables', variables[0].path, 'of different paths');
  for (const { path, values } of variables)
    if (!(values.length > 0)) throw new DomainError(`values of ${path}`, values.length, 'one or more');
  const size = variables.reduce((product, { values }) => product * values.length, 1);
  if (!(size <= most)) throw new DomainError('points of the grid', size, `at most ${most}`);
  return variables.reduce<readonly GridValues[]>(
    (grid, { values }) => grid.flatMap((point) => values.map((value) => [...point, value])),
    [[]],
  );
}

function pointName(variables: readonly Variable[], values: GridValues): string {
  return variables.map(({ path }, i) => `${path} ${values[i]}`).join(', ');
}

/** A point that an abort came before. */
export function notMade(variables: readonly Variable[], values: GridValues): Planned {
  return { name: pointName(variables, values), values, combination: null, problems: [] };
}

/** A point of the grid as an engine, or with what is wrong with it. */
export function plan(
  baseline: Baseline,
  variables: readonly Variable[],
  values: GridValues,
  sheet: SheetSource | undefined,
): Planned {
  const edits = variables.map(({ path }, i) => ({ kind: 'set' as const, path, value: values[i] }));
  const name = pointName(variables, values);
  const source = { file: `sweep to '${name}'`, positions: {} };
  const change: Change = {
    name,
    edits,
    cost: null,
    hours: null,
    reversible: true,
    insteadOf: null,
    source,
  };
  const applied = applyChanges(baseline, [change], { sheet, effectless: 'allow' });
  return applied.ok
    ? { name, values, combination: applied.value, problems: [] }
    : { name, values, combination: null, problems: applied.problems };
}

/** Problems where nothing would come of the sweep: no value fits, or all give the same engine. Looks no further than it must. */
export function whyNot(
  baseline: Baseline,
  variables: readonly Variable[],
  grid: readonly GridValues[],
  planOf: (values: GridValues) => Planned,
): readonly Problem[] {
  let first: readonly Problem[] | null = null;
  let fits = false;
  for (const values of grid) {
    const { combination, problems } = planOf(values);
    first ??= problems;
    if (combination === null) continue;
    if (!isSameEngine(combination, baseline.combination)) return [];
    fits = true;
  }
  if (!fits) return first ?? [];
  const { path } = variables[0];
  const message = 'has no effect: the engine is the same with every value';
  return [
    sourceProblem(
      { name: 'sweep', source: { file: 'sweep', positions: {} } },
      path,
      'no-effect',
      message,
      'another field decides',
    ),
  ];
}
