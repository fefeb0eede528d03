/** Which gas, area and speed a cylinder hands to each law of wall heat, by values worked independently from the printed formulas. */
import { describe, expect, it } from 'vitest';
import { sliderCrank } from '../../src/geometry/sliderCrank.ts';
import { findHeatCoefficient, type HeatedGas, type WallHeat } from '../../src/network/cylinderHeat.ts';
import { SIDE } from '../../src/network/side.ts';

const WALLS: WallHeat = {
  model: 'woschni',
  multiplier: 1,
  head: 480,
  piston: 420,
  liner: 390,
  headRatio: 1.2,
  clearanceWall: 1e-3,
};

/** Coefficient [W/(m2 K)] at 30 bar, 1500 K and 100 cm3, bore 100 mm, stroke 80 mm, 12 m/s of piston. */
function coefficient(walls: Partial<WallHeat>, state: { firing?: boolean; opening?: number } = {}): number {
  const crank = sliderCrank(0.1, 0.08, 0.14, 6e-5);
  const side = new Float64Array(Math.max(...Object.values(SIDE)) + 1);
  side[SIDE.p] = 30e5;
  side[SIDE.T] = 1500;
  side[SIDE.R] = 287;
  side[SIDE.gamma] = 1.3;
  const gas: HeatedGas = {
    walls: { ...WALLS, ...walls },
    crank,
    pistonArea: (Math.PI / 4) * 0.1 ** 2,
    speed: (12 * Math.PI) / 0.08,
    side,
    now: { V: 1e-4, T: 1500, heatCoefficient: 0 },
    opening: Float64Array.of(state.opening ?? 0, 0),
    firing: state.firing ?? false,
    reference: { p: 1e5, T: 350, V: 5.5e-4 },
  };
  findHeatCoefficient(gas);
  return gas.now.heatCoefficient;
}

describe('the heat coefficient of a cylinder', () => {
  // 129.8 x 0.1^-0.2 x 30^0.8 x 1500^-0.53 x w^0.8, w = 2.28 and 6.18 piston speeds.
  it('by Woschni takes 2.28 piston speeds with the valves shut, 6.18 with one open', () => {
    expect(coefficient({})).toBeCloseTo(914.82, 1);
    expect(coefficient({}, { opening: 1e-4 })).toBeCloseTo(2031.32, 1);
  });

  // Motored from 1 bar and 550 cm3: 5.5^1.32 = 9.4903 bar. w = 27.36 + 3.24e-3 x 628.32 cm3 x 350 K / 55 J x 20.510 bar.
  it('by Woschni takes the excess over the motored pressure while the charge burns', () => {
    expect(coefficient({}, { firing: true })).toBeCloseTo(1574.37, 1);
  });

  it('by Hohenberg takes the piston speed, the same in every stroke', () => {
    expect(coefficient({ model: 'hohenberg' })).toBeCloseTo(1466.29, 2);
    expect(coefficient({ model: 'hohenberg' }, { firing: true, opening: 1e-4 })).toBeCloseTo(1466.29, 2);
  });

  // mu = 3.3e-7 x 1500^0.7 / 1.027, k = mu x 1243.7 / 0.7, rho = 6.969 kg/m3; a wall of 450 K, halfway from head to piston.
  it('by Annand takes the gas it holds, and radiates to head and piston while it burns', () => {
    expect(coefficient({ model: 'annand' })).toBeCloseTo(2016.02, 1);
    expect(coefficient({ model: 'annand' }, { firing: true })).toBeCloseTo(2016.02 + 20.34, 1);
  });

  it.each(['woschni', 'hohenberg', 'annand'] as const)(
    'by %s is as many times as large as the file says',
    (model) => {
      expect(coefficient({ model, multiplier: 1.3 })).toBeCloseTo(1.3 * coefficient({ model }), 9);
    },
  );
});
