/** Orifice flow and vessels filled and emptied through it, against closed forms of ideal gases. */
import { describe, expect, it } from 'vitest';
import { SIDE } from '../../src/network/ductEnd.ts';
import { createNetwork, rates } from '../../src/network/network.ts';
import { orificeFlow } from '../../src/network/orifice.ts';
import { createVolume, decodeVolume, fillVolume, stillGas } from '../../src/network/volume.ts';
import { createStepper, RK4, step } from '../../src/numerics/rungeKutta.ts';
import { idealGas } from './idealGas.ts';

const R = 287.055;
const gasOf = (gamma: number) => idealGas({ R, freshGamma: gamma, burnedGamma: gamma, heat: 0 });

describe('orificeFlow', () => {
  const air = gasOf(1.4);

  it('chokes at 239.172 kg/(s m2) from air of 101 325 Pa and 293.15 K', () => {
    const m = orificeFlow(stillGas(air, 101_325, 293.15, 0), stillGas(air, 3e4, 293.15, 0), 1);
    // Within one of the last digit.
    expect(Math.abs(m - 239.172)).toBeLessThan(0.001);
  });

  // Closed form of the isentropic nozzle, gamma 1.4, computed on its own.
  it.each([
    [0.99, 0.140662],
    [0.95, 0.307641],
    [0.9, 0.422581],
    [0.8, 0.560661],
    [0.7, 0.638317],
    [0.6, 0.676915],
  ])('has the flow function of gamma 1.4 at pressure ratio %d', (pr, psi) => {
    const m = orificeFlow(stillGas(air, 2e5, 400, 0), stillGas(air, pr * 2e5, 400, 0), 1e-4);
    expect((m * Math.sqrt(R * 400)) / (1e-4 * 2e5)).toBeCloseTo(psi, 6);
  });

  it('changes sign with its sides and passes nothing between equal pressures', () => {
    const a = stillGas(air, 2e5, 300, 0);
    const b = stillGas(air, 1.5e5, 300, 0);
    expect(orificeFlow(b, a, 1e-4)).toBe(-orificeFlow(a, b, 1e-4));
    expect(orificeFlow(a, a, 1e-4)).toBe(0);
  });

  it('is straight in the pressure difference below a part in ten thousand, and joins the root there', () => {
    const a = stillGas(air, 1e5, 300, 0);
    const at = (d: number) => orificeFlow(a, stillGas(air, 1e5 * (1 - d), 300, 0), 1e-4);
    expect(at(1e-5) / at(5e-5)).toBeCloseTo(0.2, 8);
    expect(at(0.99999e-4) / at(1.00001e-4)).toBeCloseTo(1, 4);
  });
});

describe('a vessel blown down through a choked orifice', () => {
  const gamma = 1.3;
  const gas = gasOf(gamma);

  /** Vessel of 0.5 l from 5 bar and 1200 K through 5 cm2 into air of 1.013 bar, at time t [s]. */
  function blowDown(t: number): { p: number; T: number; m: number } {
    const vessel = createVolume('vessel', 5e-4, gas, 0);
    const outside = stillGas(gas, 1.013e5, 300, 0);
    const y = new Float64Array(3);
    fillVolume(vessel, y, 5e5, 1200, 0);
    const first = y[0];
    const stepper = createStepper(RK4, 3);
    const steps = 200;
    for (let i = 0; i < steps; i++) {
      step(
        stepper,
        (_t, state, d) => {
          decodeVolume(vessel, state);
          const m = orificeFlow(vessel.side, outside, 5e-4);
          d[0] = -m;
          d[1] = -m * vessel.side[SIDE.h];
          d[2] = 0;
        },
        0,
        t / steps,
        y,
      );
    }
    decodeVolume(vessel, y);
    return { p: vessel.side[SIDE.p], T: vessel.side[SIDE.T], m: y[0] / first };
  }

  /** V / (A sqrt(gamma R T0) (2 / (gamma + 1))^((gamma + 1) / (2 (gamma - 1)))) [s]. */
  const TAU = 2.553467e-3;

  // P/P0 = [1 + (gamma - 1)/2 t/tau]^(-2 gamma/(gamma - 1)), T/T0 = [..]^-2, m/m0 = [..]^(-2/(gamma - 1)).
  it.each([
    [0.25, 0.72683598, 0.92901727, 0.7823708],
    [0.5, 0.53431001, 0.86533261, 0.617462],
  ])('has the closed form after %d time constants', (time, p, T, m) => {
    const got = blowDown(time * TAU);
    expect(got.p / 5e5).toBeCloseTo(p, 6);
    expect(got.T / 1200).toBeCloseTo(T, 6);
    expect(got.m).toBeCloseTo(m, 6);
  });

  it('stands at 389 054 Pa and 1132.5 K after half a millisecond', () => {
    const got = blowDown(5e-4);
    expect(Math.abs(got.p - 389_054.3)).toBeLessThan(1);
    expect(Math.abs(got.T - 1132.496)).toBeLessThan(0.002);
  });
});

