/** What a unit comes to in SI, whether it stands alone (`kPa`), in a power (`in^2`) or in a product (`ft^3/min`). */

/** A unit as a multiple of a product of base units. */
export interface UnitSize {
  /** In that product. */
  readonly size: number;
  /** What is added to a number of this unit before it is multiplied: 459.67 for the degrees of Fahrenheit. */
  readonly zero: number;
  /** Powers of the base units, in one order for all units of a source. */
  readonly powers: readonly number[];
}

/**
 * The size of a unit, or of a product and quotient of units without brackets; null where there is no such unit. Temperature scales keep their
 * zero only where they stand alone.
 */
export type UnitSizes = (name: string) => UnitSize | null;
