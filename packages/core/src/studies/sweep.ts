/** One or two fields of a combination varied over a grid. */

import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import { splitNumber } from '../base/units.ts';
import { VERSION } from '../base/version.ts';
import { applyChanges, isSameEngine } from '../changes/applyChanges.ts';
import { currentValue, sourceProblem } from '../changes/assignedValues.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Combination, Warning } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import { bandMean } from '../forecast/band.ts';
import type { Curve } from '../forecast/curve.ts';
import { limitBreaches } from '../forecast/limits.ts';
import { type LeftOut, leftOutOf, type WholeCurve, wholeCurve } from '../forecast/wholeCurve.ts';
import { indexOfHighest } from '../numerics/topOf.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { cautionsOf } from './cautions.ts';
import type { StudyBasis } from './comparisonResult.ts';
import { gainOver, percent } from './gain.ts';
import { runJobsHere, type StudyJob } from './job.ts';
import { runInChunks } from './runInChunks.ts';
import { jobOf, type StudyOptions, studyBasis } from './studyOptions.ts';
import type { Flatness, SweepBest, SweepFigures, SweepPoint, SweepResult, Variable } from './sweepResult.ts';

/** A study's options, and where sheets that the values name come from. */
export interface SweepOptions extends StudyOptions {
  /** Text of sheets that the values name. */
  readonly sheet?: SheetSource | undefined;
  /** How much of the best mean power a flat top may give away [%]; default 0.5. */
  readonly flatWithinPct?: number;
  /** Points of the grid at most; default {@link MOST_SWEEP_POINTS}, more where many machines share them. */
  readonly most?: number;
}

/** Points of a grid that somebody still waits for. */
export const MOST_SWEEP_POINTS = 400;

const FLAT_WITHIN = 0.5;

/** A point of the grid before it is forecast. */
interface Planned {
  readonly name: string;
  readonly values: readonly (string | number)[];
  readonly combination: Combination | null;
  readonly problems: readonly Problem[];
}

/**
 * Forecasts every combination of the values, all else as the baseline has it. Values that can't go together are left out
 * and say so; where none can, or nothing comes of any, the problems come back.
 *
 * @throws {@link DomainError} where there are not one or two variables, a grid is too large, or speeds and band make no sense
 *
 * @example
 * ```ts
 * const variable = { path: 'exhaust.primary.length', values: ['28 in', '30 in', '32 in'] };
 * const swept = await sweep(baseline, [variable], { rpm: [4000, 5000, 6000] });
 * if (swept.ok) console.log(swept.value.best?.values);
 * ```
 */
export async function sweep(
  baseline: Baseline,
  variables: readonly Variable[],
  options: SweepOptions,
): Promise<Result<SweepResult, Problem>> {
  const { run = runJobsHere } = options;
  const grid = gridOf(variables, options.most ?? MOST_SWEEP_POINTS);
  const basis = studyBasis(options, baseline.combination);
  const planOf = (values: readonly (string | number)[]): Planned =>
    plan(baseline, variables, values, options);
  const problems = whyNot(baseline, variables, grid, planOf);
  if (problems.length > 0) return { ok: false, problems };

  let reference: WholeCurve | null = null;
  let warnings: readonly Warning[] = [];
  let complete = true;
  const leftOut: LeftOut[] = [];
  const points: SweepPoint[] = [];
  const waiting: Planned[] = [];
  const jobs = function* (): Generator<StudyJob> {
    yield jobOf(baseline.combination, basis, options.mesh);
    for (const values of grid) {
      const planned = planOf(values);
      waiting.push(planned);
      if (planned.combination !== null) yield jobOf(planned.combination, basis, options.mesh);
    }
  };
  // Points come in the order of the grid; those without an engine have no curve to wait for.
  const settle = (curve: Curve | null | undefined): void => {
    while (waiting.length > 0) {
      const planned = waiting[0];
      if (planned.combination !== null && curve === undefined) return;
      waiting.shift();
      const own = planned.combination === null ? null : (curve ?? null);
      leftOut.push(...leftOutOf(planned.name, own));
      points.push(pointOf(planned, own === null ? null : wholeCurve(own), reference, basis));
      if (planned.combination !== null) return;
    }
  };
  await runInChunks(run, jobs(), grid.length + 1, options, (curve, i) => {
    complete &&= curve !== null;
    if (i > 0) return settle(curve);
    reference = curve === null ? null : wholeCurve(curve);
    warnings = curve?.warnings ?? [];
    leftOut.push(...leftOutOf(baseline.combination.name, curve));
  });
  settle(undefined);
  // Whatever an abort kept from being made keeps its place, and has no figures.
  const unmade = grid.slice(points.length).map((values) => notMade(variables, values));
  complete &&= unmade.length === 0;
  points.push(...unmade.map((planned) => pointOf(planned, null, null, basis)));
  return {
    ok: true,
    value: {
      schemaVersion: 1,
      program: { name: 'valvetide', version: VERSION },
      complete,
      combination: baseline.combination.name,
      ...basis,
      variables: variables.map(({ path, values }) => ({ path, values, current: current(baseline, path) })),
      baseline: reference === null ? null : figuresOf(reference, basis),
      points,
      best: bestOf(variables, points, options.flatWithinPct ?? FLAT_WITHIN),
      highest: highestOf(points, () => true),
      warnings,
      leftOut,
    },
  };
}

