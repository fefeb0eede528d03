/** Sizes in messages, in the units that a file asks for; those of the trade, where it asks for none. */
import { INCH, INCH_OF_MERCURY, INCH_OF_WATER } from '../base/constants.ts';
import type { UnitSystem } from './combination.ts';

/** A length [m]. */
export function lengthText(metres: number, units: UnitSystem | undefined): string {
  return units === 'si'
    ? `${Number((1000 * metres).toPrecision(4))} mm`
    : `${Number((metres / INCH).toPrecision(4))} in`;
}

/** An area [m2]. */
export function areaText(area: number, units: UnitSystem | undefined): string {
  return units === 'si'
    ? `${Number((1e6 * area).toPrecision(3))} mm2`
    : `${Number((area / (INCH * INCH)).toPrecision(3))} in2`;
}

/** The depression of a flow bench [Pa]. */
export function depressionText(depression: number, units: UnitSystem | undefined): string {
  return units === 'si'
    ? kilopascal(depression)
    : `${Number((depression / INCH_OF_WATER).toPrecision(3))} inH2O`;
}

/** A pressure of the air, or one that a carburetor is rated at [Pa]. */
export function airPressureText(pressure: number, units: UnitSystem | undefined): string {
  return units === 'si'
    ? kilopascal(pressure)
    : `${Number((pressure / INCH_OF_MERCURY).toPrecision(2))} inHg`;
}

function kilopascal(pressure: number): string {
  return `${Number((pressure / 1000).toPrecision(3))} kPa`;
}
