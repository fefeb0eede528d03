/** One or two fields of a combination varied over a grid. */

import type { Result } from '../base/result.ts';
import { VERSION } from '../base/version.ts';
import type { Baseline } from '../changes/baseline.ts';
import { currentValue } from '../changes/currentValue.ts';
import type { Warning } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import { bandMean } from '../forecast/band.ts';
import type { Curve } from '../forecast/curve.ts';
import { limitBreaches } from '../forecast/limits.ts';
import { type LeftOut, leftOutOf, type WholeCurve, wholeCurve } from '../forecast/wholeCurve.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { cautionsOf } from './cautions.ts';
import type { StudyBasis } from './comparisonResult.ts';
import { gainOver } from './gain.ts';
import { runJobsHere, type StudyJob } from './job.ts';
import { runInChunks } from './runInChunks.ts';
import { jobOf, type StudyOptions, studyBasis } from './studyOptions.ts';
import { bestOf, highestOf } from './sweepBest.ts';
import { type GridValues, gridOf, notMade, type Planned, plan, whyNot } from './sweepGrid.ts';
import type { SweepFigures, SweepPoint, SweepResult, Variable } from './sweepResult.ts';

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
  const grid = gridOf(variables, options.most ?? MOST_SWEEP_POINTS);
  const basis = studyBasis(options, baseline.combination);
  const planOf = (values: GridValues): Planned => plan(baseline, variables, values, options.sheet);
  const problems = whyNot(baseline, variables, grid, planOf);
  if (problems.length > 0) return { ok: false, problems };

  const { reference, warnings, made, leftOut, complete } = await forecastGrid(baseline, basis, options, {
    grid,
    planOf,
  });
  // Whatever an abort kept from being made keeps its place, and has no figures.
  const unmade = grid
    .slice(made.length)
    .map((values) => pointOf(notMade(variables, values), null, null, basis));
  const points = [...made, ...unmade];
  return {
    ok: true,
    value: {
      schemaVersion: 1,
      program: { name: 'valvetide', version: VERSION },
      complete: complete && unmade.length === 0,
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

/** The points of a grid, and how to plan one when its turn comes. */
interface GridPlan {
  readonly grid: readonly GridValues[];
  readonly planOf: (values: GridValues) => Planned;
}

/** What was forecast of a grid. */
interface ForecastGrid {
  readonly reference: WholeCurve | null;
  readonly warnings: readonly Warning[];
  /** In the order of the grid, as far as it went. */
  readonly made: readonly SweepPoint[];
  readonly leftOut: readonly LeftOut[];
  /** Every job gave a curve. */
  readonly complete: boolean;
}

/** Forecasts the baseline and then the grid, of which only a few points are in memory at a time. */
async function forecastGrid(
  { combination }: Baseline,
  basis: StudyBasis,
  options: SweepOptions,
  { grid, planOf }: GridPlan,
): Promise<ForecastGrid> {
  let reference: WholeCurve | null = null;
  let warnings: readonly Warning[] = [];
  let complete = true;
  const leftOut: LeftOut[] = [];
  const made: SweepPoint[] = [];
  const waiting: Planned[] = [];
  const jobs = function* (): Generator<StudyJob> {
    yield jobOf(combination, basis, options.mesh);
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
      made.push(pointOf(planned, own === null ? null : wholeCurve(own), reference, basis));
      if (planned.combination !== null) return;
    }
  };
  await runInChunks(options.run ?? runJobsHere, jobs(), grid.length + 1, options, (curve, i) => {
    complete &&= curve !== null;
    if (i > 0) return settle(curve);
    reference = curve === null ? null : wholeCurve(curve);
    warnings = curve?.warnings ?? [];
    leftOut.push(...leftOutOf(combination.name, curve));
  });
  settle(undefined);
  return { reference, warnings, made, leftOut, complete };
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
