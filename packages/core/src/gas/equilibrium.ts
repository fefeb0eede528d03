/** Burned gas at chemical equilibrium: the composition that a mixture of C, H, O, N atoms takes at T and p. */
import { BAR } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import type { AtomCounts } from './atoms.ts';
import { gOverRT } from './nasaPolynomial.ts';
import { species } from './species.ts';

/**
 * The product species, in the order of every array of products here.
 *
 * Atomic nitrogen is left out. Its mole fraction, computed from N2 = 2 N alone with N of NASA TM-4513, would be 3e-4 at 3500 K
 * and 0.3 bar, the far corner of the tables (5 kJ/kg), and falls with the root of pressure: 2e-5 at 50 bar, 4e-6 at 3200 K
 * and 80 bar.
 */
export const PRODUCTS = ['N2', 'O2', 'Ar', 'CO2', 'H2O', 'CO', 'H2', 'O', 'H', 'OH', 'NO'] as const;

/** Number of product species. */
export const PRODUCT_COUNT: number = PRODUCTS.length;

/** Keeps 0/0 out where hydrogen or nitrogen is absent [bar^½]. */
const TINY = 1e-300;
const N2 = species('N2');
const O2 = species('O2');
const H2O = species('H2O');
const CO2 = species('CO2');
const CO = species('CO');
const H2 = species('H2');
const O = species('O');
const H = species('H');
const OH = species('OH');
const NO = species('NO');
const MAX_ITERATIONS = 80;
const TOLERANCE = 1e-12;
/** Longest step in the logarithm of the oxygen pressure's root [-]: keeps the first steps inside the well-behaved range. */
const MAX_STEP = 6;

/** How a solution went. */
export interface ProductSolution {
  /** Mole fractions in the order of {@link PRODUCTS} [-]. */
  readonly fractions: Float64Array;
  /** Moles of products from the given atoms [mol]. */
  readonly moles: number;
  readonly iterations: number;
  readonly converged: boolean;
}

/**
 * Constants of the six independent reactions at T, partial pressures in bar [-]: of `O`, `H`, `OH`, `NO`,
 * `H2O`, `CO2` made of ½ O2 (for CO2 with CO, for the others with ½ H2 or ½ N2 as needed), written to `k`.
 *
 * In bar, since the coefficients' entropies refer to 1 bar (NASA TM-4513, 1993), not to the older 1 atm.
 */
export function reactionConstants(T: number, k: Float64Array): void {
  const halfO2 = gOverRT(O2, T) / 2;
  const halfH2 = gOverRT(H2, T) / 2;
  const halfN2 = gOverRT(N2, T) / 2;
  k[0] = Math.exp(halfO2 - gOverRT(O, T));
  k[1] = Math.exp(halfH2 - gOverRT(H, T));
  k[2] = Math.exp(halfO2 + halfH2 - gOverRT(OH, T));
  k[3] = Math.exp(halfO2 + halfN2 - gOverRT(NO, T));
  k[4] = Math.exp(2 * halfH2 + halfO2 - gOverRT(H2O, T));
  k[5] = Math.exp(gOverRT(CO, T) + halfO2 - gOverRT(CO2, T));
}

/**
 * Products of the given atoms at T and p.
 *
 * Solved by Newton's method in two unknowns, both as logarithms: a, the square root of the partial
 * pressure of O2, and c, the pressure that a mole of the basis exerts. With a and c known every other
 * partial pressure is closed: the C balance is linear in CO, the H balance a quadratic in the root of H2, the
 * N balance one in the root of N2. What remains is the O balance, taken as excess oxygen,
 *
 *     2 O2 + O + NO + OH/2 - CO - H2 - H/2 = (O - 2 C - H/2) c,
 *
 * free of cancellation at any temperature and compared as the logarithm of its positive and negative sides, and
 * the sum of the partial pressures. Range: 200 to 6000 K (as the coefficients), any pressure, no soot: more O than C atoms.
 *
 * @param atoms - moles of atoms in the basis
 * @param T - [K]
 * @param p - [Pa]
 * @throws {@link DomainError} naming the argument out of range
 */
