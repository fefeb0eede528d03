/** What this program uses of the units of mathjs, whichever way they are loaded. */

/** A number with its unit. */
export interface UnitValue {
  /** In SI, the zero of a temperature scale counted in. */
  readonly value: unknown;
  /** Powers of the base units. */
  readonly dimensions: readonly number[];
}

/** A class of units, and with it a system of units that nothing else sees. */
export interface UnitClass {
  /** @throws where `unit` is no unit */
  new (value: number, unit: string): UnitValue;
  /** Adds units by name, each defined by others: `{ cfm: '1 ft^3/min' }`. */
  createUnit(
    definitions: Readonly<Record<string, string>>,
    options?: { readonly override: boolean },
  ): unknown;
}
