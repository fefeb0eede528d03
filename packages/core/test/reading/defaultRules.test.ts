/**
 * Rules of estimates, each by its own figures: branches that the two engines of the table of defaults don't take, both sides of each
 * limit, and spreads. SI, worked by hand from what the reason beside each rule says.
 */
import { describe, expect, it } from 'vitest';
import { fuelNamed } from '../../src/gas/fuels.ts';
import * as cam from '../../src/reading/defaults/cam.ts';
import * as chamber from '../../src/reading/defaults/chamber.ts';
import * as charge from '../../src/reading/defaults/charge.ts';
import * as clearance from '../../src/reading/defaults/clearance.ts';
import * as header from '../../src/reading/defaults/header.ts';
import * as parts from '../../src/reading/defaults/inductionParts.ts';
import * as manifold from '../../src/reading/defaults/manifold.ts';
import * as metering from '../../src/reading/defaults/metering.ts';
import * as outlet from '../../src/reading/defaults/outlet.ts';
import * as ports from '../../src/reading/defaults/ports.ts';
import * as rated from '../../src/reading/defaults/ratedSpeed.ts';
import * as running from '../../src/reading/defaults/running.ts';
import * as valves from '../../src/reading/defaults/valves.ts';
import * as valvetrain from '../../src/reading/defaults/valvetrain.ts';

const INCH = 0.0254;
const INHG = 3386.389;
const gasoline = fuelNamed('pump-93');
const methanol = fuelNamed('methanol');

type Given = { readonly value: number; readonly spread: number | null };
type Row = readonly [what: string, found: () => Given, value: number, spread: number | null];

