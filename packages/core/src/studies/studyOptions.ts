/** What every study of curves is asked, and the same checks on it. */

import type { Mesh } from '../assembly/mesh.ts';
import type { Fidelity } from '../assembly/symmetry.ts';
import { DomainError } from '../base/errors.ts';
import type { Combination } from '../combination/combination.ts';
import { needsCombination } from '../combination/needsCombination.ts';
import type { BandWeighting, SpeedBand } from '../forecast/band.ts';
import { checkFidelity, checkSpeeds } from '../forecast/checkSpeeds.ts';
import type { StudyBasis } from './comparisonResult.ts';
import type { StudyControl, StudyJob } from './job.ts';

/** Speeds, the band that counts, and how finely. */
export interface StudyOptions extends StudyControl {
  /** Speeds [1/min], rising. */
  readonly rpm: readonly number[];
  /** Default all of the speeds. */
  readonly band?: SpeedBand;
  /** Default `speed`. */
  readonly weighting?: BandWeighting;
  /** Default `representative`. */
  readonly fidelity?: Fidelity;
  /** Default the mesh of a forecast. */
  readonly mesh?: Mesh;
}

/**
 * The options with their defaults, for combinations whose curves are shown by the standard of the first.
 *
 * @throws {@link DomainError} where there is no engine, speeds are missing or not rising, or the band reaches into none of them
 */
export function studyBasis(options: StudyOptions, first: Combination): StudyBasis {
  const { rpm, weighting = 'speed', fidelity = 'representative' } = options;
  needsCombination(first);
  checkSpeeds(rpm);
  checkFidelity(fidelity);
  const all = { fromRpm: rpm[0], toRpm: rpm[rpm.length - 1] };
  const band = options.band ?? all;
  const overlaps = band.fromRpm <= band.toRpm && band.fromRpm <= all.toRpm && band.toRpm >= all.fromRpm;
  if (!overlaps)
    throw new DomainError('band', `${band.fromRpm} to ${band.toRpm}`, 'a band that the speeds reach into');
  return { rpm, band, weighting, fidelity, correction: first.correction };
}

/** The forecast of a combination on that basis. */
export function jobOf(combination: Combination, basis: StudyBasis, mesh: Mesh | undefined): StudyJob {
  return {
    combination: { ...combination, correction: basis.correction },
    rpm: basis.rpm,
    fidelity: basis.fidelity,
    ...(mesh === undefined ? {} : { mesh }),
  };
}
