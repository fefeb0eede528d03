import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AtomCounts, atomMass } from '../../src/gas/atoms.ts';
import { burnedGas } from '../../src/gas/burnedGas.ts';
import { equilibriumProducts, PRODUCTS } from '../../src/gas/equilibrium.ts';
import { freshGas } from '../../src/gas/freshGas.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { mixtureH, mixtureS } from '../../src/gas/mixture.ts';
import { gOverRT } from '../../src/gas/nasaPolynomial.ts';
import { species } from '../../src/gas/species.ts';

const products: readonly string[] = PRODUCTS;
const ELEMENTS = ['C', 'H', 'O', 'N', 'Ar'] as const;

const gasoline = (lambda: number): AtomCounts => freshGas(fuelNamed('pump-93'), lambda, 1e5, 1500).gas.atoms;

/** Moles of each element that the products hold. */
function elementsOf(fractions: Float64Array, moles: number): number[] {
  return ELEMENTS.map((element) =>
    PRODUCTS.reduce((sum, name, i) => sum + moles * fractions[i] * species(name).atoms[element], 0),
  );
}

describe('equilibriumProducts(atoms, T, p)', () => {
  it('keeps every element, sums to one and converges in a dozen steps, anywhere it may be asked', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 12, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double({ min: -0.55, max: 3, noNaN: true }),
        fc.double({ min: 200, max: 3500, noNaN: true }),
        fc.double({ min: Math.log(1e4), max: Math.log(3e7), noNaN: true }),
        (C, H, fuelO, excess, T, lnP) => {
          const demand = 2 * C + H / 2;
          const O = Math.max(demand * (1 + excess), 1.05 * C + fuelO * 0.01);
          const atoms = { C, H, O, N: 3.73 * O, Ar: 0.045 * O };
          const { fractions, moles, converged, iterations } = equilibriumProducts(atoms, T, Math.exp(lnP));
          expect(converged).toBe(true);
          expect(iterations).toBeLessThanOrEqual(12);
          expect(fractions.reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 12);
          const found = elementsOf(fractions, moles);
          ELEMENTS.forEach((element, i) => {
            expect(Math.abs(found[i] - atoms[element])).toBeLessThanOrEqual(1e-10 * O);
          });
        },
      ),
      { numRuns: 3000 },
    );
  });

  it('finds how cold rich gas shares its oxygen between much carbon and little hydrogen', () => {
    // Below 1100 K all carbon dioxide is made before any water: what is short is taken from H2 first, the rest from CO2.
    const [C, H, O] = [5.74, 1.04, 8.69];
    for (const T of [200, 300, 380]) {
      const { fractions, moles, converged } = equilibriumProducts({ C, H, O, N: 30, Ar: 0 }, T, 1e5);
      expect(converged, `${T} K`).toBe(true);
      const of = (name: (typeof PRODUCTS)[number]) => moles * fractions[PRODUCTS.indexOf(name)];
      expect(of('H2')).toBeCloseTo(H / 2, 3);
      expect(of('CO')).toBeCloseTo(2 * C - O, 3);
      expect(of('CO2')).toBeCloseTo(O - C, 3);
    }
  });

  it('converges at exactly stoichiometric mixture from 200 to 6000 K', () => {
    for (let T = 200; T <= 6000; T += 50)
      for (const p of [1e3, 1e5, 3e7]) {
        const { converged, iterations } = equilibriumProducts({ C: 8, H: 18, O: 25, N: 94, Ar: 0 }, T, p);
        expect(converged, `${T} K ${p} Pa`).toBe(true);
        expect(iterations).toBeLessThanOrEqual(25);
      }
  });

  it.each([0.75, 0.9, 1, 1.2])(
    'satisfies the law of mass action for independent reactions, lambda %d',
    (lambda) => {
      const T = 2600;
      const p = 30e5;
      const { fractions } = equilibriumProducts(gasoline(lambda), T, p);
      const x = (name: string): number => fractions[products.indexOf(name)];
      const g = (name: string): number => gOverRT(species(name), T);
      // CO + H2O = CO2 + H2: no pressure; O2 + N2 = 2 NO: none; O2 = 2 O and H2O = H + OH: 30 bar.
      expect(Math.log((x('CO2') * x('H2')) / (x('CO') * x('H2O')))).toBeCloseTo(
        g('CO') + g('H2O') - g('CO2') - g('H2'),
        9,
      );
      expect(Math.log(x('NO') ** 2 / (x('N2') * x('O2')))).toBeCloseTo(g('N2') + g('O2') - 2 * g('NO'), 9);
      expect(Math.log((30 * x('O') ** 2) / x('O2'))).toBeCloseTo(g('O2') - 2 * g('O'), 9);
      expect(Math.log((30 * x('H') * x('OH')) / x('H2O'))).toBeCloseTo(g('H2O') - g('H') - g('OH'), 9);
    },
  );

  it('has the least Gibbs energy: any shift along a reaction raises it', () => {
    const T = 2800;
    const p = 10e5;
    const { fractions } = equilibriumProducts(gasoline(0.95), T, p);
    const gibbs = (n: readonly number[]): number => {
      const total = n.reduce((sum, value) => sum + value, 0);
      return n.reduce(
        (sum, value, i) => sum + value * (gOverRT(species(PRODUCTS[i]), T) + Math.log((value / total) * 10)),
        0,
      );
    };
    const reactions: readonly Readonly<Record<string, number>>[] = [
      { CO2: -1, CO: 1, O2: 0.5 },
      { H2O: -1, H2: 1, O2: 0.5 },
      { H2O: -1, OH: 1, H2: 0.5 },
      { O2: -0.5, O: 1 },
      { H2: -0.5, H: 1 },
      { N2: -0.5, O2: -0.5, NO: 1 },
    ];
    const least = gibbs([...fractions]);
    for (const reaction of reactions)
      for (const step of [-1e-4, 1e-4]) {
        const shifted = PRODUCTS.map((name, i) => fractions[i] + step * (reaction[name] ?? 0));
        expect(gibbs(shifted)).toBeGreaterThan(least);
      }
  });

  it('dissociates less at higher pressure and more at higher temperature', () => {
    const co = (T: number, p: number): number => equilibriumProducts(gasoline(1), T, p).fractions[5];
    expect(co(2600, 80e5)).toBeLessThan(co(2600, 20e5));
    expect(co(2800, 20e5)).toBeGreaterThan(co(2600, 20e5));
  });

  it('has dh = T ds + v dp along the equilibrium: (dh/dT)_p = T (ds/dT)_p', () => {
    const atoms = gasoline(1);
    const p = 10e5;
    const at = (T: number): [number, number] => {
      const gas = burnedGas(atoms, T, p);
      return [mixtureH(gas, T), mixtureS(gas, T) - gas.R * Math.log(p / 1e5)];
    };
    for (const T of [1500, 2200, 2800, 3300]) {
      const [hLow, sLow] = at(T - 0.1);
      const [hHigh, sHigh] = at(T + 0.1);
      expect((T * (sHigh - sLow)) / (hHigh - hLow)).toBeCloseTo(1, 5);
    }
  });

  it('is nothing but the complete products of lean gas when cold', () => {
    const { fractions, moles } = equilibriumProducts({ C: 1, H: 4, O: 8, N: 0, Ar: 0 }, 400, 1e5);
    expect(moles).toBeCloseTo(5, 9);
    expect([...fractions].map((x) => x * 5)[3]).toBeCloseTo(1, 9);
    expect([...fractions].map((x) => x * 5)[4]).toBeCloseTo(2, 9);
    expect([...fractions].map((x) => x * 5)[1]).toBeCloseTo(2, 9);
  });

  it('weighs what the atoms weigh', () => {
    const atoms = gasoline(0.85);
    const { moles } = equilibriumProducts(atoms, 2500, 30e5);
    expect(burnedGas(atoms, 2500, 30e5).molarMass * moles).toBeCloseTo(atomMass(atoms), 12);
  });

  it('names the argument out of range', () => {
    const atoms = gasoline(1);
    expect(() => equilibriumProducts(atoms, 100, 1e5)).toThrow('T must be in [200, 6000] K, got 100');
    expect(() => equilibriumProducts(atoms, 2000, Number.NaN)).toThrow('p must be positive Pa, got NaN');
    expect(() => equilibriumProducts({ ...atoms, N: -1 }, 2000, 1e5)).toThrow('atoms.N must be');
    expect(() => equilibriumProducts({ C: 2, H: 2, O: 1, N: 1, Ar: 0 }, 2000, 1e5)).toThrow('no soot');
  });
});
