import { describe, expect, it } from 'vitest';
import { brakeFactor } from '../../src/forecast/weatherCorrection.ts';
import { stoichiometricAirFuelRatio } from '../../src/gas/freshGas.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { evaporation, heating, manifoldHeat, runnerWall, vapour } from '../../src/reading/defaults/charge.ts';
import { rodLength } from '../../src/reading/defaults/clearance.ts';
import { fuelName } from '../../src/reading/defaults/fuel.ts';
import { primaryInside, RATED_OVER_TORQUE_PEAK } from '../../src/reading/defaults/header.ts';
import {
  airDemand,
  carburetorRating,
  drawsByTurns,
  RATING_DROPS,
} from '../../src/reading/defaults/metering.ts';
import { outletAreaFor } from '../../src/reading/defaults/outlet.ts';
import { minimumArea } from '../../src/reading/defaults/ports.ts';
import { intakeDuration, ratedSpeed } from '../../src/reading/defaults/ratedSpeed.ts';
import { wallTemperature } from '../../src/reading/defaults/running.ts';
import { splitValves, valveDiameter } from '../../src/reading/defaults/valves.ts';
import { bearingsOfCamshaft, camshafts } from '../../src/reading/defaults/valvetrain.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { evaporationCooling } from '../support/evaporationCooling.ts';
import { fileWith, readGood } from './files.ts';

const INCH = 0.0254;
const CUBIC_INCH = INCH ** 3;
const CFM = 4.719474432e-4;
const SMALL_BLOCK = { bore: 4.03 * INCH, stroke: 3.4 * INCH, valves: 1, valveDiameter: 2.02 * INCH };

describe('the cam for a rated speed', () => {
  it.each([
    [5500, 221],
    [6500, 236],
  ])(
    'of %d rpm in a 347 in3 engine is within 3 deg of what builders quote, %d deg at 0.050 in',
    (rpm, duration) => {
      expect(Math.abs(intakeDuration(SMALL_BLOCK, rpm, 'performance').value - duration)).toBeLessThanOrEqual(
        3,
      );
    },
  );

  it('and the speed for a cam undo each other', () => {
    const duration = intakeDuration(SMALL_BLOCK, 6000, 'performance').value;
    expect(Math.abs(ratedSpeed(SMALL_BLOCK, duration, 'performance').value - 6000)).toBeLessThanOrEqual(75);
  });

  it('of a production 350 rated at 4200 rpm is 194 deg, from memory', () => {
    const sizes = { bore: 4 * INCH, stroke: 3.48 * INCH, valves: 1, valveDiameter: 1.94 * INCH };
    expect(Math.abs(intakeDuration(sizes, 4200, 'production').value - 194)).toBeLessThanOrEqual(3);
  });

  it('is longer for a small valve at the same speed', () => {
    const small = intakeDuration({ ...SMALL_BLOCK, valveDiameter: 1.72 * INCH }, 5500, 'performance').value;
    expect(small).toBeGreaterThan(intakeDuration(SMALL_BLOCK, 5500, 'performance').value + 10);
  });
});

describe('rated speed without a cam', () => {
  it('is 14.4 m/s of piston with two valves: 4970 rpm, rounded, at 86.9 mm of stroke', () => {
    expect(ratedSpeed({ ...SMALL_BLOCK, stroke: 0.0869 }, null, 'production').value).toBe(4950);
  });
});

describe('a primary tube', () => {
  // Torque-peak speeds of tubes with 0.049 in wall at 43.75 in3 a cylinder: 245 ft/s; common practice, no source.
  it.each([
    [1.5, 3112],
    [1.625, 3692],
    [1.75, 4321],
    [1.875, 5000],
    [2.0, 5728],
  ])('of %d in outside belongs to a torque peak at %d rpm', (outside, rpm) => {
    const { value } = primaryInside('headers', {
      cylinderVolume: 43.75 * CUBIC_INCH,
      stroke: 3.48 * INCH,
      ratedSpeed: rpm * RATED_OVER_TORQUE_PEAK,
      portArea: 1e-3,
    });
    expect(value / INCH + 2 * 0.049).toBeCloseTo(outside, 3);
  });
});