export function equilibriumProducts(atoms: AtomCounts, T: number, p: number): ProductSolution {
  if (!(T >= 200 && T <= 6000)) throw new DomainError('T', T, 'in [200, 6000] K');
  if (!(p > 0 && p < Number.POSITIVE_INFINITY)) throw new DomainError('p', p, 'positive Pa');
  for (const [name, value] of Object.entries(atoms))
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
      throw new DomainError(`atoms.${name}`, value, 'zero or positive mol');
  if (!(atoms.O > atoms.C))
    throw new DomainError('atoms.O', atoms.O, `above atoms.C = ${atoms.C} mol (no soot)`);
  const k = new Float64Array(6);
  reactionConstants(T, k);
  const fractions = new Float64Array(PRODUCT_COUNT);
  const unknowns = new Float64Array(2);
  startProducts(atoms, p, k, unknowns);
  const iterations = solveProducts(atoms, p, k, unknowns, fractions);
  return {
    fractions,
    moles: p / BAR / Math.exp(unknowns[1]),
    iterations: Math.abs(iterations),
    converged: iterations > 0,
  };
}

/**
 * Root of the oxygen pressure at which carbon and hydrogen leave `short` moles unburned: carbon / (1 + kc a) + hydrogen / (1 + kh a)
 * = short, a quadratic with one positive root.
 *
 * Both constants are needed. Cold gas binds one of the two elements wholly before it touches the other. One constant for both, a mean
 * of the two, would start Newton's method on the flat stretch between them, where it gets lost.
 */
function richOxygen(carbon: number, hydrogen: number, short: number, kc: number, kh: number): number {
  const square = short * kc * kh;
  const linear = short * (kc + kh) - carbon * kh - hydrogen * kc;
  const constant = short - carbon - hydrogen;
  const root = Math.sqrt(linear * linear - 4 * square * constant);
  // Of the two ways to write the root, the one that takes no difference.
  return linear > 0 ? (-2 * constant) / (linear + root) : (root - linear) / (2 * square);
}

/** First guess of the unknowns (ln a, ln c): complete combustion, oxygen pressure as lean or rich mixtures leave it. */
export function startProducts(atoms: AtomCounts, p: number, k: Float64Array, unknowns: Float64Array): void {
  const excess = atoms.O - 2 * atoms.C - atoms.H / 2;
  const moles = atoms.N / 2 + atoms.Ar + atoms.C + atoms.H / 2 + Math.max(excess, 0) / 2;
  const c = p / BAR / moles;
  const bindable = atoms.C + atoms.H / 2;
  const kBurn = atoms.C > 0 ? (atoms.H > 0 ? Math.sqrt(k[4] * k[5]) : k[5]) : k[4];
  // Lean: 2 a² = excess c. Stoichiometric, dissociation alone: 2 a² = bindable c / (K a).
  const lean = 0.5 * Math.log((Math.max(excess, 0) * c) / 2 + 1e-300);
  const stoichiometric = Math.log((bindable * c) / 2 / kBurn + 1e-300) / 3;
  const rich =
    excess < 0 && -excess < bindable
      ? Math.log(richOxygen(atoms.C, atoms.H / 2, -excess, k[5], k[4]))
      : Number.POSITIVE_INFINITY;
  unknowns[0] = Math.min(Math.max(lean, stoichiometric), rich);
  unknowns[1] = Math.log(c);
}

/** Root of the pressure of a gas of two like atoms [bar^½], with its derivatives by ln a and ln c. */
interface AtomBalance {
  root: number;
  rootX: number;
  rootC: number;
}

/**
 * Balance of the atoms of one element, 2 `pairs` r² + `single` r = `atoms`, written to `balance`. r is the root of the pressure of its
 * diatomic gas: products with two of its atoms go with r², those with one with r.
 *
 * @param pairsX - derivative of `pairs` by ln a
 * @param singleX - derivative of `single` by ln a
 */
function balanceAtoms(
  balance: AtomBalance,
  atoms: number,
  pairs: number,
  pairsX: number,
  single: number,
  singleX: number,
): void {
  // Of the two ways to write the root, the one that takes no difference.
  const root = (2 * atoms) / (single + Math.sqrt(single * single + 8 * pairs * atoms) + TINY);
  const slope = 4 * pairs * root + single;
  balance.root = root;
  balance.rootX = -(2 * pairsX * root * root + singleX * root) / slope;
  balance.rootC = atoms / slope;
}

/**
 * One solution from a guess, in place: the hot core of {@link equilibriumProducts}, without guards.
 *
 * Longer than other functions on purpose: one iteration has forty quantities that all lean on each other, and parts of it would hand
 * them round by the dozen.
 *
 * @param k - constants at T, from {@link reactionConstants}
 * @param unknowns - (ln a, ln c): guess in, solution out
 * @param fractions - mole fractions out, in the order of {@link PRODUCTS}
 * @returns iterations used; negative where it did not converge
 */
