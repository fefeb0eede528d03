/** The fit itself, with its forecasts. */
import { DomainError } from '../base/errors.ts';
import { type Baseline, sheetsOf } from '../changes/baseline.ts';
import type { Combination } from '../combination/combination.ts';
import type { Curve } from '../forecast/curve.ts';
import { type LeftOut, leftOutOf } from '../forecast/wholeCurve.ts';
import { dampedLeastSquares, type FitResult, type FitUnknown } from '../numerics/dampedLeastSquares.ts';
import type { CombinationDocument } from '../reading/combinationDocument.ts';
import { editDocument } from '../reading/editDocument.ts';
import { resolveDocument } from '../reading/resolveDocument.ts';
import { runJobsHere, type StudyControl, type StudyJob } from '../studies/job.ts';
import { forecastOf } from './aimedFigures.ts';
import { type CalibrationTarget, withoutSpeeds } from './calibrationTarget.ts';
import { type Knob, knobText } from './knobs.ts';

/** A fit, and what it was made to. */
export interface KnobFit {
  /** Without the speeds that were lost. */
  readonly target: CalibrationTarget;
  /** Null where an abort came first, or too little is left to fit. */
  readonly fit: FitResult | null;
  /** What the combination gave for each aim before the fit. */
  readonly before: readonly number[];
  readonly run: FitRun;
}

/** A fit to fewer speeds than this says nothing. */
export const LEAST_SPEEDS = 2;

/** Fits; where a speed is lost with some value of the knobs, fits again without it, what was forecast before being kept. */
export async function fitKnobs(
  baseline: Baseline,
  knobs: readonly Knob[],
  whole: CalibrationTarget,
  means: StudyControl,
): Promise<KnobFit> {
  const run = new FitRun(baseline, knobs, whole, means);
  for (;;) {
    const gone = run.leftOut.map(({ rpm }) => rpm);
    const target = withoutSpeeds(whole, gone);
    if (gone.length > 0 && target.rpm.length < LEAST_SPEEDS) return { target, fit: null, before: [], run };
    let before: readonly number[] | null = null;
    const fit = await dampedLeastSquares(knobs.map(unknownOf), async (points) => {
      const curves = await run.curves(points);
      if (run.leftOut.length > gone.length) return points.map(() => null);
      return curves.map((curve, i) => {
        if (curve === null) return null;
        const reads = dynoReads(knobs, points[i]);
        before ??= forecastOf(target, curve, reads);
        return residualsOf(target, curve, reads);
      });
    });
    if (run.leftOut.length === gone.length)
      return { target, fit: before === null ? null : fit, before: before ?? [], run };
  }
}

/** A knob as an unknown of the fit. */
export function unknownOf({ value, spread, min, max, step, effect }: Knob): FitUnknown {
  return { mean: value, spread, min, max, step, effect };
}

/** Forecasts of a fit, each engine once however often the dyno alone is moved. */
export class FitRun {
  readonly #baseline: Baseline;
  readonly #knobs: readonly Knob[];
  readonly #target: CalibrationTarget;
  readonly #means: StudyControl;
  readonly #curves = new Map<string, Curve>();
  readonly #lost = new Map<number, LeftOut>();
  #forecasts = 0;

  constructor(baseline: Baseline, knobs: readonly Knob[], target: CalibrationTarget, means: StudyControl) {
    this.#baseline = baseline;
    this.#knobs = knobs;
    this.#target = target;
    this.#means = means;
  }

  /** Forecasts run so far. */
  get forecasts(): number {
    return this.#forecasts;
  }