describe('a carburetor', () => {
  it('for 350 in3 at 6000 rpm and 95 % filling sees 577 cfm', () => {
    expect(airDemand(350 * CUBIC_INCH, 6000, 0.95) / CFM).toBeCloseTo(577, 0);
  });

  it('that costs 1.0 inHg at 577 cfm is rated 707 cfm at 1.5 inHg', () => {
    expect(carburetorRating(577 * CFM, RATING_DROPS.four, 1, 'shared').value / CFM).toBeCloseTo(706.7, 1);
  });

  it('feels the gaps of few cylinders: a single draws for a quarter of the time, four without a gap', () => {
    expect([1, 2, 3, 4, 8].map(drawsByTurns)).toEqual([4, 2, 4 / 3, 1, 1]);
  });

  it('of its own for each of four passes four times what one for all does, while its cylinder draws', () => {
    const area = (induction: string): number => {
      const read = readCombination(
        `engine: { bore: 80 mm, stroke: 80 mm, cylinders: 4 }\nchamber: { compression: 9 }\nheads: { valvesPerCylinder: 2 }\ninduction: ${induction}\n`,
      );
      if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
      return read.value.induction.meteringArea;
    };
    const own = area('{ manifold: individual-throttles, carburetor: { count: 4, barrels: 1 } }');
    const shared = area('{ manifold: single-plane, carburetor: { barrels: 2 } }');
    expect(Math.abs(own / shared / 4 - 1)).toBeLessThan(0.01);
  });

  it('of two barrels as made, 2.0 inHg at 200 cfm, is rated 245 cfm at 3.0 inHg', () => {
    expect(carburetorRating(200 * CFM, RATING_DROPS.two, 1, 'few').value / CFM).toBeCloseTo(244.9, 1);
  });
});

describe('the outlet', () => {
  it('that holds 1 psi of 850 K exhaust at 500 cfm of air has 23.5 cm2', () => {
    // 0.23597 m3/s at 1.2216 kg/m3 and 1.08 of exhaust is 0.3113 kg/s; sqrt(2 x 0.41105 x 6894.757) is 75.29 kg/(s m2).
    expect(1e4 * outletAreaFor(6894.757, 500 * CFM)).toBeCloseTo(1e4 * (0.3113 / 75.29), 1);
  });
});