const NUMBERS: readonly Row[] = [
  ['separation of a performance cam', () => cam.separation('performance'), 110, 2],
  ['separation of a production cam', () => cam.separation('production'), 112, 2],
  ['advance', () => cam.advance(), 4, 2],
  ['exhaust duration with two valves', () => cam.exhaustDuration(230, 2), 236, 4],
  ['exhaust duration with four', () => cam.exhaustDuration(230, 4), 230, 4],
  ['checking height, hydraulic', () => cam.checkingHeight('hydraulic-roller'), 0.006 * INCH, 0.002 * INCH],
  ['checking height, solid', () => cam.checkingHeight('solid-flat'), 0.02 * INCH, 0.004 * INCH],
  // 0.246 of the valve at 224 deg; 280 deg is 1.25 of it, to the power 1.5.
  ['lift of a long cam', () => cam.estimatedLift(0.05, 280, 2), 0.0171899, 0.0013752],
  ['lift of a small valve', () => cam.estimatedLift(0.03, 224, 4), 0.008487, 0.00067896],
  ['squish of a bathtub', () => chamber.squishArea('bathtub'), 0.25, 0.06],
  ['squish of a bowl', () => chamber.squishArea('bowl-in-piston'), 0.5, 0.06],
  ['squish of a hemisphere', () => chamber.squishArea('hemispherical'), 0, null],
  ['squish height', () => chamber.squishHeight(0.4e-3, 1e-3), 1.4e-3, 0.254e-3],
  [
    'squish height of a piston that stands proud',
    () => chamber.squishHeight(-0.8e-3, 1e-3),
    0.5e-3,
    0.254e-3,
  ],
  ['heating by a crossover', () => charge.heating('carburetor', 'exhaust', 350), 14, 6],
  // Outside air of 60 degF, 288.706 K: 0.02 of the way to the walls, and 0.025 to the floor.
  ['heating of an isolated plenum', () => charge.heating('carburetor', 'none', 340), 2.30825, 4],
  ['heating over coolant of 370 K', () => charge.heating('carburetor', 'coolant', 350, 370), 3.2583, 4],
  ['heating behind a throttle', () => charge.heating('port', 'none', 335), 0.92589, 4],
  ['heating of trumpets', () => charge.openHeating(), 0, 4],
  ['evaporation from a carburetor', () => charge.evaporation('carburetor', gasoline), 0.3, 0.1],
  ['evaporation from injectors', () => charge.evaporation('port', gasoline), 0.15, 0.1],
  ['evaporation in the cylinder', () => charge.evaporation('direct', gasoline), 0, null],
  ['vapour over a warm floor', () => charge.vapour('carburetor', 'exhaust', 0.3, gasoline), 0.75, 0.15],
  ['vapour over a cold one', () => charge.vapour('carburetor', 'none', 0.3, gasoline), 0.55, 0.15],
  ['vapour from injectors', () => charge.vapour('port', 'none', 0.15, gasoline), 0.65, 0.15],
  ['vapour of what is there already', () => charge.vapour('port', 'none', 0.7, gasoline), 0.7, 0.15],
  ['vapour of direct injection', () => charge.vapour('direct', 'none', 0, gasoline), 0, null],
  ['wall of a runner over a warm floor', () => charge.runnerWall('carburetor', 'coolant'), 350, 12],
  ['wall of an isolated runner', () => charge.runnerWall('carburetor', 'none'), 340, 12],
  ['wall of a runner with injectors', () => charge.runnerWall('port', 'none'), 335, 12],
  // (335 - 288.706) of (360 - 288.706) K: 0.64934 of 41.294 K.
  ['the same with coolant of 330 K', () => charge.runnerWall('port', 'none', 330), 315.52, 12],
  ['rod', () => clearance.rodLength(0.1), 0.165, 0.01],
  ['gasket bore', () => clearance.gasketBore(4 * INCH), 4.06 * INCH, 0.02 * INCH],
  ['gasket', () => clearance.gasketThickness(), 0.04 * INCH, 0.006 * INCH],
  ['deck', () => clearance.deck(), 0.015 * INCH, 0.008 * INCH],
  ['crevice of a 2 in bore', () => clearance.crevice(2 * INCH), 0.125e-6, 0.05e-6],
  [
    'length of a cast branch',
    () => header.primaryLength('cast', { bore: 0.1, cylinders: 4 }, () => 9000),
    0.22,
    0.022,
  ],
  [
    'length of a primary',
    () => header.primaryLength('headers', { bore: 0.1, cylinders: 3 }, () => 8000),
    34 * INCH,
    3.4 * INCH,
  ],
  // 1.125 to the power -0.9, 1.5 to the power -0.6: 0.899420, 0.784053.
  [
    'the same at 9000 rpm',
    () => header.primaryLength('headers', { bore: 0.1, cylinders: 3 }, () => 9000),
    0.776739,
    0.0776739,
  ],
  [
    'the same of a twin',
    () => header.primaryLength('headers', { bore: 0.1, cylinders: 2 }, () => 9000),
    0.677108,
    0.0677108,
  ],
  ['wall of a cast branch', () => header.primaryWall('cast'), 850, 80],
  ['wall of a tube', () => header.tubeWall(), 0.049 * INCH, null],
  // 1.8 of 2.098 in outside, less the walls; 0.7071 of it for two.
  ['collector of two', () => header.collectorInside(2 * INCH, 2), 0.0653373, 0.00392024],
  ['collector of one, no narrower than it', () => header.collectorInside(2 * INCH, 1), 2 * INCH, 0.00272826],
  ['down-pipe', () => header.collectorLength('cast', 4, () => 9000), 24 * INCH, 7.2 * INCH],
  ['collector of four', () => header.collectorLength('headers', 8, () => 8000), 18 * INCH, 5.4 * INCH],
  // 0.899420 of 0.4572 m, as the primaries.
  ['the same at 9000 rpm', () => header.collectorLength('headers', 4, () => 9000), 0.411215, 0.1233644],
  ['collector of a twin', () => header.collectorLength('headers', 2, () => 9000), 12 * INCH, 3.6 * INCH],
  ['merge', () => header.mergeVolume(0.1), 0.98175e-3, 0.3927e-3],
  ['wall of a collector', () => header.collectorWall(), 700, 80],
  ['secondary', () => header.secondaryInside(1e-3), 0.042819, 0.00214095],
  ['its length', () => header.secondaryLength(), 15 * INCH, 3 * INCH],
  ['balance tube of an exhaust', () => header.balanceInside(2e-3), 0.0441547, 0.00441547],
  ['its length', () => header.balanceLength(), 0.4, 0.15],
  ['its place', () => header.balancePlace(0.4), 0.3, 0.06],
  ['venturi', () => parts.venturi(1e-3), 0.0366096, 0.00146438],
  ['hole of a spacer', () => parts.spacerBore(0.04), 0.04, 0.0016],
  ['opening of a spacer', () => parts.spacerOpening(1e-3), 1.55e-3, 0.2325e-3],
  ['loss of an open spacer', () => parts.spacerLoss('open'), 0.1, 0.1],
  ['loss of a spacer with holes', () => parts.spacerLoss('four-hole'), 0.05, 0.05],
  ['discharge of a plate', () => parts.restrictorDischarge('plate'), 0.72, 0.06],
  ['discharge of a nozzle', () => parts.restrictorDischarge('sonic'), 0.98, 0.01],
  ['recovery behind a plate', () => parts.restrictorRecovery('plate'), 0, null],
  ['recovery behind a nozzle', () => parts.restrictorRecovery('sonic'), 0.8, 0.08],
  ['discharge of a divider', () => parts.dividerDischarge(), 0.65, 0.07],
  ['balance tube of runners', () => parts.balanceTubeLength(0.1), 0.115, 0.0345],
  ['its place', () => parts.balanceTubePlace(0.2), 0.1, 0.04],
  ['plenum of a race manifold', () => manifold.plenumVolume('single-plane', 5e-3), 1.5e-3, 0.45e-3],
  ['plenum of a runner a cylinder', () => manifold.plenumVolume('individual-runner', 5e-3), 1.5e-3, 0.45e-3],
  [
    'runner of a race manifold',
    () => manifold.runnerLength('single-plane', 4 * INCH, 5 * INCH, 6000),
    5.5 * INCH,
    1.1 * INCH,
  ],
  // 0.3302 m of tract at 180 turns a second is 1.415143 of 42 m/s, and to the power -0.6 0.811932: 0.268100 m with the port.
  [
    'runner alone, for 10 800 rpm',
    () => manifold.runnerLength('individual-runner', 4 * INCH, 5 * INCH, 10_800),
    0.1411,
    0.02822,
  ],
  [
    'runner with a throttle',
    () => manifold.runnerLength('individual-throttles', 2 * INCH, 2.5 * INCH, 9000),
    4.5 * INCH,
    0.9 * INCH,
  ],
  ['mouth of a race runner', () => manifold.runnerEntryArea('single-plane', 1e-3), 1.15e-3, 0.092e-3],
  ['mouth of a runner alone', () => manifold.runnerEntryArea('individual-runner', 1e-3), 1.1e-3, 0.088e-3],
  ['mouth behind a throttle', () => manifold.runnerEntryArea('individual-throttles', 1e-3), 1.1e-3, 0.088e-3],
  ['loss of a race manifold', () => manifold.flowLoss('single-plane'), 0.06, 0.04],
  ['loss of a runner alone', () => manifold.flowLoss('individual-runner'), 0.02, 0.04],
  ['loss behind a throttle', () => manifold.flowLoss('individual-throttles'), 0.02, 0.04],
  ['place of a throttle', () => manifold.throttleAt(0.3), 0.12, 0.03],
  ['barrels of 3 litres', () => metering.barrels(3e-3, 4), 2, null],
  ['barrels of 3.1 litres', () => metering.barrels(3.1e-3, 4), 4, null],
  ['barrels of one cylinder', () => metering.barrels(3.1e-3, 1), 1, null],
  ['barrels of each of two carburetors on three cylinders', () => metering.barrels(1e-3, 3, 2), 1, null],
  ['rating of one barrel', () => metering.ratingDrop(1), 3 * INHG, null],
  ['rating of two', () => metering.ratingDrop(2), 3 * INHG, null],
  ['rating of four', () => metering.ratingDrop(4), 1.5 * INHG, null],
  [
    'one of two carburetors',
    () => metering.carburetorRating(0.3, 3 * INHG, 2, 'shared'),
    0.259808,
    0.0389711,
  ],
  // 0.15 times the root of 3/2.
  ['one of two as made', () => metering.carburetorRating(0.3, 3 * INHG, 2, 'few'), 0.183712, 0.0275568],
  ['one of two alone', () => metering.carburetorRating(0.3, 3 * INHG, 2, 'alone'), 0.183712, 0.0275568],
  ['drop of an air cleaner', () => metering.airCleanerDrop(), 1.5 * INHG, null],
  // 4e-3 m2 over 0.85 for four of them.
  ['one of four throttles', () => metering.throttleDiameter(4e-3, 4), 0.0387025, 0.0030962],
  ['throttle in a runner', () => metering.runnerThrottleDiameter(1e-3), 0.0356825, 0.0028546],
  ['volume of a box', () => outlet.mufflerVolume('chambered', 8, 5e-4), 12e-3, 4.8e-3],
  ['volume of the box of a single', () => outlet.mufflerVolume('chambered', 1, 3e-4), 3.6e-3, 1.44e-3],
  ['volume around a pipe', () => outlet.mufflerVolume('straight-through', 4, 1e-3), 4e-3, 1.6e-3],
  ['pipe of a muffler', () => outlet.mufflerPipeInside(2e-3), 0.0504627, 0.00403701],
  ['its length', () => outlet.mufflerPipeLength(), 0.4, 0.15],
  ['its wall', () => outlet.mufflerPipeWall(), 650, 80],
  ['what returns into an open pipe', () => outlet.returnedExhaust('open'), 0.5, 0.25],
  ['what returns into a muffler', () => outlet.returnedExhaust('muffled'), 0.9, 0.1],
  ['port of an exhaust', () => ports.portLength(0.1, 'exhaust'), 0.075, 0.01125],
  ['port that its sheet widens', () => ports.minimumArea(1e-3, 'intake', 0.955e-3), 1e-3, 0.05e-3],
  ['port that its throat leaves', () => ports.minimumArea(1e-3, 'intake', 0.7e-3), 0.8e-3, 0.064e-3],
  ['throat of a cast port', () => ports.throatByState(0.05, 'as-cast'), 0.04, 0.001],
  ['throat with blended bowls', () => ports.throatByState(0.05, 'bowls-blended'), 0.0425, 0.001],
  ['throat worked all the way', () => ports.throatByState(0.05, 'fully-ported'), 0.045, 0.001],
  // 0.8 times the root of 0.81; 0.65 and 0.9 are the least and most.
  ['throat of a slow engine', () => ports.throatByPace(0.05, 0.81), 0.036, 0.00125],
  ['throat of a very slow engine', () => ports.throatByPace(0.05, 0.5), 0.0325, 0.00125],
  ['throat of a very fast engine', () => ports.throatByPace(0.05, 2), 0.045, 0.00125],
  ['smallest area as cast', () => ports.smallestByState(1e-3, 'as-cast'), 0.9e-3, 0.072e-3],
  [
    'smallest area with blended bowls',
    () => ports.smallestByState(1e-3, 'bowls-blended'),
    0.83e-3,
    0.0664e-3,
  ],
  ['smallest area worked all the way', () => ports.smallestByState(1e-3, 'fully-ported'), 0.8e-3, 0.064e-3],
  ['mean area', () => ports.areaRatio(), 0.88, 0.05],
  ['mixture', () => running.lambda(), 0.87, 0.02],
  ['octane that nobody heard', () => running.octaneOffset('model'), 0, 3],
  ['octane that was heard', () => running.octaneOffset('heard'), 0, 1.5],
  ['wall of a piston over coolant of 350 K', () => running.wallTemperature('piston', 350), 490, 20],
  // 99 kPa dry and 77 degF; 29.92 inHg and 60 degF.
  ['barometer of J1349', () => running.barometer('J1349'), 99_000, null],
  ['barometer of no standard', () => running.barometer('none'), 101_320.8, null],
  ['temperature of J1349', () => running.airTemperature('J1349'), 298.15, null],
  ['temperature of J607', () => running.airTemperature('J607'), 288.706, null],
  ['humidity of a room', () => running.humidity(), 0.4, 0.2],
  ['hemispherical intake', () => valves.valveDiameter(0.1, 'intake', 1, 2, 'hemispherical'), 0.049, 0.002],
  ['hemispherical exhaust', () => valves.valveDiameter(0.1, 'exhaust', 1, 2, 'hemispherical'), 0.042, 0.002],
  ['one of three', () => valves.valveDiameter(0.1, 'intake', 3, 5, 'pent-roof'), 0.03, 0.002],
  ['one exhaust of three', () => valves.valveDiameter(0.1, 'exhaust', 3, 6, 'pent-roof'), 0.026, 0.002],
  ['one exhaust beside two', () => valves.valveDiameter(0.1, 'exhaust', 1, 3, 'pent-roof'), 0.04, 0.002],
  ['one intake beside two', () => valves.valveDiameter(0.1, 'intake', 1, 3, 'pent-roof'), 0.046, 0.002],
  ['wedge intake', () => valves.valveDiameter(0.1, 'intake', 1, 2, 'wedge'), 0.046, 0.002],
  ['one exhaust of two', () => valves.valveDiameter(0.1, 'exhaust', 2, 4, 'pent-roof'), 0.034, 0.002],
  [
    'one exhaust of two beside three',
    () => valves.valveDiameter(0.1, 'exhaust', 2, 5, 'pent-roof'),
    0.032,
    0.002,
  ],
  [
    'one intake of two beside one',
    () => valves.valveDiameter(0.1, 'intake', 2, 3, 'pent-roof'),
    0.037,
    0.002,
  ],
  ['stem', () => valves.stemDiameter(0.05), 0.0085, 0.001],
  ['bending of pushrods', () => valvetrain.flex('pushrod'), 0.01 * INCH, 0.007 * INCH],
  ['bending overhead', () => valvetrain.flex('direct-acting'), 0, 0.002 * INCH],
  ['flow the wrong way, intake', () => ports.reverseFlow('intake'), 0.85, 0.08],
  ['flow the wrong way, exhaust', () => ports.reverseFlow('exhaust'), 0.9, 0.08],
  ['what burns', () => running.burnEfficiency(), 0.97, 0.01],
  ['duration of the burn', () => running.durationMultiplier(), 1, 0.1],
  ['law of wall heat', () => running.wallMultiplier(), 1, 0.15],
  ['law of friction', () => running.frictionMultiplier(), 1, 0.12],
  ['how waves see a runner', () => manifold.runnerLengthMultiplier(), 1, 0.04],
  ['end of a runner', () => manifold.runnerExitArea(1e-3), 1.03e-3, 0.0515e-3],
  ['plenum of a dual plane', () => manifold.plenumVolume('dual-plane', 5e-3), 1e-3, 0.3e-3],
  [
    'runner of a long runner',
    () => manifold.runnerLength('long-runner', 4 * INCH, 5 * INCH, 5000),
    12 * INCH,
    2.4 * INCH,
  ],
  ['throat of an intake', () => valves.throatDiameter(0.05, 'intake'), 0.045, 0.001],
  ['ratio of direct acting', () => valvetrain.rockerRatio('direct-acting'), 1, 0],
  ['ratio of pushrods', () => valvetrain.rockerRatio('pushrod'), 1.5, 0.05],
  ['ratio of overhead rockers', () => valvetrain.rockerRatio('rocker-arm'), 1.6, 0.1],
  ['lash of hydraulic lifters', () => valvetrain.lash('pushrod', 'hydraulic-flat'), 0, 0],
  ['lash of solid lifters', () => valvetrain.lash('pushrod', 'solid-roller'), 0.018 * INCH, 0.004 * INCH],
  ['lash overhead', () => valvetrain.lash('finger-follower', 'solid-flat'), 0.01 * INCH, 0.002 * INCH],
  ['camshafts of a V with four valves', () => valvetrain.camshafts('direct-acting', 4, 2), 4, null],
  ['camshafts of a V with two', () => valvetrain.camshafts('rocker-arm', 2, 2), 2, null],
  ['camshafts with pushrods', () => valvetrain.camshafts('pushrod', 2, 2), 1, null],
];

