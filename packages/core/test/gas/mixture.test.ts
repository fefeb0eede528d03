import { describe, expect, it } from 'vitest';
import { R_UNIVERSAL } from '../../src/base/constants.ts';
import { mixture, mixtureH, mixtureS, mixtureU } from '../../src/gas/mixture.ts';
import { sOverR } from '../../src/gas/nasaPolynomial.ts';
import { species } from '../../src/gas/species.ts';
import { mixtureCp } from './mixtureCp.ts';

const combine = (parts: Readonly<Record<string, number>>) =>
  mixture(Object.entries(parts).map(([name, moles]) => ({ gas: species(name), moles })));

const MIXTURES = [
  { N2: 0.79, O2: 0.21 },
  { N2: 3, CO2: 1, H2O: 1, Ar: 0.01 },
  { iC8H18: 1, O2: 12.5, N2: 47, CO: 0 },
];

describe('mixture(components)', () => {
  it('of O2 + 3.76 N2 has R = 288.19 J/(kg K) and cp = 1011.3 J/(kg K) at 298.15 K', () => {
    const air = combine({ O2: 1, N2: 3.76 });
    // By hand: (31.998 + 3.76 * 28.014) / 4.76 = 28.851 g/mol; (29.378 + 3.76 * 29.124) / 4.76 = 29.177 J/(mol K).
    expect(air.R).toBeCloseTo(288.19, 2);
    expect(mixtureCp(air, 298.15)).toBeCloseTo(1011.3, 1);
  });

  it('gains the entropy of mixing: R ln 2 for two equal parts', () => {
    const both = combine({ N2: 1, CO: 1 });
    const apart = (sOverR(species('N2'), 400) + sOverR(species('CO'), 400)) / 2;
    expect(sOverR(both, 400) - apart).toBeCloseTo(Math.LN2, 12);
  });

  it.each(MIXTURES)('has h = u + R T, cp = dh/dT and cp = T ds/dT: %o', (parts) => {
    const gas = combine(parts as Record<string, number>);
    for (const T of [250, 700, 1400, 3000]) {
      const d = 0.01;
      expect(mixtureH(gas, T)).toBeCloseTo(mixtureU(gas, T) + gas.R * T, 6);
      expect((mixtureH(gas, T + d) - mixtureH(gas, T - d)) / (2 * d) / mixtureCp(gas, T)).toBeCloseTo(1, 6);
      expect((T * (mixtureS(gas, T + d) - mixtureS(gas, T - d))) / (2 * d) / mixtureCp(gas, T)).toBeCloseTo(
        1,
        6,
      );
    }
  });

  it('does not depend on the size of the basis nor on absent parts', () => {
    const small = combine({ N2: 1, O2: 2 });
    const large = combine({ N2: 10, O2: 20, CO2: 0 });
    expect(mixtureS(large, 800)).toBeCloseTo(mixtureS(small, 800), 9);
    expect(large.R).toBeCloseTo(small.R, 9);
  });

  it('is itself a gas that can be mixed further', () => {
    const air = combine({ N2: 0.79, O2: 0.21 });
    const nested = mixture([
      { gas: air, moles: 1 },
      { gas: species('CO2'), moles: 0.5 },
    ]);
    const flat = combine({ N2: 0.79, O2: 0.21, CO2: 0.5 });
    expect(mixtureS(nested, 900)).toBeCloseTo(mixtureS(flat, 900), 8);
    expect(nested.molarMass * flat.R).toBeCloseTo(R_UNIVERSAL, 12);
  });

  it('refuses negative and empty amounts', () => {
    expect(() => combine({ N2: -1 })).toThrow('moles must be zero or positive mol, got -1');
    expect(() => combine({ N2: Number.NaN })).toThrow('moles must be');
    expect(() => combine({ N2: 0 })).toThrow('total moles must be positive mol, got 0');
  });
});
