/** Clearance volume and compression ratio from the volumes a builder measures. */
import { DomainError } from '../base/errors.ts';

/** What stands above the piston at top centre, one cylinder. */
export interface ClearanceParts {
  /** Combustion chamber in the head, valves and plug in place [m3]. */
  readonly chamber: number;
  /** Dome less dish and valve pockets [m3]: a dome is positive and takes volume away, a dish is negative. */
  readonly dome: number;
  /** [m] */
  readonly bore: number;
  /** Piston's flat below the deck at top centre [m]; negative where it stands proud. */
  readonly deckHeight: number;
  /** [m] */
  readonly gasketBore: number;
  /** Compressed [m]. */
  readonly gasketThickness: number;
  /** Ring-land crevice above the top ring [m3]. */
  readonly crevice: number;
}

/** Volume of a disc [m3]: deck or gasket. */
export function discVolume(diameter: number, height: number): number {
  return (Math.PI / 4) * diameter * diameter * height;
}

/**
 * Clearance volume [m3]: chamber, deck, gasket and crevice less the dome. A round gasket hole is assumed.
 *
 * @example
 * ```ts
 * const volume = clearanceVolume({
 *   bore: 0.1024,
 *   chamber: 64e-6,
 *   dome: -5e-6,
 *   deckHeight: 0.0003,
 *   gasketBore: 0.1041,
 *   gasketThickness: 0.001,
 *   crevice: 1e-6,
 * });
 * ```
 */
export function clearanceVolume(parts: ClearanceParts): number {
  if (!(parts.chamber > 0)) throw new DomainError('chamber', parts.chamber, 'positive m3');
  if (!Number.isFinite(parts.dome)) throw new DomainError('dome', parts.dome, 'a finite m3');
  if (!(parts.bore > 0)) throw new DomainError('bore', parts.bore, 'positive m');
  if (!Number.isFinite(parts.deckHeight)) throw new DomainError('deckHeight', parts.deckHeight, 'a finite m');
  if (!(parts.gasketBore > 0)) throw new DomainError('gasketBore', parts.gasketBore, 'positive m');
  if (!(parts.gasketThickness >= 0)) {
    throw new DomainError('gasketThickness', parts.gasketThickness, 'zero or positive m');
  }
  if (!(parts.crevice >= 0)) throw new DomainError('crevice', parts.crevice, 'zero or positive m3');
  const volume =
    parts.chamber -
    parts.dome +
    discVolume(parts.bore, parts.deckHeight) +
    discVolume(parts.gasketBore, parts.gasketThickness) +
    parts.crevice;
  if (!(volume > 0)) throw new DomainError('dome', parts.dome, 'smaller than the volume around it, m3');
  return volume;
}

/**
 * Geometric compression ratio [-]: (swept + clearance) / clearance.
 *
 * @example
 * ```ts
 * compressionRatio(727e-6, 80e-6); // 10.1
 * ```
 */
export function compressionRatio(sweptVolume: number, clearance: number): number {
  if (!(sweptVolume > 0)) throw new DomainError('sweptVolume', sweptVolume, 'positive m3');
  if (!(clearance > 0)) throw new DomainError('clearance', clearance, 'positive m3');
  return (sweptVolume + clearance) / clearance;
}

/** Clearance volume [m3] that gives a stated compression ratio, above 1. */
export function clearanceFromRatio(sweptVolume: number, ratio: number): number {
  if (!(sweptVolume > 0)) throw new DomainError('sweptVolume', sweptVolume, 'positive m3');
  if (!(ratio > 1)) throw new DomainError('ratio', ratio, 'above 1');
  return sweptVolume / (ratio - 1);
}

/**
 * Compression ratio of the volume trapped when the intake valve closes [-].
 *
 * Depends on the lift at which "closed" is read: name it beside the number.
 *
 * @param volumeAtClosing - cylinder volume at that angle [m3]
 */
export function trappedCompressionRatio(volumeAtClosing: number, clearance: number): number {
  if (!(clearance > 0)) throw new DomainError('clearance', clearance, 'positive m3');
  if (!(volumeAtClosing >= clearance)) {
    throw new DomainError('volumeAtClosing', volumeAtClosing, `at least the clearance, ${clearance} m3`);
  }
  return volumeAtClosing / clearance;
}