function gridOf(variables: readonly Variable[], most: number): readonly (readonly (string | number)[])[] {
  if (!(variables.length >= 1 && variables.length <= 2))
    throw new DomainError('variables', variables.length, 'one or two');
  if (variables.length === 2 && variables[0].path === variables[1].path)
    throw new DomainError('variables', variables[0].path, 'of different paths');
  for (const { path, values } of variables)
    if (!(values.length > 0)) throw new DomainError(`values of ${path}`, values.length, 'one or more');
  const size = variables.reduce((product, { values }) => product * values.length, 1);
  if (!(size <= most)) throw new DomainError('points of the grid', size, `at most ${most}`);
  return variables.reduce<readonly (readonly (string | number)[])[]>(
    (grid, { values }) => grid.flatMap((point) => values.map((value) => [...point, value])),
    [[]],
  );
}

function pointName(variables: readonly Variable[], values: readonly (string | number)[]): string {
  return variables.map(({ path }, i) => `${path} ${values[i]}`).join(', ');
}

/** A point that an abort came before. */
function notMade(variables: readonly Variable[], values: readonly (string | number)[]): Planned {
  return { name: pointName(variables, values), values, combination: null, problems: [] };
}

function plan(
  baseline: Baseline,
  variables: readonly Variable[],
  values: readonly (string | number)[],
  { sheet }: SweepOptions,
): Planned {
  const edits = variables.map(({ path }, i) => ({ kind: 'set' as const, path, value: values[i] }));
  const name = pointName(variables, values);
  const change: Change = { name, edits, cost: null, hours: null, reversible: true, insteadOf: null };
  const applied = applyChanges(baseline, [change], { sheet, effectless: 'allow' });
  return applied.ok
    ? { name, values, combination: applied.value, problems: [] }
    : { name, values, combination: null, problems: applied.problems };
}

/** Problems where nothing would come of the sweep: no value fits, or all give the same engine. Looks no further than it must. */
function whyNot(
  baseline: Baseline,
  variables: readonly Variable[],
  grid: readonly (readonly (string | number)[])[],
  planOf: (values: readonly (string | number)[]) => Planned,
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
  return [sourceProblem({ name: 'sweep' }, path, 'no-effect', message, 'another field decides')];
}

function current(baseline: Baseline, path: string): string | number | null {
  const value = currentValue(baseline, path);
  return typeof value === 'string' || typeof value === 'number' ? value : null;
}

function figuresOf({ points, peak }: WholeCurve, { band, weighting }: StudyBasis): SweepFigures {
  return {
    band: bandMean(points, band, weighting),
    peak: {
      torque: { rpm: peak.torque.rpm, torqueNm: peak.torque.torqueNm },
      power: { rpm: peak.power.rpm, powerKw: peak.power.powerKw },
    },
    torqueNm: points.map(({ torqueNm }) => torqueNm),
  };
}

function pointOf(
  { name, values, combination, problems }: Planned,
  curve: WholeCurve | null,
  reference: WholeCurve | null,
  basis: StudyBasis,
): SweepPoint {
  const figures = curve === null ? null : figuresOf(curve, basis);
  const gain = curve === null || reference === null ? null : gainOver(reference, curve, basis);
  return {
    name,
    values,
    figures,
    bandGainPct: gain?.band.powerPct ?? null,
    worstLoss: gain?.worstLoss ?? null,
    refused: problems.length === 0 ? null : problems.map((p) => `${p.path} ${p.message}`.trim()).join('; '),
    cautions: curve === null || reference === null ? [] : cautionsOf(reference, curve),
    breaches: curve === null || combination === null ? [] : limitBreaches(combination, curve),
  };
}

function bestOf(
  variables: readonly Variable[],
  points: readonly SweepPoint[],
  withinPct: number,
): SweepBest | null {
  const index = highestOf(points, isAllowed);
  if (index === null) return null;
  const { values, bandGainPct } = points[index];
  const ordered = variables.flatMap((variable, v) => (isOrdered(variable) ? [{ variable, v }] : []));
  const atEdge = ordered.filter(
    ({ variable: { values: tried }, v }) =>
      tried.length > 1 && (values[v] === tried[0] || values[v] === tried[tried.length - 1]),
  );
  return {
    index,
    values,
    bandGainPct,
    atEdge: atEdge.map(({ variable }) => variable.path),
    flatness: ordered.map(({ variable, v }) => flatness(variable, v, points, index, withinPct)),
  };
}

/** Words have no neighbours and no end beyond which more may lie. */
function isOrdered({ values }: Variable): boolean {
  return values.every((value) => typeof value === 'number' || splitNumber(value) !== null);
}

function isAllowed({ breaches }: SweepPoint): boolean {
  return breaches.length === 0;
}

/** Place of the first of those that count with the highest mean power. */
function highestOf(points: readonly SweepPoint[], counts: (point: SweepPoint) => boolean): number | null {
  return indexOfHighest(points.map((point) => (counts(point) ? powerOf(point) : null)));
}

/** From the best point outward along one variable as long as the mean power stays close. */
function flatness(
  { path, values }: Variable,
  v: number,
  points: readonly SweepPoint[],
  best: number,
  withinPct: number,
): Flatness {
  const line = points.filter((point) =>
    point.values.every((value, i) => i === v || value === points[best].values[i]),
  );
  const at = line.indexOf(points[best]);
  const isClose = (point: SweepPoint | undefined): boolean =>
    point !== undefined && isAllowed(point) && lossPct(points[best], point) <= withinPct;
  let from = at;
  while (isClose(line[from - 1])) from -= 1;
  let to = at;
  while (isClose(line[to + 1])) to += 1;
  return { path, withinPct, from: values[from], to: values[to] };
}

/** Mean power over the band [kW]; null where there is none. */
function powerOf({ figures }: SweepPoint): number | null {
  return figures?.band.powerKw ?? null;
}

/** Mean power that a point has less than the best one [%]; without a figure, more than any. */
function lossPct(best: SweepPoint, point: SweepPoint): number {
  const [most, own] = [powerOf(best), powerOf(point)];
  return most === null || own === null ? Number.POSITIVE_INFINITY : -percent(most, own);
}
