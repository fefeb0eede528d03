/** Atoms of a molecule or a mixture, and what they weigh. */

/** Moles of atoms per mole of molecules (or of whatever basis the caller states) [mol]. */
export interface AtomCounts {
  readonly C: number;
  readonly H: number;
  readonly O: number;
  readonly N: number;
  readonly Ar: number;
}

/** Atomic weights [kg/mol]: IUPAC abridged values of 2013 (argon 2017), as used with the coefficient data. */
export const ATOMIC_WEIGHT: AtomCounts = { C: 0.012011, H: 0.001008, O: 0.015999, N: 0.014007, Ar: 0.03995 };

/** Mass of the given atoms [kg]: a molar mass [kg/mol] where the counts are per molecule. */
export function atomMass(atoms: AtomCounts): number {
  return (
    atoms.C * ATOMIC_WEIGHT.C +
    atoms.H * ATOMIC_WEIGHT.H +
    atoms.O * ATOMIC_WEIGHT.O +
    atoms.N * ATOMIC_WEIGHT.N +
    atoms.Ar * ATOMIC_WEIGHT.Ar
  );
}

/** Oxygen molecules that burn the given atoms to CO2 and H2O [mol]; negative where oxygen is in excess. */
export function oxygenDemand(atoms: AtomCounts): number {
  return atoms.C + atoms.H / 4 - atoms.O / 2;
}