describe('the charge', () => {
  it('is cooled by about 19 K where all of stoichiometric iso-octane evaporates, and 128 K with methanol', () => {
    expect(Math.abs(evaporationCooling(1, 1 / 15.03, 308e3) - 19)).toBeLessThan(2);
    expect(Math.abs(evaporationCooling(1, 1 / 6.43, 1103e3) - 128)).toBeLessThan(5);
  });

  // 0.02 and 0.025 of the 51.3 K by which a wall of 340 K is warmer than a day of 60 F; over coolant 0.025 of 71.3 K.
  it('takes 2.3 K of an isolated plenum under a carburetor, 2.8 K of one over coolant, half of it without the floor', () => {
    expect(heating('carburetor', 'none', 340).value).toBeCloseTo(2.31, 2);
    expect(heating('carburetor', 'coolant', 340).value).toBeCloseTo(2.81, 2);
    expect(heating('port', 'none', 340).value).toBeCloseTo(1.03, 2);
  });

  it('stands between the coolant and the air, and walls of the cylinder as much above it as ever', () => {
    // 340 K is 0.719 of the way from 288.7 to 360 K; 0.719 of the 51.3 K to a coolant of 340 K.
    expect(runnerWall('carburetor', 'none').value).toBeCloseTo(340, 9);
    expect(runnerWall('carburetor', 'none', 340).value).toBeCloseTo(288.7 + 0.719 * 51.3, 1);
    expect(heating('carburetor', 'coolant', 325.6, 340).value).toBeCloseTo(0.02 * 36.9 + 0.025 * 51.3, 2);
    expect(wallTemperature('head', 340).value).toBe(450);
    expect(wallTemperature('liner').value).toBe(410);
  });

  // What runner and port give, Nu = 0.07 Re^(3/4): Stanton 0.0056 at Re 1e5 over 7.5 diameters of two sides of 45 mm at 50 K.
  const wallRise = 8;

  it("under a crossover warms by the trade's 15 K: heating and walls less what evaporates", () => {
    const { latentHeat } = fuelNamed('pump-91');
    const fuelPerAir = 1 / (0.87 * stoichiometricAirFuelRatio(fuelNamed('pump-91')));
    const cooling = evaporationCooling(
      evaporation('carburetor', fuelNamed('pump-93')).value,
      fuelPerAir,
      latentHeat,
    );
    expect(Math.abs(heating('carburetor', 'exhaust', 350).value + wallRise - cooling - 15)).toBeLessThan(1);
  });

  it('stands on a warmed floor in a road car and under a dual plane, else not', () => {
    expect(manifoldHeat('carburetor', 'dual-plane', 'performance').value).toBe('exhaust');
    expect(manifoldHeat('carburetor', 'single-plane', 'production').value).toBe('exhaust');
    expect(manifoldHeat('carburetor', 'single-plane', 'performance').value).toBe('none');
    expect(manifoldHeat('port', 'long-runner', 'production').value).toBe('none');
  });

  it('has a floor that nothing warms within two standard deviations of one that exhaust is taken to warm', () => {
    const gasoline = fuelNamed('pump-93');
    const pairs = [
      [heating('carburetor', 'exhaust', 350), heating('carburetor', 'none', 340)],
      [vapour('carburetor', 'exhaust', 0.3, gasoline), vapour('carburetor', 'none', 0.3, gasoline)],
      [runnerWall('carburetor', 'exhaust'), runnerWall('carburetor', 'none')],
    ] as const;
    for (const [warmed, isolated] of pairs)
      expect(warmed.value - isolated.value).toBeLessThan(2 * (warmed.spread ?? 0));
    expect(heating('carburetor', 'exhaust', 350).spread).toBe(6);
    expect(heating('carburetor', 'coolant', 350).spread).toBe(4);
  });

  it('has the air give a kilogram of any fuel the same heat, and walls a kilogram of air', () => {
    const gasoline = fuelNamed('pump-93');
    for (const name of ['e85', 'methanol', 'pump-91-e10']) {
      const fuel = fuelNamed(name);
      const byAir = evaporation('carburetor', fuel).value;
      expect(byAir * fuel.latentHeat).toBeCloseTo(0.3 * gasoline.latentHeat, 6);
      const byWalls = vapour('carburetor', 'none', byAir, fuel).value - byAir;
      const perAir = ({ latentHeat }: typeof fuel, ratio: number): number => latentHeat / ratio;
      expect(byWalls * perAir(fuel, stoichiometricAirFuelRatio(fuel))).toBeCloseTo(
        0.25 * perAir(gasoline, stoichiometricAirFuelRatio(gasoline)),
        6,
      );
    }
    // 0.342 over 1.168 MJ/kg is 0.293; a ratio of 6.46 in place of 14.5 leaves 0.130 of that by the kilogram of air.
    expect(evaporation('carburetor', fuelNamed('methanol')).value).toBeCloseTo(0.3 * 0.293, 3);
    expect(vapour('carburetor', 'exhaust', 0, fuelNamed('methanol')).value).toBeCloseTo(
      0.3 * 0.293 + 0.45 * 0.13,
      2,
    );
    expect(evaporation('port', fuelNamed('propane')).value).toBe(0.15);
  });

  it('brings no vapour where fuel comes in behind the valve, and never less than the air evaporated', () => {
    expect(vapour('direct', 'none', 0, fuelNamed('pump-93')).value).toBe(0);
    const gasoline = fuelNamed('pump-93');
    expect(vapour('carburetor', 'none', 0.3, gasoline).value).toBe(0.55);
    expect(vapour('carburetor', 'exhaust', 0.3, gasoline).value).toBe(0.75);
    expect(vapour('port', 'none', 0.9, gasoline).value).toBe(0.9);
  });
});

