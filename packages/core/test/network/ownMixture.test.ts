/** A charge of a mixture of its own: what it keeps of the gas that came in, and what goes out of it. */
import { describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { liquidFuel } from '../../src/gas/liquidFuel.ts';
import {
  CYL,
  type Cylinder,
  createCylinder,
  decodeAtAngle,
  fillCylinder,
} from '../../src/network/cylinder.ts';
import { giveMeanMixture, takeOwnMixture } from '../../src/network/ownMixture.ts';
import { SIDE } from '../../src/network/side.ts';
import { siteOf } from './networks.ts';

const FUEL = fuelNamed('iso-octane');
const tables = (lambda: number) =>
  buildGasTables({ fuel: FUEL, lambda, vapourPressure: 0, pressure: 101_325 });
const MEAN = tables(0.9);

function filled(charge: Cylinder['charge'], p: number, T: number, b: number, wet: boolean) {
  const liquid = liquidFuel(FUEL);
  if (liquid === null) throw new Error('iso-octane is a liquid');
  const cylinder = createCylinder(
    {
      name: 'one',
      crank: { bore: 0.09, stroke: 0.08, rodLength: 0.13, clearanceVolume: 5e-5 },
      firingAngle: 0,
      walls: {
        model: 'woschni',
        multiplier: 1,
        head: 450,
        piston: 450,
        liner: 400,
        headRatio: 1.2,
        clearanceWall: 0,
      },
      burn: { start: -20, duration: 60, a: 5, m: 2, efficiency: 1 },
      charge,
      spray: wet ? { liquid, diameter: 50e-6, wallShare: 0.3 } : undefined,
    },
    siteOf(MEAN),
  );
  const y = new Float64Array(9);
  cylinder.now.angle = -130;
  fillCylinder(cylinder, y, -130, p, T, b);
  decodeAtAngle(cylinder, y);
  return { cylinder, y };
}

const fuelIn = (y: Float64Array, { tables: { fuelFraction } }: Cylinder): number =>
  (y[CYL.mass] - y[CYL.burned]) * fuelFraction;

describe.each([1.05, 0.8])('a charge of lambda %f among those of 0.9', (lambda) => {
  const OWN = tables(lambda);

  it.each([false, true])(
    'keeps air, temperature and residual and has its own fuel (liquid in it: %s)',
    (wet) => {
      const { cylinder, y } = filled(OWN, 1.1e5, 340, 0.06, wet);
      if (wet) {
        y[CYL.liquid] = 0.3 * fuelIn(y, cylinder);
        decodeAtAngle(cylinder, y);
      }
      const before = y.slice();
      const [fuel, T] = [fuelIn(y, cylinder), cylinder.side[SIDE.T]];
      const air = before[CYL.mass] - before[CYL.burned] - fuel;
      const added = takeOwnMixture(cylinder, y);
      decodeAtAngle(cylinder, y);
      expect(y[CYL.burned]).toBe(before[CYL.burned]);
      expect(y[CYL.mass] - before[CYL.mass]).toBeCloseTo(added, 15);
      expect(y[CYL.mass] - y[CYL.burned] - fuelIn(y, cylinder)).toBeCloseTo(air, 15);
      // Fuel over air goes with 1 / lambda.
      expect((fuel + added) / fuel).toBeCloseTo(0.9 / lambda, 12);
      expect(cylinder.side[SIDE.T]).toBeCloseTo(T, 6);
      if (wet) expect(y[CYL.liquid] - before[CYL.liquid]).toBeCloseTo(added, 15);
      // What energy came with the fuel stands in the account.
      expect(y[CYL.energy] + y[CYL.unreleased]).toBeCloseTo(before[CYL.energy], 9);
    },
  );

  it.each([1200, 1900])('leaves as gas of the mean, as hot and at the pressure it was (%i K)', (T) => {
    const { cylinder, y } = filled(OWN, 5e5, T, 1, false);
    cylinder.tables = OWN;
    // As hot gas of its own: the energy that gives this temperature is found, not assumed.
    y[CYL.energy] += 2e5 * y[CYL.mass];
    decodeAtAngle(cylinder, y);
    const [before, p, hot] = [y.slice(), cylinder.side[SIDE.p], cylinder.side[SIDE.T]];
    const gained = giveMeanMixture(cylinder, y);
    decodeAtAngle(cylinder, y);
    expect(cylinder.tables).toBe(MEAN);
    expect(cylinder.side[SIDE.T] / hot).toBeCloseTo(1, 6);
    expect(cylinder.side[SIDE.p] / p).toBeCloseTo(1, 5);
    expect(y[CYL.mass] - before[CYL.mass]).toBeCloseTo(gained, 15);
    // A richer gas has more molecules a kilogram: gas of the mean in its place weighs more.
    expect(Math.sign(gained)).toBe(lambda < 0.9 ? 1 : -1);
    expect(y[CYL.energy] + y[CYL.unreleased]).toBeCloseTo(before[CYL.energy], 9);
  });
});

describe('a cylinder of the mean mixture', () => {
  it('changes nothing', () => {
    const { cylinder, y } = filled(MEAN, 1.1e5, 340, 0.06, false);
    const before = y.slice();
    expect(takeOwnMixture(cylinder, y)).toBe(0);
    expect(giveMeanMixture(cylinder, y)).toBe(0);
    expect(y).toEqual(before);
  });
});