describe('the estimate of', () => {
  it.each(NUMBERS)('%s', (_what, found, value, spread) => {
    const given = found();
    expect(Math.abs(given.value - value)).toBeLessThanOrEqual(2e-5 * Math.abs(value));
    if (spread === null) expect(given.spread).toBeNull();
    else expect(Math.abs((given.spread ?? -1) - spread)).toBeLessThanOrEqual(1e-4 * spread);
  });

  it('methanol goes by its latent heat: less of a kilogram of fuel, by air and by walls', () => {
    const byFuel = gasoline.latentHeat / methanol.latentHeat;
    // 6.46 and 14.6 kg of air a kilogram, to the digits that mixtures of pump fuel are known to.
    expect(charge.evaporation('carburetor', methanol).value).toBeCloseTo(0.3 * byFuel, 12);
    expect(charge.evaporation('carburetor', methanol).spread).toBeCloseTo(0.1 * byFuel, 12);
    const { value, spread } = charge.vapour('carburetor', 'none', 0, methanol);
    expect((spread ?? 0) / (0.15 * byFuel)).toBeCloseTo(6.46 / 14.6, 1);
    expect(value).toBeCloseTo(0.3 * byFuel + ((0.55 - 0.3) * (spread ?? 0)) / 0.15, 12);
  });

  it('the pace of a rated speed is one at the piston speed that the usual throat is cast for: 14.4 m/s, 17.5 of more valves', () => {
    // A stroke of 90 mm is gone up and down in each turn: 14.4 m/s at 4800 rpm, 17.5 at 5833.
    const sizes = { bore: 0.09, stroke: 0.09, valves: 1, valveDiameter: 0.04 };
    expect(rated.ratedPace(sizes, 4800)).toBeCloseTo(1, 12);
    expect(rated.ratedPace({ ...sizes, valves: 2 }, 5833.333)).toBeCloseTo(1, 6);
    expect(rated.ratedPace(sizes, 2400)).toBeCloseTo(0.5, 12);
  });

  it('a rated speed follows the cam: 75 rpm a degree of a 347 in3 eight with 2.02 in valves', () => {
    const sizes = { bore: 4.03 * INCH, stroke: 3.4 * INCH, valves: 1, valveDiameter: 2.02 * INCH };
    const at = (duration: number) => rated.ratedSpeed(sizes, duration, 'performance');
    expect(at(221)).toMatchObject({ value: 5500, spread: 500 });
    expect(at(241).value - at(221).value).toBe(1500);
    // 20 m/s through the valve is the least there is.
    expect(at(150).value).toBe(at(170).value);
    expect(at(170).value).toBe(1750);
    expect(rated.intakeDuration(sizes, 5500, 'performance')).toMatchObject({ value: 221, spread: 8 });
    expect(rated.intakeDuration(sizes, 5500, 'production').value).toBe(206);
    expect(rated.intakeDuration(sizes, 5500, 'alone').value).toBe(221);
    expect(rated.intakeDuration(sizes, 20_000, 'performance').value).toBe(290);
    expect(rated.intakeDuration(sizes, 1000, 'production').value).toBe(180);
  });
});

