/** Air that the standards of correction refer to. */

import { INCH_OF_MERCURY } from '../base/constants.ts';
import type { CorrectionStandard } from './running.ts';

/** Reference air of a standard. */
export interface ReferenceAir {
  /** Pressure of the dry air [Pa]. */
  readonly dryPressure: number;
  /** [K] */
  readonly temperature: number;
}

/** SAE J607 practice: 29.92 inHg dry, 60 F. */
export const J607_REFERENCE: ReferenceAir = {
  dryPressure: 29.92 * INCH_OF_MERCURY,
  temperature: (60 + 459.67) / 1.8,
};

/** SAE J1349 (June 1990): 99 kPa dry (29.23 inHg), 25 C (77 F). */
export const J1349_REFERENCE: ReferenceAir = { dryPressure: 99_000, temperature: 298.15 };

/**
 * Reference air of `standard`; null for observed figures.
 *
 * @example
 * ```ts
 * console.log(referenceAir('J607')?.dryPressure); // [Pa]
 * ```
 */
export function referenceAir(standard: CorrectionStandard): ReferenceAir | null {
  if (standard === 'J607') return J607_REFERENCE;
  return standard === 'J1349' ? J1349_REFERENCE : null;
}
