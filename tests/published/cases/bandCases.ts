/** Bands that textbooks give for whole engines at full throttle, and where forecasts lie in them. */
import type { Combination } from '../../../packages/core/src/combination/combination.ts';
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import type { WholeCurve } from '../../../packages/core/src/forecast/wholeCurve.ts';
import { comparedPointsOf, engineFile, pointsOf } from '../../physics/engines.ts';
import { fuelAirCycle } from '../fuelAirCycle.ts';
import { median } from '../population.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';
import { FIRST, first, second } from './engineCases.ts';

const GRAMS_PER_POUND_HP_HOUR = 453.59237 / 0.74569987158227;

interface BandOf {
  readonly what: string;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly decimals: number;
  readonly cause?: string;
  readonly compute: () => number;
}

/** Both ends of a band; neither is required, since each is remembered and of engines in general. */
function ends({ what, low, high, unit, decimals, cause, compute }: BandOf): readonly PublishedCase[] {
  const value = once(compute);
  const end = {
    unit,
    decimals,
    within: 0,
    aim: true,
    compute: value,
    ...(cause === undefined ? {} : { cause }),
  };
  return [
    { ...end, what: `${what}, lower end`, value: low, relation: 'at least' },
    { ...end, what: `${what}, upper end`, value: high, relation: 'at most' },
  ];
}

const street = once(() => engineFile('tests/data/engines/street-350.yaml'));

function nearest({ points }: WholeCurve, rpm: number): MarchedPoint {
  return points.reduce((a, b) => (Math.abs(b.rpm - rpm) < Math.abs(a.rpm - rpm) ? b : a));
}

const atTorque = (): MarchedPoint => nearest(first(), FIRST.torqueRpm);
const atPower = (): MarchedPoint => nearest(first(), FIRST.powerRpm);

/** Energy of a cycle's fuel over swept volume [bar]. */
function fuelPressure(point: MarchedPoint, { block, fuel }: Combination): number {
  const swept = (Math.PI / 4) * block.bore * block.bore * block.stroke * block.cylinders;
  return ((point.fuelKgPerH / 3600) * (120 / point.rpm) * fuel.lowerHeatingValue) / swept / 1e5;
}

/** Share of the fuel's energy that cylinder walls and rubbing take [%]. */
const heatShare = (point: MarchedPoint): number =>
  100 * (point.heatLossFraction + point.fmepBar / fuelPressure(point, street()));

/** Indicated efficiency over that of the fuel-air cycle at the same ratio and mixture [-]. */
function overFuelAir(point: MarchedPoint): number {
  const engine = street();
  const ideal = fuelAirCycle(1 / engine.lambda, engine.chamber.compressionRatio, 388, 101_325, 0.05);
  return point.imepBar / fuelPressure(point, engine) / ideal.efficiency;
}

const SPEEDS = [2500, 4000, 5500];
const timed = once(() => {
  const engine = engineFile('examples/tow-truck/engine.yaml');
  return pointsOf({ ...engine, burn: { ...engine.burn, timing: { mode: 'best-torque' } } }, SPEEDS);
});

/** Air outside on a cold and on a hot day [K]. */
const DAYS = [275, 305] as const;

/** Engines whose filling is taken on both days, at speeds from below their torque peak to their rated speed. */
const FILLED = [
  { engine: 'first state', file: 'tests/data/engines/street-350.yaml', from: 2200, to: 5600 },
  { engine: 'example minimum', file: 'examples/minimum/engine.yaml', from: 2500, to: 6500 },
] as const;
const FILLED_SPEEDS = 9;

/** Exponent of filling on the temperature of the air outside, median over the speeds: at one speed a hotter day also moves the tuning. */
function fillingByTemperature({ file, from, to }: (typeof FILLED)[number]): number {
  const engine = engineFile(file);
  const burn = { ...engine.burn, timing: { mode: 'ca50', angle: 8 } as const };
  const rpm = Array.from({ length: FILLED_SPEEDS }, (_, i) => from + ((to - from) * i) / (FILLED_SPEEDS - 1));
  const [cold, hot] = DAYS.map((temperature) =>
    comparedPointsOf(
      { ...engine, burn, weather: { ...engine.weather, temperature }, correction: 'none' },
      rpm,
    ),
  );
  return median(
    rpm.map(
      (_, i) =>
        Math.log(hot[i].volumetricEfficiency / cold[i].volumetricEfficiency) / Math.log(DAYS[1] / DAYS[0]),
    ),
  );
}

const COOL_WALLS =
  'the figure counts cylinder walls and rubbing; the exhaust port, which sits in the same coolant, is not in it, and a rich mixture leaves a share of its energy unreleased; little wall heat may be part of it';

