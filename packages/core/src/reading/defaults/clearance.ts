/** Small parts of the clearance volume and the rod, where a build sheet is silent. */

import { INCH } from '../../base/constants.ts';
import type { Estimate } from '../../combination/ledger.ts';

/** Rod length over stroke [-]; common practice, no source. */
export const ROD_RATIO = 1.65;
/** Gasket bore above the cylinder bore, on a 4 in bore [m]; common practice, no source. Kept in proportion. */
export const GASKET_BORE_EXTRA: number = 0.06 * INCH;
/** Compressed gasket [m]; common practice, no source. */
export const GASKET_THICKNESS: number = 0.04 * INCH;
/** Piston below the deck [m]; common practice, no source. */
export const DECK: number = 0.015 * INCH;
/** Ring-land crevice of a 4 in bore [m3]: technical inspection allows about 1 cc (common practice, no source). Goes with bore cubed. */
export const CREVICE = 1e-6;
const REFERENCE_BORE = 4 * INCH;

export function rodLength(stroke: number): Estimate {
  return {
    value: ROD_RATIO * stroke,
    spread: 0.1 * stroke,
    reason: '1.65 strokes; common practice, no source',
  };
}

export function gasketBore(bore: number): Estimate {
  const value = bore + (GASKET_BORE_EXTRA * bore) / REFERENCE_BORE;
  return {
    value,
    spread: 0.02 * INCH,
    reason: 'the bore plus 1.5 %; common practice, no source',
  };
}

export function gasketThickness(): Estimate {
  return {
    value: GASKET_THICKNESS,
    spread: 0.006 * INCH,
    reason: 'usual compressed head gasket; common practice, no source',
  };
}

export function deck(): Estimate {
  return {
    value: DECK,
    spread: 0.008 * INCH,
    reason: 'piston a little below the deck; common practice, no source',
  };
}

export function crevice(bore: number): Estimate {
  const scale = (bore / REFERENCE_BORE) ** 3;
  return {
    value: CREVICE * scale,
    spread: 0.4e-6 * scale,
    reason: '1 cc on a bore of 4 in, 102 mm, and with bore cubed; common practice, no source',
  };
}