export function solveProducts(
  atoms: AtomCounts,
  p: number,
  k: Float64Array,
  unknowns: Float64Array,
  fractions: Float64Array,
): number {
  const total = p / BAR;
  const excess = atoms.O - 2 * atoms.C - atoms.H / 2;
  let x = unknowns[0];
  let y = unknowns[1];
  let iteration = 0;
  let converged = false;
  const hydrogen: AtomBalance = { root: 0, rootX: 0, rootC: 0 };
  const nitrogen: AtomBalance = { root: 0, rootX: 0, rootC: 0 };
  while (!converged && iteration < MAX_ITERATIONS) {
    iteration++;
    const a = Math.exp(x);
    const c = Math.exp(y);
    // Partial pressures [bar]; suffix x: derivative by ln a, suffix c: by ln c.
    const o2 = a * a;
    const o = k[0] * a;
    const ka = k[5] * a;
    const co = (atoms.C * c) / (1 + ka);
    const co2 = ka * co;
    const cox = -co * (ka / (1 + ka));
    const water = k[4] * a;
    const beta = k[2] * a + k[1];
    balanceAtoms(hydrogen, atoms.H * c, 1 + water, water, beta, k[2] * a);
    const { root: rootH2, rootX: rootH2x, rootC: rootH2c } = hydrogen;
    const h2 = rootH2 * rootH2;
    const h = k[1] * rootH2;
    const oh = k[2] * a * rootH2;
    const h2o = water * h2;
    const gamma = k[3] * a;
    balanceAtoms(nitrogen, atoms.N * c, 1, 0, gamma, gamma);
    const { root: rootN2, rootX: rootN2x, rootC: rootN2c } = nitrogen;
    const n2 = rootN2 * rootN2;
    const no = gamma * rootN2;
    const h2x = 2 * rootH2 * rootH2x;
    const h2c = 2 * rootH2 * rootH2c;
    const n2x = 2 * rootN2 * rootN2x;
    const n2c = 2 * rootN2 * rootN2c;
    const nox = gamma * (rootN2 + rootN2x);
    const noc = gamma * rootN2c;
    const ohx = k[2] * a * (rootH2 + rootH2x);
    const ohc = k[2] * a * rootH2c;
    const hx = k[1] * rootH2x;
    const hcDerivative = k[1] * rootH2c;
    // Excess oxygen: logarithm of what is too much over what is missing.
    const plusExcess = excess < 0 ? -excess * c : 0;
    const minusExcess = excess > 0 ? excess * c : 0;
    const plus = 2 * o2 + o + no + 0.5 * oh + plusExcess;
    const minus = co + h2 + 0.5 * h + minusExcess;
    const f = Math.log(plus / minus);
    const fx = (4 * o2 + o + nox + 0.5 * ohx) / plus - (cox + h2x + 0.5 * hx) / minus;
    const fc = (noc + 0.5 * ohc + plusExcess) / plus - (co + h2c + 0.5 * hcDerivative + minusExcess) / minus;
    // Sum of the partial pressures.
    const ar = atoms.Ar * c;
    const sum = n2 + o2 + ar + co2 + h2o + co + h2 + o + h + oh + no;
    // CO + CO2 does not change with a; water changes as H2 times a.
    const sumX = n2x + 2 * o2 + (h2o + water * h2x) + h2x + o + hx + ohx + nox;
    const sumC = n2c + ar + atoms.C * c + (1 + water) * h2c + hcDerivative + ohc + noc;
    const g = sum - total;
    const determinant = fx * sumC - fc * sumX;
    let dx = (-f * sumC + fc * g) / determinant;
    let dy = (-fx * g + f * sumX) / determinant;
    if (!(dx > -MAX_STEP)) dx = -MAX_STEP;
    if (!(dx < MAX_STEP)) dx = MAX_STEP;
    if (!(dy > -1)) dy = -1;
    if (!(dy < 1)) dy = 1;
    converged = Math.abs(dx) < TOLERANCE * Math.max(1, Math.abs(x)) && Math.abs(dy) < TOLERANCE;
    if (converged) {
      fractions[0] = n2 / sum;
      fractions[1] = o2 / sum;
      fractions[2] = ar / sum;
      fractions[3] = co2 / sum;
      fractions[4] = h2o / sum;
      fractions[5] = co / sum;
      fractions[6] = h2 / sum;
      fractions[7] = o / sum;
      fractions[8] = h / sum;
      fractions[9] = oh / sum;
      fractions[10] = no / sum;
    }
    x += dx;
    y += dy;
  }
  unknowns[0] = x;
  unknowns[1] = y;
  return converged ? iteration : -iteration;
}