export const bandCases: PublishedSource = {
  title: 'Bands of the textbooks',
  source:
    'Heywood (1988), Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, and common figures of engine books, all from memory; angle of peak pressure: abstract of J. Combust. 2011, 678719; fuel consumption of eights: from memory',
  note: 'None is required: each speaks of engines in general. On the first state of the engine below unless said otherwise, at the speeds of its measured peaks. One printed split of the fuel at full load gives 29 % to the crank and 27.5 % to coolant and oil (FEV, by x-engineer.org), of an engine it does not name. Filling goes with the root of the air temperature by the correction formulas of dynos, for engines in general at their own speeds: so it is taken over the speeds of an engine, and at single ones it lies from 0.37 to 0.60, since a hotter day moves the tuning as well.',
  cases: [
    ...(
      [
        ['torque', atTorque],
        ['power', atPower],
      ] as const
    ).flatMap(([peak, point]) =>
      ends({
        what: `share of the fuel's energy to cylinder walls and rubbing at the ${peak} peak`,
        low: 15,
        high: 30,
        unit: '%',
        decimals: 1,
        cause: COOL_WALLS,
        compute: () => heatShare(point()),
      }),
    ),
    ...(
      [
        ['torque', atTorque],
        ['power', atPower],
      ] as const
    ).flatMap(([peak, point]) =>
      ends({
        what: `indicated efficiency over that of the fuel-air cycle at the ${peak} peak`,
        low: 0.8,
        high: 0.9,
        unit: '',
        decimals: 3,
        compute: () => overFuelAir(point()),
      }),
    ),
    ...(
      [
        ['torque', atTorque],
        ['power', atPower],
      ] as const
    ).flatMap(([peak, point]) =>
      ends({
        what: `brake specific fuel consumption of an eight on gasoline at the ${peak} peak`,
        low: 0.45,
        high: 0.5,
        unit: 'lb/(hp h)',
        decimals: 3,
        cause:
          'the best-power mixture of the file is richer than what such figures are usually measured at near the power peak, where pumping and friction weigh most',
        compute: () => point().bsfcGPerKwh / GRAMS_PER_POUND_HP_HOUR,
      }),
    ),
    ...ends({
      what: 'brake specific fuel consumption at full throttle, least of the curve',
      low: 280,
      high: 330,
      unit: 'g/kWh',
      decimals: 0,
      compute: () => Math.min(...first().points.map((p) => p.bsfcGPerKwh)),
    }),
    ...ends({
      what: 'brake specific fuel consumption of a race engine, least of the curve, example club-racer',
      low: 0.4,
      high: 0.43,
      unit: 'lb/(hp h)',
      decimals: 3,
      compute: () =>
        Math.min(
          ...pointsOf(engineFile('examples/club-racer/engine.yaml'), [5000, 5500, 6000]).map(
            (p) => p.bsfcGPerKwh,
          ),
        ) / GRAMS_PER_POUND_HP_HOUR,
    }),
    ...(
      [
        ['first', first],
        ['second', second],
      ] as const
    ).flatMap(([state, curve]) =>
      ends({
        what: `brake mean effective pressure at the power peak over the most, ${state} state`,
        low: 0.85,
        high: 0.9,
        unit: '',
        decimals: 3,
        cause:
          'the forecast torque of both states is flatter than the measured one, of which this is 0.88 and 0.86; behind mufflers the power hardly changes over 800 rpm, so that a little moves the speed of its peak far',
        compute: () => {
          const { points, peak } = curve();
          return nearest(curve(), peak.power.rpm).bmepBar / Math.max(...points.map((p) => p.bmepBar));
        },
      }),
    ),
    ...SPEEDS.flatMap((rpm, i) => [
      ...ends({
        what: `angle of peak pressure at best torque, example tow-truck, ${rpm} rpm`,
        low: 5,
        high: 15,
        unit: 'deg',
        decimals: 1,
        cause:
          'at low speed the fast burn of the chamber and the search for best torque leave the top of pressure late; the source gives its band for engines in general',
        compute: () => timed()[i].peakPressureDegAtdc,
      }),
      ...ends({
        what: `angle of half the charge burned at best torque, example tow-truck, ${rpm} rpm`,
        low: 8,
        high: 10,
        unit: 'deg',
        decimals: 1,
        cause:
          'wall heat and peak-pressure friction are what pushes best torque past 5 deg; the less heat the walls take, the earlier it lies',
        compute: () => timed()[i].ca50DegAtdc,
      }),
    ]),
    ...ends({
      what: 'exponent of the 10 to 90 % burn angle on speed, example tow-truck, 2500 to 5500 rpm',
      low: 0.2,
      high: 0.4,
      unit: '',
      decimals: 2,
      cause:
        'the main burn goes with the cube root of speed; less residual and a hotter, denser charge at speed take part of that back here',
      compute: () =>
        Math.log(timed()[2].burnDurationDeg / timed()[0].burnDurationDeg) / Math.log(5500 / 2500),
    }),
    ...FILLED.map(
      (filled): PublishedCase => ({
        what: `exponent of volumetric efficiency on air temperature, ${filled.engine}, median from ${filled.from} to ${filled.to} rpm`,
        value: 0.5,
        unit: '',
        decimals: 2,
        within: 0.05,
        aim: true,
        cause: 'evaporating fuel cools by the same amount whatever the air, which makes the exponent smaller',
        compute: () => fillingByTemperature(filled),
      }),
    ),
  ],
};
