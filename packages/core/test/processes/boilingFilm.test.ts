import { describe, expect, it } from 'vitest';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { type LiquidFuel, liquidFuel } from '../../src/gas/liquidFuel.ts';
import { mostBoilingFlux } from '../../src/processes/boilingFilm.ts';

const of = (name: string): number => mostBoilingFlux(liquidFuel(fuelNamed(name)) as LiquidFuel);

describe('a film that boils on hot metal', () => {
  // By hand: vapour of 101 325 / (8.314 / 0.04607 x 351.4) = 1.598 kg/m3, 0.131 x 918e3 x 1.264 x (0.017 x 9.81 x 748.4)^(1/4).
  it('of ethanol takes half a megawatt from a square metre at most', () => {
    expect(Math.abs(of('ethanol') / 508e3 - 1)).toBeLessThan(0.01);
  });

  // Pool boiling of alcohols ends at 0.4 to 0.6 MW/m2, that of light hydrocarbons at 0.2 to 0.35 (from memory).
  it('takes more of an alcohol than of gasoline', () => {
    expect(of('methanol') / of('pump-93')).toBeGreaterThan(1.5);
    expect(of('methanol')).toBeLessThan(600e3);
    expect(of('pump-93')).toBeGreaterThan(200e3);
  });
});
