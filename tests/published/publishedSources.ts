/** Every source, in the order of the validation report. */
import { bandCases } from './cases/bandCases.ts';
import { flameSpeedCases, heatReleaseCases, knockCases, ottoCases, wiebeCases } from './cases/burnCases.ts';
import { coolingCases } from './cases/coolingCases.ts';
import { coverageCases } from './cases/coverageCases.ts';
import { cycleCases } from './cases/cycleCases.ts';
import { calibratedCases, dynoCases, populationCases } from './cases/engineCases.ts';
import { equilibriumCases, flameCases, fuelAirCycleCases } from './cases/gasCases.ts';
import { handCases } from './cases/handCases.ts';
import { heatBalanceCases } from './cases/heatBalanceCases.ts';
import { largeEightCases } from './cases/largeEightCases.ts';
import { laterCases } from './cases/laterCases.ts';
import { frictionCases, frictionTrendCases, wallHeatCases } from './cases/lossCases.ts';
import { manifoldCases } from './cases/manifoldCases.ts';
import { motorcycleCases } from './cases/motorcycleCases.ts';
import { muffledCases } from './cases/muffledCases.ts';
import { nozzleCases, vesselCases } from './cases/nozzleCases.ts';
import { octaneCases } from './cases/octaneCases.ts';
import { ratingCases } from './cases/ratingCases.ts';
import { seriesCases } from './cases/seriesCases.ts';
import { benchCases, compressionCases, weatherCases } from './cases/sheetCases.ts';
import { standCases } from './cases/standCases.ts';
import { textbookCases } from './cases/textbookCases.ts';
import { fallOffCases, throatCases } from './cases/throatCases.ts';
import { trendCases } from './cases/trendCases.ts';
import { noteCases, oneDimensionalCases } from './cases/waveCases.ts';
import type { PublishedSource } from './publishedCase.ts';

/** Figures that take seconds at most. */
export const QUICK_SOURCES: readonly PublishedSource[] = [
  nozzleCases,
  vesselCases,
  throatCases,
  fallOffCases,
  benchCases,
  compressionCases,
  handCases,
  weatherCases,
  equilibriumCases,
  flameCases,
  fuelAirCycleCases,
  textbookCases,
  ottoCases,
  heatReleaseCases,
  wiebeCases,
  flameSpeedCases,
  knockCases,
  wallHeatCases,
  frictionCases,
  frictionTrendCases,
  noteCases,
  oneDimensionalCases,
];

/** Whole engines: minutes together. */
export const SLOW_SOURCES: readonly PublishedSource[] = [
  cycleCases,
  ratingCases,
  octaneCases,
  coolingCases,
  heatBalanceCases,
  trendCases,
  bandCases,
  dynoCases,
  muffledCases,
  seriesCases,
  calibratedCases,
  manifoldCases,
  largeEightCases,
  standCases,
  populationCases,
  laterCases,
  motorcycleCases,
  coverageCases,
];
