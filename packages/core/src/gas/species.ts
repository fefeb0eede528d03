/** The species of the gas model, found by name. */
import { DomainError } from '../base/errors.ts';
import { atomMass } from './atoms.ts';
import { SPECIES_DATA, type SpeciesData } from './speciesData.ts';

/** A gas species: its atoms, its weight and its thermodynamic polynomial. */
export interface Species extends SpeciesData {
  /** [kg/mol] */
  readonly molarMass: number;
}

const byName: ReadonlyMap<string, Species> = new Map(
  SPECIES_DATA.map((data) => [data.name, { ...data, molarMass: atomMass(data.atoms) }]),
);

/** Names of every species of the gas model. */
export const SPECIES_NAMES: readonly string[] = SPECIES_DATA.map((data) => data.name);

/**
 * The species of that name.
 *
 * @throws {@link DomainError} listing the known names
 */
export function species(name: string): Species {
  const found = byName.get(name);
  if (found === undefined) throw new DomainError('species', name, `one of ${SPECIES_NAMES.join(', ')}`);
  return found;
}
