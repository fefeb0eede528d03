/** What this program uses of the units of mathjs, whichever way they are loaded. */

/** A number with its unit. */
export interface UnitValue {
  equalBase(other: UnitValue): boolean;
  /** The number in another unit of the same dimension. */
  toNumber(unit: string): number;
}

/** A class of units, and with it a system of units that nothing else sees. */
export interface UnitClass {
  /** @throws where `unit` is no unit */
  new (value: number, unit: string): UnitValue;
  /** Adds units by name, each defined by others: `{ cfm: '1 ft^3/min' }`. */
  createUnit(definitions: Readonly<Record<string, string>>): unknown;
}
