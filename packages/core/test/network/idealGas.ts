/** Property tables of made-up gases, for checks that have closed forms. */
import type { GasTables } from '../../src/gas/gasTables.ts';

const T_MIN = 200;
const STEP = 5;
const COUNT = 661;

/** Fresh and burned gas of constant (or given) specific heats; burning a kilogram releases `heat` [J/kg] at 298.15 K. */
export function idealGas(options: {
  R: number;
  freshGamma: number;
  burnedGamma: number | ((T: number) => number);
  heat: number;
  fuelFraction?: number;
}): GasTables {
  const { R, freshGamma, burnedGamma, heat } = options;
  const gammaOf = typeof burnedGamma === 'number' ? () => burnedGamma : burnedGamma;
  const freshCv = R / (freshGamma - 1);
  const freshU = new Float64Array(COUNT);
  const burnedU = new Float64Array(COUNT);
  const freshS = new Float64Array(COUNT);
  const burnedS = new Float64Array(COUNT);
  const cvAt = (T: number) => R / (gammaOf(T) - 1);
  for (let i = 1; i < COUNT; i++) {
    const T = T_MIN + i * STEP;
    burnedU[i] = burnedU[i - 1] + STEP * cvAt(T - STEP / 2);
    burnedS[i] = burnedS[i - 1] + (cvAt(T - STEP / 2) + R) * Math.log(T / (T - STEP));
  }
  const k = (298.15 - T_MIN) / STEP;
  const at298 = burnedU[Math.floor(k)] + (k % 1) * (burnedU[Math.ceil(k)] - burnedU[Math.floor(k)]);
  for (let i = 0; i < COUNT; i++) {
    const T = T_MIN + i * STEP;
    freshU[i] = freshCv * (T - 298.15) + heat;
    freshS[i] = (freshCv + R) * Math.log(T / 298.15);
    burnedU[i] -= at298;
  }
  const top = T_MIN + STEP * (COUNT - 1);
  return {
    tMin: T_MIN,
    dT: STEP,
    count: COUNT,
    freshR: R,
    burnedR: R,
    freshU,
    burnedU,
    freshS,
    burnedS,
    freezeTemperature: top,
    equilibrium: {
      tMin: top,
      dT: STEP,
      temperatureCount: 2,
      lnPMin: Math.log(1e4),
      dLnP: 1,
      pressureCount: 2,
      u: new Float64Array(4).fill(burnedU[COUNT - 1]),
      R: new Float64Array(4).fill(R),
    },
    fuelFraction: options.fuelFraction ?? 0,
    dryAirFraction: 1 - (options.fuelFraction ?? 0),
    lowerHeatingValue: options.fuelFraction ? heat / options.fuelFraction : 0,
    latentHeat: 0,
  };
}