  /** Speeds lost with some value of the knobs, rising. */
  get leftOut(): readonly LeftOut[] {
    return [...this.#lost.values()].sort((a, b) => a.rpm - b.rpm);
  }

  /** Curves with the knobs at these values; null for what an abort kept from being run. */
  async curves(points: readonly (readonly number[])[]): Promise<readonly (Curve | null)[]> {
    const keyOf = (values: readonly number[]): string =>
      this.#knobs.flatMap(({ path }, i) => (path === null ? [] : [values[i]])).join(' ');
    const missing = new Map(
      points.flatMap((values) => (this.#curves.has(keyOf(values)) ? [] : [[keyOf(values), values] as const])),
    );
    const found = await this.#runAll(
      [...missing.values()].map((values) => knobbed(this.#baseline, this.#knobs, values, this.#target)),
    );
    [...missing.keys()].forEach((key, i) => {
      const curve = found[i] ?? null;
      if (curve === null) return;
      this.#curves.set(key, curve);
      for (const entry of leftOutOf(this.#baseline.combination.name, curve)) this.#lost.set(entry.rpm, entry);
    });
    return points.map((values) => this.#curves.get(keyOf(values)) ?? null);
  }

  /** Residuals with the knobs at `values` and the file altered besides; null for what can't be built, was lost or not run. */
  async altered(
    target: CalibrationTarget,
    values: readonly number[],
    alter: readonly ((document: CombinationDocument) => CombinationDocument)[],
  ): Promise<(readonly number[] | null)[]> {
    const fitted = knobbedDocument(this.#baseline, this.#knobs, values);
    const built = alter.map((edit) => resolvedWith(this.#baseline, edit(fitted)));
    const curves = await this.#runAll(
      built.flatMap((combination) => (combination === null ? [] : [asObserved(combination, target)])),
    );
    let next = 0;
    return built.map((combination) => {
      const curve = combination === null ? null : (curves[next++] ?? null);
      if (curve === null || leftOutOf('', curve).some(({ rpm }) => target.rpm.includes(rpm))) return null;
      return residualsOf(target, curve, dynoReads(this.#knobs, values));
    });
  }

  async #runAll(combinations: readonly Combination[]): Promise<readonly (Curve | null)[]> {
    if (combinations.length === 0) return [];
    const { run = runJobsHere, signal, onProgress } = this.#means;
    const done = this.#forecasts;
    const curves = await run(
      combinations.map((combination): StudyJob => ({ combination, rpm: this.#target.rpm })),
      {
        ...(signal === undefined ? {} : { signal }),
        onProgress: (finished, total) => onProgress?.(done + finished, done + total),
      },
    );
    this.#forecasts += curves.filter((curve) => curve !== null).length;
    return curves;
  }
}

/** What the dyno shows over what there is [-]. */
function dynoReads(knobs: readonly Knob[], values: readonly number[]): number {
  const at = knobs.findIndex(({ name }) => name === 'dyno');
  return at < 0 ? 1 : values[at];
}

function residualsOf(target: CalibrationTarget, curve: Curve, reads: number): number[] {
  return forecastOf(target, curve, reads).map(
    (value, i) => (value - target.aims[i].measured) / target.aims[i].sigma,
  );
}

/** The combination with its knobs at given values, in the air of the target, its torque as observed. */
function knobbed(
  baseline: Baseline,
  knobs: readonly Knob[],
  values: readonly number[],
  air: Pick<CalibrationTarget, 'weather'>,
): Combination {
  const resolved = resolvedWith(baseline, knobbedDocument(baseline, knobs, values));
  // The baseline itself was sound, and a knob within its limits makes no file unsound.
  if (resolved === null) throw new DomainError('knobs', values.join(', '), 'values the combination bears');
  return asObserved(resolved, air);
}

function knobbedDocument(
  baseline: Baseline,
  knobs: readonly Knob[],
  values: readonly number[],
): CombinationDocument {
  return knobs.reduce(
    (edited, { path }, i) => (path === null ? edited : editDocument(edited, path, knobText(path, values[i]))),
    baseline.document,
  );
}

function resolvedWith(baseline: Baseline, document: CombinationDocument): Combination | null {
  const resolved = resolveDocument(document, { sheet: sheetsOf(baseline.sheets), written: baseline.stated });
  return resolved.ok ? resolved.value : null;
}

/** A combination to be forecast in the air of a pull, its torque as observed. */
export function asObserved(
  combination: Combination,
  { weather }: Pick<CalibrationTarget, 'weather'>,
): Combination {
  return { ...combination, weather: weather ?? combination.weather, correction: 'none' };
}
