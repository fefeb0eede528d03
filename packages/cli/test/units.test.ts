import { describe, expect, it } from 'vitest';
import { NOTE_BEYOND } from '../../core/src/forecast/weatherCorrection.ts';
import { CORE } from '../src/core.ts';
import { NOTED_BEYOND } from '../src/render/forecastText.ts';
import { marched } from '../src/render/marched.ts';
import {
  SHOWN,
  toCubicInch,
  toFeetPerMinute,
  toInch,
  toInHg,
  toPsi,
  toSquareInch,
} from '../src/render/units.ts';

const TEXT = `
name: any
engine: { cylinders: 4, bore: 86 mm, stroke: 86 mm }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
burn: { ca50: 8 deg }
`;

describe('the note on a large correction', () => {
  it("begins where the library's does", () => expect(NOTED_BEYOND).toBe(NOTE_BEYOND));
});

describe('trade units on the command line', () => {
  it("are the library's, where its results carry both", () => {
    const read = CORE.readCombination(TEXT, { file: 'engine.yaml', sheet: () => undefined });
    if (!read.ok) throw new Error('the engine must be sound');
    const { weather } = read.value;
    const [point] = marched(CORE.forecast(read.value, { rpm: [3000] }).points);
    expect(SHOWN.trade.torque(point.torqueNm)).toBeCloseTo(point.torqueLbFt, 10);
    expect(SHOWN.trade.power(point.powerKw)).toBeCloseTo(point.powerHp, 10);
    expect(toInHg(weather.pressure / 1000 - point.manifoldPressureKpa)).toBeCloseTo(
      point.manifoldVacuumInHg,
      10,
    );
  });

  it('are exact by definition: inch, pound-force per square inch, foot', () => {
    expect(toInch(25.4)).toBe(1);
    expect(toSquareInch(645.16)).toBeCloseTo(1, 14);
    expect(toCubicInch(16.387064)).toBeCloseTo(1, 14);
    // 0.45359237 kg x 9.80665 m/s2 over 645.16 mm2.
    expect(toPsi(0.45359237 * 9.80665 * (1e6 / 645.16) * 1e-5)).toBeCloseTo(1, 12);
    expect(toFeetPerMinute(0.3048)).toBeCloseTo(60, 12);
  });
});
