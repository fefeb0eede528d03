import type { Curve, CylinderFigures } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { answerLine } from '../src/render/answerLine.ts';
import { cylindersLine } from '../src/render/cylindersText.ts';
import { world } from './fakeIo.ts';
import { fakeCore, sampleCurve, samplePoint } from './sampleCurve.ts';

const cylinder = (number: number, change: Partial<CylinderFigures> = {}): CylinderFigures => ({
  cylinder: number,
  torqueNm: 100,
  volumetricEfficiency: 0.9,
  imepBar: 12,
  pmepBar: -0.3,
  peakPressureBar: 60,
  residualFraction: 0.04,
  exhaustTemperatureK: 1000,
  octaneRequired: 88,
  lambda: 0.87,
  compressionRatio: 10,
  ...change,
});
const SPEEDS = [4000, 5000, 6000];
const curveOf = (...cylinders: readonly CylinderFigures[]): Curve =>
  sampleCurve(SPEEDS, { points: SPEEDS.map((rpm) => samplePoint(rpm, { cylinders })) });
/** A curve with these peaks [N m, kW]. */
const peaking = (torqueNm: number, powerKw: number): Curve =>
  sampleCurve([5000], {
    peak: { torque: { rpm: 5000, torqueNm, torqueLbFt: 0 }, power: { rpm: 5000, powerKw, powerHp: 0 } },
  });

describe('the line on cylinders', () => {
  it('says how far they are apart, and which decides the spark', () => {
    const line = cylindersLine(
      curveOf(cylinder(1), cylinder(2, { torqueNm: 97, octaneRequired: 90.2 })),
      'si',
    );
    expect(line).toMatch(/^Cylinders at 6000 rpm, least to most: torque 97\.0 to 100\.0 Nm, /);
    expect(line).toContain('octane needed 88.0 to 90.2, most by cylinder 2, which decides the spark');
  });

  it('names none where they do the same, to the digits that are shown', () => {
    const line = cylindersLine(curveOf(cylinder(1), cylinder(2, { torqueNm: 100.02 })), 'si');
    expect(line).toBe('All cylinders do the same at 6000 rpm.');
  });
});

describe('speeds at which one cylinder could not stand for the others', () => {
  const message = 'at 4000 rpm one cylinder could not stand for the others, so every cylinder was computed';
  const warnings = [{ code: 'every-cylinder-marched', path: '', message }];
  const core = fakeCore({ forecastOn: async () => ({ ...sampleCurve([4000]), warnings }) });

  it('stand with the basis, and are nothing that --strict fails on', async () => {
    const w = world({ files: { 'engine.yaml': 'engine: {}\n' } });
    const words = ['forecast', 'engine.yaml', '--rpm', '4000', '--quick', '--strict'];
    expect(await main(words, w.io, core)).toBe(EXIT.ok);
    expect(w.out().replace(/\s+/g, ' ')).toContain(
      'At 4000 rpm one cylinder could not stand for the others,',
    );
    expect(w.out() + w.err()).not.toContain('warning');
  });
});

describe('the peaks of a small engine', () => {
  it('have a tenth, those of a large one none', () => {
    expect(answerLine(peaking(43.21, 17.06), 'si')).toContain(
      'Peak 43.2 Nm at 5000 rpm, 17.1 kW at 5000 rpm',
    );
    expect(answerLine(peaking(432.1, 99.97), 'si')).toContain('Peak 432 Nm at 5000 rpm, 100 kW at 5000 rpm');
  });
});
