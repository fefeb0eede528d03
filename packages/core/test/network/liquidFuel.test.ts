/** Fuel that comes into a cylinder as liquid: nothing is made or lost of mass and energy, and its gas is colder for it. */
import { describe, expect, it } from 'vitest';
import { buildGasTables, withLiquidFuel } from '../../src/gas/buildGasTables.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { type LiquidFuel, liquidEnthalpy, liquidFuel } from '../../src/gas/liquidFuel.ts';
import { CYL, fillCylinder } from '../../src/network/cylinder.ts';
import { fillDuct } from '../../src/network/duct.ts';
import { accountOf, createNetwork, decode, type Network, setSpeed } from '../../src/network/network.ts';
import type { Boiling } from '../../src/network/openEnd.ts';
import { SIDE } from '../../src/network/side.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { ductSpec, marchTime } from './networks.ts';

const INPUT = { fuel: fuelNamed('methanol'), lambda: 0.87, vapourPressure: 0, pressure: 101_325 };
const TABLES = buildGasTables(INPUT);
const WET = withLiquidFuel(TABLES, INPUT, 0.2);
const LIQUID = liquidFuel(INPUT.fuel) as LiquidFuel;
const GAIN = (1 - WET.fuelFraction) / (1 - TABLES.fuelFraction);
const RADIANS = Math.PI / 30;
const LIFT = new Float64Array(1441).fill(4e-4);

/** A cylinder that stands still behind an open valve and a duct of wet gas that leads to a plenum of it. */
function pumping(wallShare: number, boiling?: Boiling, gain = GAIN): Network {
  const { bore, stroke, rodLength } = bigBlock().block;
  return createNetwork({
    tables: TABLES,
    volumes: [{ name: 'plenum', size: 5e-3, tables: WET }],
    cylinders: [
      {
        name: 'cylinder',
        crank: { bore, stroke, rodLength, clearanceVolume: 1e-4 },
        firingAngle: 180,
        walls: {
          model: 'woschni',
          multiplier: 0,
          head: 400,
          piston: 400,
          liner: 400,
          headRatio: 1,
          clearanceWall: 0,
        },
        burn: { start: 0, duration: 50, a: 5, m: 2, efficiency: 1 },
        spray: { liquid: LIQUID, diameter: 50e-6, wallShare },
      },
    ],
    ducts: [{ ...ductSpec(0.2, [2e-3, 1.5e-3], 8), tables: WET }],
    ends: [
      { duct: 0, at: 'left', to: { kind: 'volume', index: 0 }, opening: { area: 2e-3 } },
      {
        duct: 0,
        at: 'right',
        to: { kind: 'cylinder', index: 0 },
        opening: {
          valve: { area: LIFT, against: LIFT, step: 0.5, opens: 0, closes: 720 },
          outward: true,
        },
        fuelling: { gain, enthalpy: liquidEnthalpy(LIQUID, 300), boiling },
      },
    ],
  });
}

/** Lets it fill and ring for a while; contents before and after, and what came in. */
function filled(
  wallShare: number,
  inCylinder: number,
  time = 0.02,
  boiling?: Boiling,
): Readonly<Record<'mass' | 'energy' | 'scale' | 'heat' | 'liquid' | 'came' | 'broughtPerKg' | 'T', number>> {
  const network = pumping(wallShare, boiling);
  const y = new Float64Array(network.size);
  // Next to nothing turns: the piston stands.
  setSpeed(network, 1e-3);
  const [duct] = network.ducts;
  const [cylinder] = network.cylinders;
  const [plenum] = network.volumes;
  fillDuct(duct, y, 1.2e5, 300, 0);
  fillVolume(plenum, y, 1.2e5, 300, 0);
  fillCylinder(cylinder, y, 0, inCylinder, 500, 0.8);
  const contents = (q: number): number => {
    let sum = y[cylinder.offset + q] + y[plenum.offset + q];
    for (let i = 0; i < duct.cells; i++) sum += y[duct.offset + (q === 0 ? 0 : 2 * duct.cells) + i];
    return sum;
  };
  const before = y.slice();
  const first = [contents(0), contents(1)];
  marchTime(network, y, time, 0.8);
  const account = accountOf(network, before, y);
  decode(network, 0, y);
  return {
    mass: contents(0) - first[0] - account.massIn,
    energy: contents(1) - first[1] - account.energyIn + account.cylinderHeat,
    scale: Math.abs(first[1]),
    heat: account.cylinderHeat,
    liquid: y[cylinder.offset + CYL.liquid],
    came: account.massIn,
    broughtPerKg: account.energyIn / account.massIn,
    T: cylinder.side[SIDE.T],
  };
}

describe('fuel that comes in as liquid', () => {
  it.each([
    ['in', 0.6e5],
    ['out and in again', 2e5],
  ])('makes and loses no mass and no energy on its way %s', (_, pressure) => {
    const run = filled(0.3, pressure);
    expect(Math.abs(run.mass)).toBeLessThan(1e-12);
    expect(Math.abs(run.energy) / run.scale).toBeLessThan(1e-12);
  });

  it('is none of what the valve lets back: a cylinder loses as much as without it', () => {
    const lost = (gain: number): number => {
      const network = pumping(0, undefined, gain);
      const y = new Float64Array(network.size);
      setSpeed(network, 1e-3);
      const [cylinder] = network.cylinders;
      fillDuct(network.ducts[0], y, 1.2e5, 300, 0);
      fillVolume(network.volumes[0], y, 1.2e5, 300, 0);
      fillCylinder(cylinder, y, 0, 2e5, 500, 0.2);
      const before = y[cylinder.offset + CYL.mass];
      marchTime(network, y, 1e-8, 0.8);
      return before - y[cylinder.offset + CYL.mass];
    };
    expect(lost(1)).toBeGreaterThan(0);
    expect(lost(GAIN) / lost(1)).toBeCloseTo(1, 4);
  });

  it.each([
    ['half of it, which has run along the valve', 0.5, 1e9, 0.5],
    ['a quarter, since the valve can no more at four times that speed', 0.5, 0.25e-3 * RADIANS, 0.25],
  ])('boils off hot metal, %s', (_, wetting, speed, boiled) => {
    const { latentHeat } = LIQUID;
    const run = filled(0, 0.6e5, 1e-4, { wetting, speed, latentHeat });
    const plain = filled(0, 0.6e5, 1e-4);
    expect(Math.abs(run.mass)).toBeLessThan(1e-12);
    expect(Math.abs(run.energy) / run.scale).toBeLessThan(1e-12);
    expect(Math.abs(run.liquid / plain.liquid / (1 - boiled) - 1)).toBeLessThan(0.03);
    expect(run.T).toBeGreaterThan(plain.T);
    // What boiled brings the heat it boiled by.
    expect((run.broughtPerKg - plain.broughtPerKg) / latentHeat).toBeCloseTo(boiled, 9);
  });

  it('evaporates in the cylinder, and takes of its heat from the walls what they are to give', () => {
    // While it fills: what goes back is vapour and would be told as fuel that came.
    const run = filled(1, 0.6e5, 0.004);
    const gone = run.came - run.liquid;
    expect(run.liquid).toBeGreaterThan(0);
    expect(gone / run.came).toBeGreaterThan(0.05);
    expect(-run.heat / (gone * LIQUID.latentHeat)).toBeCloseTo(1, 3);
    // Walls that give nothing leave it to the gas.
    const cold = filled(0, 0.6e5, 0.004);
    expect(cold.heat).toBe(0);
    expect(run.T - cold.T).toBeGreaterThan(1);
  });
});
