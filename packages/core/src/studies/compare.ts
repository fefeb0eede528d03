/** Combinations side by side over the same speeds. */
import { DomainError } from '../base/errors.ts';
import { VERSION } from '../base/version.ts';
import type { Combination } from '../combination/combination.ts';
import { bandMean } from '../forecast/band.ts';
import type { Curve } from '../forecast/curve.ts';
import { leftOutOf, wholeCurve } from '../forecast/wholeCurve.ts';
import { cautionsOf } from './cautions.ts';
import type { Comparison, ComparisonEntry, StudyBasis } from './comparison.ts';
import { curveArea, gainOver } from './gain.ts';
import { type RunJobs, runJobsHere } from './job.ts';
import { jobOf, type StudyOptions, studyBasis } from './studyOptions.ts';

/** A combination under the name it goes by in the result. */
export interface Candidate {
  readonly name: string;
  readonly combination: Combination;
}

/**
 * Forecasts each combination over the same speeds and sets it against the first.
 *
 * All curves are shown by the correction standard of the first, since two standards alone differ by 4 to 5 %.
 *
 * @throws {@link DomainError} where there is no combination, a name comes twice, or speeds and band make no sense
 */
export async function compare(
  candidates: readonly Candidate[],
  options: StudyOptions,
  run: RunJobs = runJobsHere,
): Promise<Comparison> {
  if (!(candidates.length > 0)) throw new DomainError('candidates', candidates.length, 'one or more');
  const twice = candidates.find(({ name }, i) => candidates.findIndex((c) => c.name === name) < i);
  if (twice !== undefined) throw new DomainError('candidates', twice.name, 'of different names');
  const basis = studyBasis(options, candidates[0].combination);
  const curves = await run(
    candidates.map(({ combination }) => jobOf(combination, basis, options.mesh)),
    options,
  );
  const entries = candidates.map(({ name }, i) => entryOf(name, curves[i], curves[0], basis));
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: VERSION },
    complete: curves.every((curve) => curve !== null),
    reference: candidates[0].name,
    ...basis,
    entries,
    best: bestOf(entries),
    remarks: remarks(candidates),
    leftOut: candidates.flatMap(({ name }, i) => leftOutOf(name, curves[i])),
  };
}

function entryOf(
  name: string,
  curve: Curve | null,
  reference: Curve | null,
  basis: StudyBasis,
): ComparisonEntry {
  const whole = curve === null ? null : wholeCurve(curve);
  if (whole === null) return { name, curve, band: null, area: null, gain: null, cautions: [] };
  const known = reference === null ? null : wholeCurve(reference);
  return {
    name,
    curve,
    band: bandMean(whole.points, basis.band, basis.weighting),
    area: curveArea(whole, basis),
    gain: known === null ? null : gainOver(known, whole, basis),
    cautions: known === null || curve === reference ? [] : cautionsOf(known, whole),
  };
}

/** The first of those with the highest mean power. */
function bestOf(entries: readonly ComparisonEntry[]): string | null {
  let best: ComparisonEntry | null = null;
  for (const entry of entries) {
    if (entry.band !== null && entry.band.powerKw > (best?.band?.powerKw ?? Number.NEGATIVE_INFINITY))
      best = entry;
  }
  return best?.name ?? null;
}

function remarks(candidates: readonly Candidate[]): readonly string[] {
  const [first, ...others] = candidates;
  return others.flatMap(({ name, combination }) => {
    const found: string[] = [];
    if (combination.correction !== first.combination.correction) {
      const { correction } = first.combination;
      found.push(
        `${name} asks for ${combination.correction}; it is shown by ${correction}, as ${first.name}`,
      );
    }
    if (JSON.stringify(combination.weather) !== JSON.stringify(first.combination.weather)) {
      found.push(`${name} and ${first.name} run in different air, and part of the difference may be that`);
    }
    return found;
  });
}
