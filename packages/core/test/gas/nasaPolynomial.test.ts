import { describe, expect, it } from 'vitest';
import { R_UNIVERSAL } from '../../src/base/constants.ts';
import { cpOverR, gOverRT, hOverR, sOverR } from '../../src/gas/nasaPolynomial.ts';
import { SPECIES_NAMES, species } from '../../src/gas/species.ts';

/** CODATA Key Values for Thermodynamics (Cox, Wagman and Medvedev 1989): S° at 298.15 K, 1 bar, and formation enthalpy. */
const CODATA = [
  { name: 'N2', entropy: 191.609, formation: 0 },
  { name: 'O2', entropy: 205.152, formation: 0 },
  { name: 'H2', entropy: 130.68, formation: 0 },
  { name: 'Ar', entropy: 154.846, formation: 0 },
  { name: 'CO2', entropy: 213.785, formation: -393.51 },
  { name: 'CO', entropy: 197.66, formation: -110.53 },
  { name: 'H2O', entropy: 188.835, formation: -241.826 },
  { name: 'O', entropy: 161.059, formation: 249.18 },
  { name: 'H', entropy: 114.717, formation: 217.998 },
];

const TEMPERATURES = [201, 298.15, 500, 900, 999, 1001, 1500, 2500, 3500, 5900];

describe('NASA polynomial of a species', () => {
  it.each(CODATA)('$name has the entropy of CODATA at 1 bar, not at 1 atm', ({ name, entropy }) =>
    // 1 atm would be 0.109 J/(mol K) less.
    expect(Math.abs(R_UNIVERSAL * sOverR(species(name), 298.15) - entropy)).toBeLessThan(0.012),
  );

  it.each(CODATA)('$name has the enthalpy of formation of CODATA', ({ name, formation }) =>
    expect(Math.abs((R_UNIVERSAL * hOverR(species(name), 298.15)) / 1000 - formation)).toBeLessThan(0.05),
  );

  it('gives nitrogen 29.124 J/(mol K) at 298.15 K and 34.767 at 1500 K', () => {
    expect(R_UNIVERSAL * cpOverR(species('N2'), 298.15)).toBeCloseTo(29.124, 3);
    expect(R_UNIVERSAL * cpOverR(species('N2'), 1500)).toBeCloseTo(34.767, 3);
  });

  describe.each(SPECIES_NAMES)('%s', (name) => {
    const gas = species(name);

    it.each(TEMPERATURES)('has cp = dh/dT and cp = T ds/dT at %d K', (T) => {
      const d = 0.01;
      const cp = cpOverR(gas, T);
      expect((hOverR(gas, T + d) - hOverR(gas, T - d)) / (2 * d)).toBeCloseTo(cp, 4);
      expect((T * (sOverR(gas, T + d) - sOverR(gas, T - d))) / (2 * d)).toBeCloseTo(cp, 4);
      expect(cp).toBeGreaterThan(2.49);
    });

    it('has g = h - T s', () =>
      expect(gOverRT(gas, 1234)).toBeCloseTo(hOverR(gas, 1234) / 1234 - sOverR(gas, 1234), 12));

    it('joins at the middle temperature', () => {
      const below = gas.tMid - 1e-9;
      expect(cpOverR(gas, below) / cpOverR(gas, gas.tMid)).toBeCloseTo(1, 6);
      expect(hOverR(gas, below) / gas.tMid).toBeCloseTo(hOverR(gas, gas.tMid) / gas.tMid, 5);
      expect(sOverR(gas, below)).toBeCloseTo(sOverR(gas, gas.tMid), 5);
    });

    it('keeps cp outside its range, and h and s follow', () => {
      for (const [T, edge] of [
        [100, gas.tLow],
        [8000, gas.tHigh],
      ]) {
        const cp = cpOverR(gas, edge);
        expect(cpOverR(gas, T)).toBe(cp);
        expect(hOverR(gas, T)).toBeCloseTo(hOverR(gas, edge) + cp * (T - edge), 6);
        expect(sOverR(gas, T)).toBeCloseTo(sOverR(gas, edge) + cp * Math.log(T / edge), 10);
      }
    });
  });
});