describe('a vessel filled through an orifice from still air', () => {
  const gas = gasOf(1.4);

  /** Vessel of 1 l at p1 and T1 filled from air of p0 and 300 K through 0.1 cm2; marched until t [s]. */
  function fill(
    p0: number,
    p1: number,
    T1: number,
    t: number,
    steps: number,
  ): { p: number; T: number; mdot: number } {
    const network = createNetwork({
      tables: gas,
      reservoirs: [{ p: p0, T: 300, b: 0 }],
      volumes: [{ name: 'vessel', size: 1e-3 }],
      cylinders: [],
      ducts: [],
      ends: [],
      orifices: [{ from: 0, to: 0, area: 1e-5, gain: 1, enthalpy: stillGas(gas, p0, 300, 0)[SIDE.h] }],
      copies: [],
    });
    const [vessel] = network.volumes;
    const y = new Float64Array(network.size);
    const d = new Float64Array(network.size);
    fillVolume(vessel, y, p1, T1, 0);
    rates(network, 0, y, d);
    const mdot = d[0];
    const stepper = createStepper(RK4, network.size);
    const rhs = (time: number, state: Float64Array, out: Float64Array) => rates(network, time, state, out);
    for (let i = 0; i < steps; i++) step(stepper, rhs, 0, t / steps, y);
    decodeVolume(vessel, y);
    return { p: vessel.side[SIDE.p], T: vessel.side[SIDE.T], mdot };
  }

  it('holds gamma T0 = 420 K when it was empty, while choked and after', () => {
    // A ten-thousandth of the pressure stands for nothing; it weighs 1e-4 / 0.3 of the result at most.
    for (const t of [0.1, 0.2, 1])
      expect(Math.abs(fill(101_325, 10, 300, t, 2000).T / 420 - 1)).toBeLessThan(1e-3);
  });

  it('gains pressure at gamma R T0 m / V = 285 041 Pa/s while choked', () => {
    const { p, mdot } = fill(101_325, 1000, 300, 0.1, 500);
    expect(mdot).toBeCloseTo(2.36425e-3, 8);
    expect((p - 1000) / 0.1).toBeCloseTo(285_041.5, -1);
  });

  it('ends at gamma T0 / (1 + p1 / p2 (gamma T0 / T1 - 1)) = 375 K when it held 0.3 of the pressure', () => {
    const { p, T } = fill(1e5, 0.3e5, 300, 2, 4000);
    expect(p / 1e5).toBeCloseTo(1, 6);
    expect(T).toBeCloseTo(375, 2);
  });

  it('comes to rest at the pressure outside and stays there', () => {
    expect(fill(1e5, 1e5, 350, 5, 200)).toEqual({
      p: expect.closeTo(1e5, 6),
      T: expect.closeTo(350, 9),
      mdot: expect.closeTo(0, 12),
    });
  });
});
