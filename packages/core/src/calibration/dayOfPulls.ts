/** The air that the mean of some pulls stands for. */

import type { CorrectionStandard, Weather } from '../combination/running.ts';
import type { Pull } from '../dyno/readPull.ts';
import { airOfPull } from '../dyno/recorrectSheet.ts';
import { brakeFactorIn } from '../forecast/weatherCorrection.ts';

/**
 * Air to forecast the mean of pulls in, and the factor from there to their printed figures.
 *
 * It is the mean of the pulls' own airs: torque and factor are so nearly straight over the weather of a dyno room that the
 * mean of forecasts in each air is the forecast in the mean air (within 0.05 % for 4 % between the days). A pull without
 * weather stands in the reference air of its standard; observed figures without weather in the air of the others.
 */
export function dayOf(
  pulls: readonly Pull[],
  standard: CorrectionStandard,
): { readonly weather: Weather | null; readonly factor: number } {
  const none: Pull = { name: '', weather: null, points: [] };
  const airs = (pulls.length > 0 ? pulls : [none]).flatMap((pull) => airOfPull(pull, standard) ?? []);
  if (airs.length === 0) return { weather: null, factor: 1 };
  const mean = (key: keyof Weather): number => airs.reduce((sum, air) => sum + air[key], 0) / airs.length;
  const weather = {
    pressure: mean('pressure'),
    temperature: mean('temperature'),
    vapourPressure: mean('vapourPressure'),
  };
  return { weather, factor: brakeFactorIn(standard, weather) };
}
