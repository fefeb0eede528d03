/** A fuel as the gas model needs it, and its vapour as a gas. */
import { R_UNIVERSAL, T_REFERENCE } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import { type AtomCounts, atomMass, oxygenDemand } from './atoms.ts';
import { type Mixture, mixture } from './mixture.ts';
import { hOverR } from './nasaPolynomial.ts';
import { species } from './species.ts';

/** A fuel: what it is made of, what it releases and how it resists knock. */
export interface Fuel {
  /** Name as written in a file. */
  readonly name: string;
  /** Moles of the components, by name of the gas model's species; null where only the atoms are known. */
  readonly composition: readonly { readonly species: string; readonly moles: number }[] | null;
  /** Atoms per molecule where no composition is given. */
  readonly atoms: { readonly C: number; readonly H: number; readonly O: number } | null;
  /** Lower heating value of the liquid at 298.15 K [J/kg]. */
  readonly lowerHeatingValue: number;
  /** Latent heat at 298.15 K [J/kg]; 0 for a gas. */
  readonly latentHeat: number;
  /** Temperature at which the liquid boils at 1 atm, of a blend the middle of its range [K]; 0 for a gas. */
  readonly boilingPoint: number;
  /** Research octane number [-]. */
  readonly researchOctane: number;
  /** Motor octane number [-]. */
  readonly motorOctane: number;
}

/**
 * The fuel's vapour as a gas.
 *
 * With a composition: the mixture of its species. With atoms only: the mixture of iso-octane, toluene and
 * ethanol that holds the same atoms, amounts of either sign, so that each C, H and O brings its usual heat
 * capacity (atom additivity). Tested from 300 to 1500 K against species not used in it: n-heptane, benzene and methanol
 * within 8 %, the light gases worse (propane 12 %, methane 21 %).
 *
 * Either way the enthalpy of formation is shifted until complete combustion at 298.15 K releases the stated
 * heating value plus latent heat; for the fuels shipped here the shift is below 0.1 % of it.
 *
 * Above about 1500 K no fuel vapour survives. The polynomials run smoothly on to 6000 K, so that a search for a
 * temperature never falls off, but nothing should be read from them there.
 *
 * @throws {@link DomainError} where the fuel has neither composition nor atoms, or its numbers are out of range
 */
export function fuelVapour(fuel: Fuel): Mixture {
  if (!(fuel.lowerHeatingValue > 0 && fuel.lowerHeatingValue < 2e8))
    throw new DomainError('lowerHeatingValue', fuel.lowerHeatingValue, 'in (0, 2e8) J/kg');
  if (!(fuel.latentHeat >= 0 && fuel.latentHeat < 5e6))
    throw new DomainError('latentHeat', fuel.latentHeat, 'in [0, 5e6) J/kg');
  const vapour = unshiftedVapour(fuel);
  const missing = fuel.lowerHeatingValue + fuel.latentHeat - vapourHeatingValue(vapour);
  const shift = (missing * vapour.molarMass) / R_UNIVERSAL;
  return { ...vapour, low: raised(vapour.low, shift), high: raised(vapour.high, shift) };
}

/** Heat released by complete combustion of a vapour to CO2 and water vapour at 298.15 K [J/kg]. */
export function vapourHeatingValue(vapour: Mixture): number {
  const products =
    vapour.atoms.C * hOverR(species('CO2'), T_REFERENCE) +
    (vapour.atoms.H / 2) * hOverR(species('H2O'), T_REFERENCE) -
    oxygenDemand(vapour.atoms) * hOverR(species('O2'), T_REFERENCE);
  return vapour.R * (hOverR(vapour, T_REFERENCE) - products);
}

function unshiftedVapour(fuel: Fuel): Mixture {
  if (fuel.composition !== null)
    return mixture(fuel.composition.map((part) => ({ gas: species(part.species), moles: part.moles })));
  if (fuel.atoms === null) throw new DomainError('fuel', fuel.name, 'given by composition or atoms');
  const { C, H, O } = fuel.atoms;
  if (!(C > 0 && C < 100)) throw new DomainError('atoms.C', C, 'in (0, 100)');
  if (!(H >= 0 && H < 300)) throw new DomainError('atoms.H', H, 'in [0, 300)');
  if (!(O >= 0 && O < 2 * C + H / 2))
    throw new DomainError('atoms.O', O, 'in [0, 2 C + H / 2): a fuel that burns');
  return atomAdditiveVapour({ C, H, O, N: 0, Ar: 0 });
}

/** The vapour with the given atoms a molecule, coefficients by atom additivity. */
function atomAdditiveVapour(atoms: AtomCounts): Mixture {
  const octane = species('iC8H18');
  const toluene = species('C7H8');
  const ethanol = species('C2H5OH');
  // What the ethanol that carries the oxygen leaves of C and H is split between C8H18 and C7H8.
  const C = atoms.C - atoms.O * ethanol.atoms.C;
  const H = atoms.H - atoms.O * ethanol.atoms.H;
  const determinant = octane.atoms.C * toluene.atoms.H - toluene.atoms.C * octane.atoms.H;
  const octanes = (C * toluene.atoms.H - toluene.atoms.C * H) / determinant;
  const toluenes = (octane.atoms.C * H - C * octane.atoms.H) / determinant;
  const sum = (a: readonly number[], b: readonly number[], c: readonly number[]): number[] =>
    a.map((value, i) => octanes * value + toluenes * b[i] + atoms.O * c[i]);
  const molarMass = atomMass(atoms);
  return {
    tLow: octane.tLow,
    tMid: octane.tMid,
    tHigh: octane.tHigh,
    low: sum(octane.low, toluene.low, ethanol.low),
    high: sum(octane.high, toluene.high, ethanol.high),
    atoms,
    molarMass,
    R: R_UNIVERSAL / molarMass,
  };
}

function raised(coefficients: readonly number[], shift: number): number[] {
  return coefficients.map((value, i) => (i === 5 ? value + shift : value));
}