it('an open outlet and a demand of air are what they were worked to', () => {
  // 0.2 m3/s of room air, 1.2216 kg/m3, makes 0.26387 kg/s of exhaust; 6895 Pa and 0.41105 kg/m3.
  expect(outlet.outletAreaFor(6894.757293168, 0.2)).toBeCloseTo(3.5048e-3, 6);
  expect(outlet.ratedAirflow(5e-3, 6000)).toBeCloseTo(0.225, 12);
  expect(metering.airDemand(5e-3, 6000)).toBeCloseTo(0.2125, 12);
  expect(outlet.backPressure('chambered').value).toBeCloseTo(2.5 * 6894.757293168, 6);
  expect(outlet.backPressure('chambered').spread).toBeCloseTo(6894.757293168, 6);
  expect(outlet.backPressure('straight-through').value).toBeCloseTo(6894.757293168, 6);
  expect(outlet.backPressure('straight-through').spread).toBeCloseTo(0.4 * 6894.757293168, 6);
});

it('an airbox opens 15 % either way of what a throttle for the whole engine would', () => {
  const { value, spread } = metering.airboxInlet(0.2);
  // 0.2 m3/s at 1693 Pa: some 52.6 m/s through 0.85 of 4.47e-3 m2.
  expect(value).toBeCloseTo(0.0755, 4);
  expect(spread).toBeCloseTo(0.15 * value, 12);
});

it('a primary is sized by its port or by its gas', () => {
  const sizes = { cylinderVolume: 0.6e-3, stroke: 0.09, ratedSpeed: 5320, portArea: 1e-3 };
  // 1.2e-3 m2; 0.6e-3 m3 in half a turn of 4000 rpm at 74.676 m/s: 1.0713e-3 m2.
  expect(header.primaryInside('cast', sizes).value).toBeCloseTo(0.0390882, 6);
  expect(header.primaryInside('cast', sizes).spread).toBeCloseTo(0.0031271, 6);
  expect(header.primaryInside('headers', sizes).value).toBeCloseTo(0.036933, 5);
  expect(header.primaryInside('headers', sizes).spread).toBeCloseTo(0.0018467, 6);
});
