/** Combinations side by side over the same speeds. */

import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import { VERSION } from '../base/version.ts';
import type { Change } from '../changes/change.ts';
import { LEAST_GAIN_PCT, leftOutOfModel } from '../changes/notModelled.ts';
import type { Combination } from '../combination/combination.ts';
import { benchRemark, otherBench } from '../combination/otherBench.ts';
import type { Problem } from '../combination/problem.ts';
import { sameSheetRemark } from '../combination/sameSheet.ts';
import { bandMean } from '../forecast/band.ts';
import type { Curve } from '../forecast/curve.ts';
import { limitBreaches } from '../forecast/limits.ts';
import { leftOutOf, wholeCurve } from '../forecast/wholeCurve.ts';
import { indexOfHighest } from '../numerics/topOf.ts';
import { cautionsOf } from './cautions.ts';
import type { ComparisonEntry, ComparisonResult, StudyBasis } from './comparisonResult.ts';
import { curveArea, gainOver } from './gain.ts';
import { runJobsHere } from './job.ts';
import { jobOf, type StudyOptions, studyBasis } from './studyOptions.ts';

/** A combination under the name it goes by in the result. A {@link Baseline} is one. */
export interface NamedCombination {
  /** Default the combination's own name. */
  readonly name?: string;
  /** A complete engine. */
  readonly combination: Combination;
  /** What was changed to come to it; where the model holds a part of that alone and nothing is gained, the result remarks on it. */
  readonly change?: Pick<Change, 'edits'>;
}

/** With its name, and the change where there is one. */
interface Entry {
  readonly name: string;
  readonly combination: Combination;
  readonly change: Pick<Change, 'edits'> | undefined;
}

/** What {@link NamedCombination.name} comes to. */
export function nameOfCombination({ name, combination }: NamedCombination): string {
  return name ?? combination.name;
}

/**
 * Forecasts each combination over the same speeds and sets the candidates against the baseline.
 *
 * All curves are shown by the correction standard of the baseline, since two standards alone differ by 4 to 5 %.
 *
 * @throws {@link DomainError} where a name comes twice, or speeds and band make no sense
 *
 * @example
 * ```ts
 * const compared = await compare({ combination }, [{ name: 'bigger valves', combination: changed }], {
 *   rpm: [3000, 4000, 5000, 6000],
 *   band: { fromRpm: 4000, toRpm: 6000 },
 * });
 * if (compared.ok) console.log(compared.value.best);
 * ```
 */
export async function compare(
  baseline: NamedCombination,
  candidates: readonly NamedCombination[],
  options: StudyOptions,
): Promise<Result<ComparisonResult, Problem>> {
  const all = [baseline, ...candidates].map((one) => ({
    name: nameOfCombination(one),
    combination: one.combination,
    change: 'change' in one ? one.change : undefined,
  }));
  const twice = all.find(({ name }, i) => all.findIndex((other) => other.name === name) < i);
  if (twice !== undefined) throw new DomainError('candidates', twice.name, 'of different names');
  const basis = studyBasis(options, baseline.combination);
  const { run = runJobsHere } = options;
  const curves = await run(
    all.map(({ combination }) => jobOf(combination, basis, options.mesh)),
    options,
  );
  const entries = all.map((one, i) => entryOf(one, curves[i], curves[0], basis));
  const value: ComparisonResult = {
    schemaVersion: 1,
    program: { name: 'valvetide', version: VERSION },
    complete: curves.every((curve) => curve !== null),
    reference: all[0].name,
    ...basis,
    entries,
    best: highestOf(entries.filter(({ breaches }) => breaches.length === 0)),
    highest: highestOf(entries),
    remarks: [...remarks(all), ...entries.flatMap(({ gain }, i) => unheld(all[i], gain?.band.powerPct))],
    leftOut: all.flatMap(({ name }, i) => leftOutOf(name, curves[i])),
  };
  return { ok: true, value };
}

function entryOf(
  { name, combination }: Entry,
  curve: Curve | null,
  reference: Curve | null,
  basis: StudyBasis,
): ComparisonEntry {
  const whole = curve === null ? null : wholeCurve(curve);
  if (whole === null) return { name, curve, band: null, area: null, gain: null, cautions: [], breaches: [] };
  const known = reference === null ? null : wholeCurve(reference);
  return {
    name,
    curve,
    band: bandMean(whole.points, basis.band, basis.weighting),
    area: curveArea(whole, basis),
    gain: known === null ? null : gainOver(known, whole, basis),
    cautions: known === null || curve === reference ? [] : cautionsOf(known, whole),
    breaches: limitBreaches(combination, whole),
  };
}

/** Name of the first of those with the highest mean power. */
function highestOf(entries: readonly ComparisonEntry[]): string | null {
  const index = indexOfHighest(entries.map(({ band }) => band?.powerKw ?? null));
  return index === null ? null : entries[index].name;
}

/** That nothing is gained may be the model's doing. */
function unheld({ name, change }: Entry, gainPct: number | undefined): readonly string[] {
  const text = change === undefined ? null : leftOutOfModel(change);
  return text === null || !(Math.abs(gainPct ?? 0) <= LEAST_GAIN_PCT)
    ? []
    : [`${name} is not modelled: ${text}`];
}

function remarks(candidates: readonly Entry[]): readonly string[] {
  const [first, ...others] = candidates;
  return others.flatMap(({ name, combination }) => {
    const found: string[] = [];
    if (combination.correction !== first.combination.correction) {
      const { correction } = first.combination;
      found.push(
        `${name} asks for ${combination.correction}, and is shown by ${correction} as ${first.name} is`,
      );
    }
    if (JSON.stringify(combination.weather) !== JSON.stringify(first.combination.weather)) {
      found.push(`${name} and ${first.name} run in different air: part of the difference may come from that`);
    }
    // A change says so by itself, in its cautions.
    const differs = otherBench(first.combination, combination);
    if (differs !== null && !combination.warnings.some(({ code }) => code === 'other-bench'))
      found.push(benchRemark(name, differs));
    const sheet = sameSheetRemark(first.combination, combination);
    if (sheet !== null && !combination.warnings.some(({ code }) => code === 'same-sheet'))
      found.push(`${name}: ${sheet}`);
    return found;
  });
}
