import { describe, expect, it } from 'vitest';
import { airPressureText, areaText, depressionText, lengthText } from '../../src/combination/sizeText.ts';

/** Conventional inch of water and of mercury [Pa] (NIST SP 811, B.8). */
const INH2O = 249.0889;
const INHG = 3386.389;

describe('a size in a message', () => {
  it.each([
    [lengthText(0.0254 / 3, undefined), '0.3333 in'],
    [lengthText(0.0254 * 2, 'trade'), '2 in'],
    [lengthText(0.0254 / 3, 'si'), '8.467 mm'],
    [areaText(2.345678e-3, 'trade'), '3.64 in2'],
    [areaText(2.345678e-3, 'si'), '2350 mm2'],
    [depressionText(28 * INH2O, undefined), '28 inH2O'],
    [depressionText(25.37 * INH2O, 'trade'), '25.4 inH2O'],
    [depressionText(28 * INH2O, 'si'), '6.97 kPa'],
    [airPressureText(1.5 * INHG, 'trade'), '1.5 inHg'],
    [airPressureText(2.96 * INHG, 'trade'), '3 inHg'],
    [airPressureText(1.5 * INHG, 'si'), '5.08 kPa'],
  ])('is %s', (said, expected) => expect(said).toBe(expected));
});
