/** Figures of a forecast that no engine shows: the program computed them, and says that it doubts them. */

import { BAR } from '../base/constants.ts';
import type { Combination, Warning } from '../combination/combination.ts';
import { sweptVolume } from '../geometry/sliderCrank.ts';
import type { MarchedPoint } from './curve.ts';

/** Wall heat over fuel energy beyond which nothing an engine does explains it [-]; usual at full throttle: 0.12 to 0.35. */
const MOST_WALL_HEAT = 0.6;
/** Burned share of the charge beyond which no flame runs through it [-]; misfires begin at 0.3, from memory. */
const MOST_RESIDUAL = 0.5;
/** Filling of an engine that breathes by itself [-]: the best tuned race engines reach 1.3, from memory. */
const FILLING = { min: 0.1, max: 1.4 } as const;
/** Peak pressure beyond what parts of such engines bear [bar]: race engines reach 110, from memory. */
const MOST_PRESSURE = 150;
/** Temperatures of gas that the tables hold, and that a flow past a valve can have [K]. */
const FLOW_TEMPERATURE = { min: 200, max: 3500 } as const;
/** Ratio of specific heats of cold air [-]: no working gas has more, so that no engine turns more of its heat into work. */
const GAMMA = 1.4;

interface Odd {
  readonly code: string;
  readonly is: (point: MarchedPoint) => boolean;
  readonly message: (rpm: string) => string;
}

const outside = (value: number, { min, max }: { min: number; max: number }): boolean =>
  !(value >= min && value <= max);

const ODD: readonly Odd[] = [
  {
    code: 'wall-heat-high',
    is: (p) => p.heatLossFraction > MOST_WALL_HEAT,
    message: (rpm) =>
      `the walls take more than 60 % of the fuel's heat at ${rpm} rpm: no engine loses so much`,
  },
  {
    code: 'residual-high',
    is: (p) => p.residualFraction > MOST_RESIDUAL,
    message: (rpm) => `more than half of the charge is burned gas at ${rpm} rpm: an engine misfires there`,
  },
  {
    code: 'filling-odd',
    is: (p) => outside(p.volumetricEfficiency, FILLING),
    message: (rpm) =>
      `filling is below 10 % or above 140 % at ${rpm} rpm: no engine without a blower runs there`,
  },
  {
    code: 'peak-pressure',
    is: (p) => p.peakPressureBar > MOST_PRESSURE,
    message: (rpm) => `cylinder pressure passes ${MOST_PRESSURE} bar at ${rpm} rpm: no part stands that`,
  },
  {
    code: 'flow-temperature',
    is: (p) =>
      outside(p.chargeTemperatureK, FLOW_TEMPERATURE) || outside(p.exhaustTemperatureK, FLOW_TEMPERATURE),
    message: (rpm) =>
      `almost as much gas flows back past a valve as through it at ${rpm} rpm: its mean temperature says nothing`,
  },
];

/** Work of the gas, pumping included, over the fuel's heat [-]. */
export function indicatedEfficiency({ block, fuel }: Combination, point: MarchedPoint): number {
  const displacement = sweptVolume(block) * block.cylinders;
  const work = (point.imepBar + point.pmepBar) * BAR * displacement;
  const perCycle = point.fuelKgPerH / 3600 / (point.rpm / 120);
  return work / (perCycle * fuel.lowerHeatingValue);
}

/** What figures of marched points are beyond any engine, each with its speeds. */
export function oddFigures(combination: Combination, points: readonly MarchedPoint[]): Warning[] {
  const ideal = 1 - combination.chamber.compressionRatio ** (1 - GAMMA);
  const tooGood: Odd = {
    code: 'efficiency-high',
    is: (p) => indicatedEfficiency(combination, p) > ideal,
    message: (rpm) =>
      `the gas turns more of the fuel's heat into work at ${rpm} rpm than the ideal cycle of this compression ratio`,
  };
  return [...ODD, tooGood].flatMap(({ code, is, message }) => {
    const rpm = points.filter(is).map((point) => point.rpm);
    return rpm.length === 0 ? [] : [{ code, path: '', message: message(rpm.join(', ')) }];
  });
}
