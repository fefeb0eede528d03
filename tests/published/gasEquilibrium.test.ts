import { describe, expect, it } from 'vitest';
import reference from '../data/equilibrium-products.json' with { type: 'json' };
import { equilibriumErrors } from './equilibriumErrors.ts';

describe('equilibrium products against Cantera 3.2.0', () => {
  it('has the 384 rows of the reference', () => expect(reference.rows).toHaveLength(384));

  it.each(reference.rows)('$fuel, phi $phi, $T_K K, $p_bar bar: to the printed digits', (row) => {
    const error = equilibriumErrors(row);
    expect(error.iterations).toBeLessThanOrEqual(10);
    // Printed to 0.1 J/kg, 0.001 J/(kg K), 7 digits of R and 4 of mole fractions.
    expect(error.u).toBeLessThan(0.1);
    expect(error.s).toBeLessThan(0.001);
    expect(error.R).toBeLessThan(5e-7);
    expect(error.X).toBeLessThan(6e-4);
  });
});
