/** A curve whose cam and mixture go with speed is at each speed the curve of the engine as it stands there. */
import { describe, expect, it } from 'vitest';
import { readCombination } from '../../src/reading/readCombination.ts';
import { wholeForecast } from './wholeForecast.ts';

/** Cells are not what is tried here. */
const COARSE = { intakeCell: 0.08, exhaustCell: 0.12, fewest: 2 };
const RPM = [2500, 8500];
const single = (cam: string, mixture: string) => {
  const read = readCombination(
    `engine: { bore: 88 mm, stroke: 66 mm, cylinders: 1 }\nchamber: { compression: 9 }\nheads: { valvesPerCylinder: 4 }\ninduction: { manifold: long-runner }\nexhaust: { primary: { length: 34 in } }\ncam: { intake: { at050: 244 deg, lobeLift: 9 mm, centreline: ${cam} }, exhaust: { at050: 240 deg, lobeLift: 9 mm, centreline: 110 deg } }\nmixture: { lambda: ${mixture} }\n`,
  );
  if (!read.ok) throw new Error('the engine does not read');
  return wholeForecast(read.value, { rpm: RPM, mesh: COARSE });
};

describe('a forecast by speed', () => {
  it('is that of the fixed engine at each speed, and takes the better of both', () => {
    const early = single('98 deg', '0.95');
    const late = single('114 deg', '0.86');
    const both = single('{ 2500 rpm: 98 deg, 8500 rpm: 114 deg }', '{ 2500 rpm: 0.95, 8500 rpm: 0.86 }');
    expect(both.points[0].torqueNm).toBeCloseTo(early.points[0].torqueNm, 9);
    expect(both.points[1].torqueNm).toBeCloseTo(late.points[1].torqueNm, 9);
    expect(both.points[0].fuelKgPerH).toBeCloseTo(early.points[0].fuelKgPerH, 9);
    // An intake that closes late gives low speed away and gains at high.
    expect(early.points[0].volumetricEfficiency).toBeGreaterThan(late.points[0].volumetricEfficiency);
    expect(early.points[1].volumetricEfficiency).toBeLessThan(late.points[1].volumetricEfficiency);
  });
});
