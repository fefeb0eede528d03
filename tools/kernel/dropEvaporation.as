// How fast drops of fuel evaporate, as packages/core/src/processes/dropEvaporation.ts has it.
import { get } from './columns';
import { log, logOfOneMore, pow } from './power';

/** Places in the block of a cylinder: of its fuel, and the diameter of its drops. */
@inline const LIQUID_R = 17;
@inline const LATENT_HEAT = 18;
@inline const BOILING_POINT = 19;
@inline const DIAMETER = 20;

@inline const GAS_R = 288.0;
@inline const FILM_CP = 1100.0;
@inline const PRANDTL = 0.7;
/** 0.3 Pr^(1/3). */
@inline const STIRRING = 0.2663712005227802;
@inline const MOST_STEPS = 12;
@inline const CLOSE = 1e-3;
@inline const COLDEST = 220.0;
@inline const PER_ATMOSPHERE = 1.0 / 101325.0;

/** Share of a cylinder's liquid that evaporates in a second [1/s]. */
export function dropRate(cylinder: usize, slip: f64, T: f64, p: f64, vapour: f64): f64 {
  if (!(T > COLDEST)) return 0;
  const latentHeat = get(cylinder, LATENT_HEAT);
  const boilingPoint = get(cylinder, BOILING_POINT);
  const diameter = get(cylinder, DIAMETER);
  const perBoiling = 1 / boilingPoint;
  const perRise = get(cylinder, LIQUID_R) / latentHeat;
  const heavy = GAS_R / get(cylinder, LIQUID_R);
  const there = vapour / (vapour + heavy * (1 - vapour));
  const dew = 1 / (perBoiling - perRise * log(there * p * PER_ATMOSPHERE));
  if (T <= boilingPoint && !(dew < T)) return 0;
  let Ts = 0.5 * (COLDEST + min(T, boilingPoint));
  for (let i = 0; i < MOST_STEPS; i++) {
    const B = (FILM_CP * (T - Ts)) / latentHeat;
    const surface = (vapour + B) / (1 + B);
    const share = surface / (surface + heavy * (1 - surface));
    const balanced = 1 / (perBoiling - perRise * log(share * p * PER_ATMOSPHERE));
    const slope = ((-FILM_CP / latentHeat) * (1 - vapour) * heavy * share) / (surface * surface * (1 + B) * (1 + B));
    const step = (balanced - Ts) / (1 - balanced * balanced * perRise * slope);
    Ts = max(COLDEST, min(boilingPoint, Ts + step < T ? Ts + step : 0.5 * (Ts + T)));
    if (abs(step) < CLOSE * (T - Ts)) break;
  }
  const B = (FILM_CP * (T - Ts)) / latentHeat;
  const film = 0.5 * (T + Ts);
  const k = 0.026 * pow(film / 300, 0.8);
  const reynolds = ((p / (GAS_R * film)) * slip * diameter * FILM_CP) / (PRANDTL * k);
  const stirred = 1 + STIRRING * sqrt(reynolds);
  return (12 * k * logOfOneMore(B) * stirred) / (FILM_CP * 750 * diameter * diameter);
}
