/** The single cylinder with strong waves of an independent one-dimensional solution (tests/data/reference-1d.md). */

import type { GasTables } from '../../src/gas/gasTables.ts';
import type { BurnLaw } from '../../src/network/cylinder.ts';
import type { NetworkSpec } from '../../src/network/network.ts';
import type { Valve } from '../../src/network/valve.ts';
import { idealGas } from '../network/idealGas.ts';

const IN = 0.0254;
const IN2 = IN * IN;
export const AMBIENT = { p: 101_322, T: 288.7 };
export const BORE = 3.386 * IN;
export const SWEPT = (Math.PI / 4) * BORE * BORE * BORE;

/** cfm at 28 inH2O to effective area, compressible nozzle law, air at 101 325 Pa and 293 K, flow at inlet density. */
function areaOf(cfm: number): number {
  const p0 = 101_325;
  const T0 = 293;
  const R = 287.05;
  const gamma = 1.4;
  const pr = (p0 - 28 * 249.089) / p0;
  const psi = Math.sqrt(((2 * gamma) / (gamma - 1)) * (pr ** (2 / gamma) - pr ** ((gamma + 1) / gamma)));
  const rho = p0 / (R * T0);
  return (cfm * 4.719474e-4 * rho) / ((p0 / Math.sqrt(R * T0)) * psi);
}

/** Wall of the pipe and gas that flows back in at its end [K]. */
const EXHAUST_WALL = 700;
const OUTLET_GAS = 700;

const LIFT = [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4];
const INTAKE = [0, 48, 98, 146, 186, 214, 232, 242, 247];
const EXHAUST = [0, 36, 72, 106, 134, 152, 164, 170, 173];

function valveOf(duration: number, maxLift: number, centre: number, cfm: readonly number[]): Valve {
  const step = 0.5;
  const half = (duration + 46) / 2;
  const ratio = duration / 2 / half;
  const k = Math.log(0.05 / maxLift) / Math.log((1 + Math.cos(Math.PI * ratio)) / 2);
  const area = new Float64Array(720 / step + 1);
  const liftAt = (angle: number) => {
    const x = Math.abs(angle - centre) / half;
    return x < 1 ? Math.max(maxLift * ((1 + Math.cos(Math.PI * x)) / 2) ** k - 0.008, 0) : 0;
  };
  const flowAt = (lift: number) => {
    const i = Math.min(Math.floor(lift / 0.05), LIFT.length - 2);
    return areaOf(cfm[i] + ((lift - LIFT[i]) / 0.05) * (cfm[i + 1] - cfm[i]));
  };
  for (let i = 0; i < area.length; i++) {
    const angle = -360 + i * step;
    const lift = Math.max(liftAt(angle), liftAt(angle + 720), liftAt(angle - 720));
    area[i] = flowAt(lift);
  }
  let opens = centre;
  while (liftAt(opens) > 0) opens -= 0.01;
  let closes = centre;
  while (liftAt(closes) > 0) closes += 0.01;
  return { area, against: area, step, opens, closes };
}

const FUEL_FRACTION = 1 / 13.8;

/** Fresh gas at gamma 1.385; burned at 1.33 in the exhaust, falling with temperature as products do. */
export function referenceGas(): GasTables {
  return idealGas({
    R: 287,
    freshGamma: 1.385,
    burnedGamma: (T) => Math.max(1.33 - 4.5e-5 * Math.max(T - 1000, 0), 1.2),
    heat: 43.5e6 * 0.844 * FUEL_FRACTION,
    fuelFraction: FUEL_FRACTION,
  });
}

/** Wiebe m = 2, 99.9 % in 55 deg, 50 % at 9 deg. */
export const REFERENCE_BURN: BurnLaw = {
  start: 9 - 0.46468 * 55,
  duration: 55,
  a: 6.908,
  m: 2,
  efficiency: 1,
};

export function referenceNetwork(tables: GasTables, cells: { intake: number; exhaust: number }): NetworkSpec {
  const clearanceVolume = SWEPT / 10;
  const mouth = 2.4 * IN2;
  const primary = (Math.PI / 4) * 1.6 * 1.6 * IN2;
  return {
    tables,
    reservoirs: [
      { p: AMBIENT.p, T: AMBIENT.T, b: 0 },
      { p: AMBIENT.p, T: OUTLET_GAS, b: 1 },
    ],
    cylinders: [
      {
        name: 'cylinder 1',
        crank: { bore: BORE, stroke: BORE, rodLength: 5.6 * IN, clearanceVolume },
        firingAngle: 0,
        walls: {
          model: 'woschni',
          multiplier: 1,
          head: 450,
          piston: 450,
          liner: 450,
          headRatio: 1.3,
          clearanceWall: 0,
        },
        burn: REFERENCE_BURN,
      },
    ],
    ducts: [
      {
        name: 'intake',
        profile: [
          { x: 0, area: mouth },
          { x: 15 * IN, area: 1.9 * IN2 },
        ],
        cells: cells.intake,
        fanning: 0.006,
        wallTemperature: 300,
        heatMultiplier: 1,
      },
      {
        name: 'exhaust',
        profile: [
          { x: 0, area: primary },
          { x: 30 * IN, area: primary },
        ],
        cells: cells.exhaust,
        fanning: 0.007,
        wallTemperature: EXHAUST_WALL,
        heatMultiplier: 1,
      },
    ],
    ends: [
      { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: 0.95 * mouth } },
      {
        duct: 0,
        at: 'right',
        to: { kind: 'cylinder', index: 0 },
        opening: { valve: valveOf(240, 0.39, 360 + 106, INTAKE), outward: true },
      },
      {
        duct: 1,
        at: 'left',
        to: { kind: 'cylinder', index: 0 },
        opening: { valve: valveOf(236, 0.37, 360 - 110, EXHAUST), outward: false },
      },
      { duct: 1, at: 'right', to: { kind: 'reservoir', index: 1 }, opening: { area: 0.95 * primary } },
    ],
  };
}
