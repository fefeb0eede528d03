import { describe, expect, it } from 'vitest';
import {
  airViscosity,
  gasConductivity,
  kinematicViscosity,
  productsViscosity,
} from '../../src/processes/viscosity.ts';

describe('airViscosity(T)', () => {
  it('is 1.7894e-5 Pa s at 288.15 K (U.S. Standard Atmosphere, 1976, sea level)', () => {
    expect(airViscosity(288.15)).toBeCloseTo(1.7894e-5, 9);
  });

  it('is 1.4607e-5 m2/s as kinematic viscosity at sea level (same table)', () => {
    expect(kinematicViscosity(288.15, 101_325, 287.053)).toBeCloseTo(1.4607e-5, 9);
  });

  it('falls as one over pressure when kinematic', () => {
    expect(kinematicViscosity(700, 20e5, 287) * 20).toBeCloseTo(kinematicViscosity(700, 1e5, 287), 12);
  });
});

describe('productsViscosity(T, phi)', () => {
  it('is 3.3e-7 T^0.7 / (1 + 0.027 phi)', () => {
    expect(productsViscosity(2000, 1)).toBeCloseTo(6.571e-5, 8);
  });

  it('agrees with air within 5 % at 700 K, where both hold', () => {
    expect(productsViscosity(700, 0) / airViscosity(700)).toBeGreaterThan(0.95);
    expect(productsViscosity(700, 0) / airViscosity(700)).toBeLessThan(1.05);
  });
});

describe('gasConductivity(viscosity, cp)', () => {
  it('is within 3 % of the 0.02533 W/(m K) of air at 288.15 K (U.S. Standard Atmosphere, 1976)', () => {
    // 2e-5 x 1050 / 0.7
    expect(gasConductivity(2e-5, 1050)).toBeCloseTo(0.03, 14);
    expect(Math.abs(gasConductivity(airViscosity(288.15), 1004.7) / 0.02533 - 1)).toBeLessThan(0.03);
  });
});
