/** Every source whose figures take seconds at most. */
import { flameSpeedCases, heatReleaseCases, knockCases, ottoCases, wiebeCases } from './cases/burnCases.ts';
import { equilibriumCases, flameCases, fuelAirCycleCases } from './cases/gasCases.ts';
import { frictionCases, wallHeatCases } from './cases/lossCases.ts';
import { nozzleCases, vesselCases } from './cases/nozzleCases.ts';
import { benchCases, compressionCases, weatherCases } from './cases/sheetCases.ts';
import { noteCases, oneDimensionalCases } from './cases/waveCases.ts';
import type { PublishedSource } from './publishedCase.ts';

export const QUICK_SOURCES: readonly PublishedSource[] = [
  nozzleCases,
  vesselCases,
  benchCases,
  compressionCases,
  weatherCases,
  equilibriumCases,
  flameCases,
  fuelAirCycleCases,
  ottoCases,
  heatReleaseCases,
  wiebeCases,
  flameSpeedCases,
  knockCases,
  wallHeatCases,
  frictionCases,
  noteCases,
  oneDimensionalCases,
];