describe('valves', () => {
  it.each([
    [2, 1, 1],
    [3, 2, 1],
    [4, 2, 2],
    [5, 3, 2],
  ])('%d in a cylinder are %d intake and %d exhaust', (all, intake, exhaust) => {
    expect(splitValves(all)).toEqual({ intake, exhaust });
  });

  it('of a 4 in bore are 1.84 in with a wedge and 1.48 in with four', () => {
    expect(valveDiameter(4 * INCH, 'intake', 1, 2, 'wedge').value / INCH).toBeCloseTo(1.84, 6);
    expect(valveDiameter(4 * INCH, 'intake', 2, 4, 'pent-roof').value / INCH).toBeCloseTo(1.56, 6);
  });
});

describe('small defaults', () => {
  it('take a rod of 1.65 strokes, and a fuel by compression', () => {
    expect(rodLength(0.1).value).toBeCloseTo(0.165, 12);
    expect([8.5, 9.6, 11.5, 13, 15].map((ratio) => fuelName(ratio).value)).toEqual([
      'pump-87',
      'pump-93',
      'race-100',
      'race-110',
      'race-116',
    ]);
  });
});

describe('camshafts', () => {
  it.each([
    ['a pushrod V8', 'pushrod', 2, 8, 2, 1, 5],
    ['a pushrod four', 'pushrod', 2, 4, 1, 1, 3],
    ['an overhead-cam four with two valves', 'rocker-arm', 2, 4, 1, 1, 5],
    ['an in-line six with four valves', 'direct-acting', 4, 6, 1, 2, 14],
    ['a V6 with four valves', 'finger-follower', 4, 6, 2, 4, 16],
    ['an overhead-cam single', 'finger-follower', 2, 1, 1, 1, 2],
  ] as const)(
    'of %s are as many as usual, with a bearing beside each cylinder or pair',
    (_name, type, valves, cylinders, banks, shafts, bearings) => {
      const count = camshafts(type, valves, banks).value;
      expect(count).toBe(shafts);
      expect(count * bearingsOfCamshaft(type, cylinders, banks)).toBe(bearings);
    },
  );
});

describe('the smallest area of a port nobody measured', () => {
  it('is a share of the throat, and more where the sheet flows more than that could pass', () => {
    expect(minimumArea(2e-3, 'intake', 0).value).toBeCloseTo(1.6e-3, 12);
    expect(minimumArea(2e-3, 'intake', 1.5e-3).value).toBeCloseTo(1.6e-3, 12);
    // 1.7e-3 m2 of effective area are 92 % of the ideal flow through 1.78e-3 m2.
    expect(minimumArea(2e-3, 'intake', 1.7e-3).value).toBeCloseTo(1.78e-3, 5);
  });
});

describe('the air of a file that says nothing of its day', () => {
  it.each(['J607', 'J1349'] as const)('is the reference air of %s, which corrects nothing', (correction) => {
    const { weather, assumed } = readGood(fileWith({ correction }));
    const dry = weather.pressure - weather.vapourPressure;
    // Estimates are rounded as they are listed: 29.23 inHg.
    expect(brakeFactor(correction, dry, weather.temperature)).toBeCloseTo(1, 3);
    const said = assumed.filter(({ path }) => path.startsWith('weather.')).map(({ path }) => path);
    expect(said).toEqual(['weather.barometer', 'weather.temperature', 'weather.vapourPressure']);
  });

  it('is that of J607 where figures are shown as observed', () => {
    expect(readGood(fileWith({ correction: 'none' })).weather).toEqual(readGood(fileWith({})).weather);
  });
});
