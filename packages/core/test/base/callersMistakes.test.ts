/** A caller's mistake is an error that names the argument, what was expected and what came; NaN is no way round it. */
import { describe, expect, it } from 'vitest';
import { type DynoSheet, readDynoSheet } from '../../src/dyno/dynoSheet.ts';
import { mergeSheets } from '../../src/dyno/mergeSheets.ts';
import { readPressureSheet } from '../../src/dyno/pressureSheet.ts';
import { comparePulls } from '../../src/dyno/pullComparison.ts';
import { pullMean } from '../../src/dyno/pullMean.ts';
import type { Pull } from '../../src/dyno/readPull.ts';
import { checkSpeeds } from '../../src/forecast/checkSpeeds.ts';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { compressedTemperature } from '../../src/gas/compress.ts';
import { freshGas } from '../../src/gas/freshGas.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { flowArea } from '../../src/geometry/flowArea.ts';
import { flowDoubts } from '../../src/geometry/flowDoubts.ts';
import { completeCard } from '../../src/geometry/lobeCard.ts';
import { inletMachIndex } from '../../src/geometry/meanArea.ts';
import { sliderCrank } from '../../src/geometry/sliderCrank.ts';
import { linearTable } from '../../src/numerics/interpolate.ts';
import { findRoot } from '../../src/numerics/root.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { studyBasis } from '../../src/studies/studyOptions.ts';
import { bigBlock } from '../support/bigBlock.ts';

const FUEL = fuelNamed('pump-93');
const tables = () => buildGasTables({ fuel: FUEL, lambda: 0.88, pressure: 1e5, vapourPressure: 0 });
const FLOW = { lift: [0.005, 0.01], area: [4e-4, 7e-4] };
/** What JavaScript lets through where types say text. */
const noText = 5 as unknown as string;

function sheetAt(name: string, ...speeds: readonly number[]): DynoSheet {
  const points = speeds.map((rpm) => ({
    rpm,
    torqueNm: 400,
    powerKw: (400 * rpm * Math.PI) / 30_000,
    channels: {},
  }));
  const pulls: readonly Pull[] = [{ name: '1', weather: null, points }];
  return { name, title: null, standard: 'J607', units: 'trade', pulls, ignored: [], notes: [] };
}

const MISTAKES: readonly (readonly [what: string, call: () => unknown, says: string])[] = [
  ['no pulls', () => pullMean([]), 'pulls must be one pull or more'],
  ['no sheets', () => mergeSheets([]), 'sheets must be one dyno sheet or more'],
  [
    'sheets of other speeds',
    () => comparePulls(sheetAt('a', 3000, 3500), sheetAt('b', 5000, 5500)),
    'sheets must be a sheet with speeds in common with a',
  ],
  [
    'no text for a sheet',
    () => readDynoSheet(noText, { name: 'a' }),
    'text must be the text of a file, read as UTF-8',
  ],
  [
    'no text for pressures',
    () => readPressureSheet(noText, { name: 'a' }),
    'text must be the text of a file, read as UTF-8',
  ],
  ['no text for a file', () => readDocument(noText), 'text must be the text of a file, read as UTF-8'],
  ['no speeds', () => checkSpeeds([]), 'rpm must be one speed or more'],
  ['speeds that fall', () => checkSpeeds([4000, 3000]), 'rpm[1] must be above 4000'],
  ['a speed of no engine', () => checkSpeeds([Number.NaN]), 'rpm[0] must be in [100, 30000] 1/min'],
  [
    'speeds that are text, as out of an address',
    () => checkSpeeds(JSON.parse('["4000", "5000"]')),
    'rpm[0] must be a number of 1/min, got a string',
  ],
  ['a study of a speed of no engine', () => studyBasis({ rpm: [50] }, bigBlock()), 'in [100, 30000] 1/min'],
  ['a study of no speeds', () => studyBasis({ rpm: [] }, bigBlock()), 'rpm must be one speed or more'],
  [
    'a study of falling speeds',
    () => studyBasis({ rpm: [4000, 4000] }, bigBlock()),
    'rpm[1] must be above 4000',
  ],
  ['gas below nothing', () => compressedTemperature(tables(), -1, 0, 8), 'T must be positive K'],
  ['a ratio of nothing', () => compressedTemperature(tables(), 300, 0, 0), 'ratio must be positive'],
  ['more vapour than fuel', () => freshGas(FUEL, 0.9, 1e5, 0, 1.1), 'vapourShare must be in [0, 1]'],
  [
    'areas short of lifts',
    () => flowArea({ lift: [0.005, 0.01], area: [4e-4] }),
    'area must be as many entries as lift, 2',
  ],
  ['a valve without size', () => flowDoubts(FLOW, 0, 1, null), 'valveDiameter must be positive m'],
  ['no valve', () => flowDoubts(FLOW, 0.05, 0, null), 'valves must be at least 1'],
  [
    'a lobe without lift',
    () => completeCard([{ duration: 230, lift: 1e-3 }], 0, 'flat'),
    'maxLift must be positive m',
  ],
  [
    'a card without lines',
    () => completeCard([], 0.01, 'flat'),
    'points must be at least one line of the card',
  ],
  ['no area', () => inletMachIndex(1e-2, 20, 0, 340), 'meanArea must be positive m2'],
  ['no sound', () => inletMachIndex(1e-2, 20, 1e-3, Number.NaN), 'soundSpeed must be positive m/s'],
  ['no stroke', () => sliderCrank(0.1, 0, 0.15, 1e-4), 'stroke must be positive m'],
  [
    'a tolerance below nothing',
    () => findRoot(Math.sin, -1, 2, { tolerance: -1 }),
    'tolerance must be zero or positive',
  ],
  [
    'one look for a root',
    () => findRoot(Math.sin, -1, 2, { maxEvaluations: 1 }),
    'maxEvaluations must be at least 2',
  ],
  ['a slope at no place', () => linearTable([0, 1], [0, 1]).derivativeAt(Number.NaN), 'x must be in [0, 1]'],
  [
    'a slope beyond a table',
    () => linearTable([0, 1], [0, 1], 'throw').derivativeAt(2),
    'x must be in [0, 1]',
  ],
];

describe("a caller's mistake", () => {
  it.each(MISTAKES)('is told: %s', (_what, call, says) => {
    expect(call).toThrow(says);
  });
});
