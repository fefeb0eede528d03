/** An ideal-gas mixture of fixed composition. */
import { R_UNIVERSAL } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import { type AtomCounts, atomMass } from './atoms.ts';
import { hOverR, type NasaPolynomial, sOverR } from './nasaPolynomial.ts';

/** One gas of a mixture: anything with atoms and a polynomial. */
export interface Component {
  readonly gas: NasaPolynomial & { readonly atoms: AtomCounts };
  /** [mol] of whatever basis the caller chose */
  readonly moles: number;
}

/**
 * An ideal-gas mixture of fixed composition, as one polynomial per mole of mixture.
 *
 * The polynomials are linear in their coefficients, so that a mixture of fixed composition has one of its
 * own: the mole-weighted sum, with the entropy of mixing in a7.
 */
export interface Mixture extends NasaPolynomial {
  /** Atoms in a mole of mixture [mol]. */
  readonly atoms: AtomCounts;
  /** [kg/mol] */
  readonly molarMass: number;
  /** Specific gas constant [J/(kg K)]. */
  readonly R: number;
}

/**
 * The mixture of the given components; amounts are relative, zero is allowed, negative is not.
 *
 * @throws {@link DomainError} where an amount is negative, all are zero or the polynomials join at different temperatures
 */
export function mixture(components: readonly Component[]): Mixture {
  let total = 0;
  for (const { moles } of components) {
    if (!(moles >= 0)) throw new DomainError('moles', moles, 'zero or positive mol');
    total += moles;
  }
  if (!(total > 0)) throw new DomainError('total moles', total, 'positive mol');
  const tMid = components[0].gas.tMid;
  let tLow = 0;
  let tHigh = Number.POSITIVE_INFINITY;
  const low = [0, 0, 0, 0, 0, 0, 0];
  const high = [0, 0, 0, 0, 0, 0, 0];
  const atoms = { C: 0, H: 0, O: 0, N: 0, Ar: 0 };
  for (const { gas, moles } of components) {
    if (!(gas.tMid === tMid)) throw new DomainError('tMid', gas.tMid, `${tMid} K like the other components`);
    const x = moles / total;
    if (x === 0) continue;
    for (let i = 0; i < 7; i++) {
      low[i] += x * gas.low[i];
      high[i] += x * gas.high[i];
    }
    low[6] -= x * Math.log(x);
    high[6] -= x * Math.log(x);
    tLow = Math.max(tLow, gas.tLow);
    tHigh = Math.min(tHigh, gas.tHigh);
    atoms.C += x * gas.atoms.C;
    atoms.H += x * gas.atoms.H;
    atoms.O += x * gas.atoms.O;
    atoms.N += x * gas.atoms.N;
    atoms.Ar += x * gas.atoms.Ar;
  }
  const molarMass = atomMass(atoms);
  return { tLow, tMid, tHigh, low, high, atoms, molarMass, R: R_UNIVERSAL / molarMass };
}

/** Specific enthalpy with formation [J/kg]. */
export function mixtureH(gas: Mixture, T: number): number {
  return gas.R * hOverR(gas, T);
}

/** Specific internal energy with formation [J/kg]. */
export function mixtureU(gas: Mixture, T: number): number {
  return gas.R * (hOverR(gas, T) - T);
}

/** Temperature part of the specific entropy [J/(kg K)]: s(T, p) = mixtureS(T) - R ln(p / 1 bar). */
export function mixtureS(gas: Mixture, T: number): number {
  return gas.R * sOverR(gas, T);
}
