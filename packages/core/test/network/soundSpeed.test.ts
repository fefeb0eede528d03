/** The speed of sound in ducts: its value, and what the flux between two cells makes of it. */
import { describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { createDuct, decodeDuct, fillDuct } from '../../src/network/duct.ts';
import { createNetwork, rates } from '../../src/network/network.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime, siteOf } from './networks.ts';

const R = 287;
const P = 1e5;
const T = 300;
const GAMMA = 1.4;
const GAS = idealGas({ R, freshGamma: GAMMA, burnedGamma: GAMMA, heat: 0 });
const RHO = P / (R * T);
/** sqrt(1.4 x 287 x 300) [m/s]. */
const C = 347.189;
const AREA = 1e-3;
const CELLS = 8;
/** First cell right of the jump. */
const MIDDLE = CELLS / 2;

/** Rates of change of a closed duct whose gas jumps in the middle by a pressure [Pa] and a velocity [m/s]. */
function atJump(dp: number, du: number): { mass: number; momentum: number } {
  const network = createNetwork({
    tables: GAS,
    reservoirs: [{ p: P, T, b: 0 }],
    ducts: [ductSpec(1, [AREA, AREA], CELLS)],
    ends: [
      { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
      { duct: 0, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
    ],
  });
  const [duct] = network.ducts;
  const y = new Float64Array(network.size);
  const right = new Float64Array(network.size);
  fillDuct(duct, y, P, T, 0);
  // The pressure moves along the isentrope, as in a sound wave.
  fillDuct(duct, right, P + dp, T * ((P + dp) / P) ** ((GAMMA - 1) / GAMMA), 0);
  for (let i = MIDDLE; i < CELLS; i++) {
    for (let field = 0; field < 4; field++) y[field * CELLS + i] = right[field * CELLS + i];
    const m = y[i];
    y[CELLS + i] = m * du;
    y[2 * CELLS + i] += 0.5 * m * du * du;
  }
  const d = new Float64Array(network.size);
  rates(network, 0, y, d);
  // Nothing moves left of the jump, so that the cell beside it changes by the flux through the jump alone.
  return { mass: -d[MIDDLE - 1], momentum: -d[CELLS + MIDDLE - 1] + P * AREA };
}

describe('the speed of sound in a duct', () => {
  it('is that of dry air, 340.29 m/s at 288.15 K and 331.3 at 273.15 K', () => {
    // U.S. Standard Atmosphere, 1976: 340.294 m/s at sea level; 331.3 m/s at 0 degC from memory. So lean a mixture is nearly air.
    const tables = buildGasTables({
      fuel: fuelNamed('iso-octane'),
      lambda: 20,
      vapourPressure: 0,
      pressure: 101_325,
    });
    for (const [temperature, sound] of [
      [288.15, 340.294],
      [273.15, 331.3],
    ]) {
      const duct = createDuct(ductSpec(1, [AREA, AREA], 3), siteOf(tables));
      const y = new Float64Array(13);
      fillDuct(duct, y, 101_325, temperature, 0);
      decodeDuct(duct, y);
      // 0.08 % of vapour by mole makes the gas 0.25 % heavier and its gamma 0.2 % smaller: 0.22 % of sound speed.
      expect(Math.abs(duct.c[1] / (0.9978 * sound) - 1)).toBeLessThan(0.001);
    }
  });

  it('is sqrt(gamma R T) of a perfect gas, 347.189 m/s', () => {
    const duct = createDuct(ductSpec(1, [AREA, AREA], 3), siteOf(GAS));
    const y = new Float64Array(13);
    fillDuct(duct, y, P, T, 0);
    decodeDuct(duct, y);
    for (const c of duct.c) expect(c).toBeCloseTo(C, 3);
  });

  it('carries dp / (2 c) through a small jump in pressure, as the exact wave does', () => {
    for (const dp of [2, -2]) expect(atJump(dp, 0).mass / ((-dp * AREA) / (2 * C))).toBeCloseTo(1, 4);
  });

  it('raises the pressure by rho c du / 2 where two streams meet, and lowers it where they part', () => {
    for (const du of [-0.01, 0.01]) {
      const rise = atJump(0, du).momentum / AREA - P;
      expect(rise / ((-RHO * C * du) / 2)).toBeCloseTo(1, 3);
    }
  });

  it('brings a small step from one end of a metre to the other in 2.880 ms', () => {
    const network = createNetwork({
      tables: GAS,
      reservoirs: [{ p: P + 20, T: T * ((P + 20) / P) ** ((GAMMA - 1) / GAMMA), b: 0 }],
      ducts: [ductSpec(1, [AREA, AREA], 200)],
      ends: [
        { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: AREA } },
        { duct: 0, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
      ],
    });
    const [duct] = network.ducts;
    const y = new Float64Array(network.size);
    fillDuct(duct, y, P, T, 0);
    const last = duct.cells - 1;
    let before = { t: 0, p: P };
    let arrival = 0;
    // The closed end doubles the step of 20 Pa: half of 40 Pa marks the middle of the front.
    marchTime(network, y, 4e-3, 0.8, (t) => {
      const p = duct.p[last];
      if (arrival === 0 && p >= P + 20)
        arrival = before.t + ((t - before.t) * (P + 20 - before.p)) / (p - before.p);
      before = { t, p };
    });
    expect(before.p - P).toBeCloseTo(40, 0);
    // Half a cell is missing at the end of the way.
    expect(arrival / ((1 - duct.dx / 2) / C)).toBeCloseTo(1, 2);
  });
});
