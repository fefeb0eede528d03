/** Air of the day from what a dyno sheet says of it. */

import type { Weather } from '../combination/running.ts';
import { saturationPressure, vapourPressureOf } from '../gas/air.ts';
import type { DynoMeta } from './dynoMeta.ts';

/** Share of water vapour where a sheet is silent: a middling day; 20 points of it are worth about half a percent. */
export const ASSUMED_HUMIDITY = 0.4;

/** Air of a dyno room worth believing [kPa], [K], [-]. */
const AIR: readonly (readonly [keyof DynoMeta, string, number, number])[] = [
  ['barometer', 'barometer', 50, 110],
  ['temperature', 'air temperature', 235, 330],
  ['vapourPressure', 'vapour pressure', 0, 12],
  ['humidity', 'humidity', 0, 1],
  ['dewPoint', 'dew point', 235, 330],
];

/** The figure that no dyno room has; null where all are believable. */
export function impossibleAir(meta: DynoMeta): string | null {
  const found = AIR.find(([field, , low, high]) => {
    const value = meta[field];
    return typeof value === 'number' && !(value >= low && value <= high);
  });
  return found?.[1] ?? null;
}

/** What is told of the air where too little is for a weather; null where nothing is, or all there is to know. */
export function partOfAir({
  barometer,
  temperature,
  vapourPressure,
  humidity,
  dewPoint,
}: DynoMeta): string | null {
  if (barometer !== null && temperature !== null) return null;
  if ([barometer, temperature, vapourPressure, humidity, dewPoint].every((value) => value === null))
    return null;
  const lacks = [barometer === null ? 'barometer' : '', temperature === null ? 'air temperature' : ''];
  return `gives the air of the day in part: no ${lacks.filter((name) => name !== '').join(' and no ')} with its unit, so that none of it is used`;
}

/** Air of the day, with what had to be taken for granted; null where barometer or temperature is missing or no figure of a room. */
export function weatherOf(
  meta: DynoMeta,
): { readonly weather: Weather; readonly note: string | null } | null {
  const { barometer, temperature, vapourPressure, humidity, dewPoint } = meta;
  if (barometer === null || temperature === null || impossibleAir(meta) !== null) return null;
  const pressure = barometer * 1000;
  const moist = (vapour: number): Weather => ({ pressure, temperature, vapourPressure: vapour });
  if (vapourPressure !== null) return { weather: moist(vapourPressure * 1000), note: null };
  if (dewPoint !== null) return { weather: moist(saturationPressure(dewPoint, pressure)), note: null };
  if (humidity !== null)
    return { weather: moist(vapourPressureOf(humidity, temperature, pressure)), note: null };
  return {
    weather: moist(vapourPressureOf(ASSUMED_HUMIDITY, temperature, pressure)),
    note: 'says nothing of humidity: 40 % assumed',
  };
}
