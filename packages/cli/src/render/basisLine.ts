/** On what a study rests: the reference air, the fidelity and what a mean counts. */
import type { StudyBasis } from '@valvetide/core';
import { referenceAir, standardName } from './correction.ts';
import type { UnitSystem } from './units.ts';

export function basisLine(basis: StudyBasis, units: UnitSystem): string {
  const air =
    basis.correction === 'none'
      ? 'As observed, no correction'
      : `Corrected to ${standardName(basis.correction)}, ${referenceAir(basis.correction, units)}`;
  const weighting =
    basis.weighting === 'time'
      ? 'means weighted by the time an acceleration spends at each speed'
      : 'means count every speed alike';
  return `${air}; ${basis.fidelity}; ${weighting}.`;
}
