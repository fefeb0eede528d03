/** Correction standards in words: the reference air is always said, since an unnamed one is worth 4 to 5 %. */
import type { CorrectionStandard } from '@valvetide/core';
import type { UnitSystem } from './units.ts';

const AIR: Readonly<Record<CorrectionStandard, Readonly<Record<UnitSystem, string>>>> = {
  J607: { trade: '60 F / 29.92 inHg dry', si: '15.6 C / 101.3 kPa dry' },
  J1349: { trade: '77 F / 29.23 inHg dry', si: '25 C / 99.0 kPa dry' },
  none: { trade: 'as observed, not corrected', si: 'as observed, not corrected' },
};

const NAME: Readonly<Record<CorrectionStandard, string>> = {
  J607: 'SAE J607 practice',
  J1349: 'SAE J1349',
  none: 'no correction',
};

export const referenceAir = (standard: CorrectionStandard, units: UnitSystem): string => AIR[standard][units];

export const standardName = (standard: CorrectionStandard): string => NAME[standard];
