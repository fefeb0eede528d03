/** What the benchmarks take of the built library, past its door: they time parts that nobody else can reach. */

export * from '@valvetide/core';
export { marchDegrees } from '../../packages/core/dist/cycle/march.js';
export { createSimulation } from '../../packages/core/dist/forecast/simulation.js';
export { buildGasTables } from '../../packages/core/dist/gas/buildGasTables.js';
export { fuelNamed } from '../../packages/core/dist/gas/fuels.js';
export { fillDuct } from '../../packages/core/dist/network/duct.js';
export {
  createNetwork,
  decode,
  ratesOfDecoded,
} from '../../packages/core/dist/network/network.js';
export { createStepper, RK4, SSP2_FOUR, step } from '../../packages/core/dist/numerics/rungeKutta.js';
