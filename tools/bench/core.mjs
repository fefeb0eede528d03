/** What the benchmarks take of the built library, past its door: they time parts that nobody else can reach. */

export * from '@valvetide/core';
export { marchDegrees } from '../../packages/core/dist/cycle/march.js';
export { createSimulation } from '../../packages/core/dist/forecast/simulation.js';
export { buildGasTables } from '../../packages/core/dist/gas/buildGasTables.js';
export { fuelNamed } from '../../packages/core/dist/gas/fuels.js';
export { cylinderGroup } from '../../packages/core/dist/network/cylinderGroup.js';
export { blockSize, createDuct, ductGroup, fillDuct } from '../../packages/core/dist/network/duct.js';
export { networkMemory } from '../../packages/core/dist/network/networkMemory.js';
export { createStepper, RK4, step } from '../../packages/core/dist/numerics/rungeKutta.js';
