import { describe, expect, it } from 'vitest';
import { NOTE_BEYOND } from '../../core/src/forecast/weatherCorrection.ts';
import { CORE } from '../src/core.ts';
import { main } from '../src/main.ts';
import { NOTED_BEYOND } from '../src/render/forecastText.ts';
import { marched } from '../src/render/marched.ts';
import {
  SHOWN,
  toCubicInch,
  toFeetPerMinute,
  toInch,
  toInHg,
  toLitrePerSecond,
  toPsi,
  toSquareInch,
} from '../src/render/units.ts';
import { world } from './fakeIo.ts';

const TEXT = `
name: any
engine: { cylinders: 4, bore: 86 mm, stroke: 86 mm }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
burn: { ca50: 8 deg }
`;

describe('units: si in a file', () => {
  const files = { 'engine.yaml': `${TEXT}units: si\n` };

  it('shows inspect in SI without a switch, cfm and horsepower of the rules included', async () => {
    const w = world({ files });
    expect(await main(['inspect', 'engine.yaml'], w.io, CORE)).toBe(0);
    const [figures] = w.out().split('Assumed, because');
    expect(figures).toMatch(/\d l\/s at 6\.97 kPa and full lift/);
    expect(figures).toContain('1.27 mm of lobe lift');
    // The words of a rule are the trade's; its figures are not.
    expect(figures.replace(/^ {2}.*(cfm|lb-ft|in3).*$/gmu, '')).not.toMatch(
      /\b(hp|cfm|inH2O|inHg|lb-ft|ft\/min|in2)\b/,
    );
    for (const line of w.out().split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
  });

  it('gives way to --units, and moves no forecast', async () => {
    const w = world({ files });
    await main(['inspect', 'engine.yaml', '--units', 'trade'], w.io, CORE);
    expect(w.out()).toContain('cfm at 28 inH2O');
    const [si, plain] = [`${TEXT}units: si\n`, TEXT].map((text) => {
      const read = CORE.readCombination(text);
      return read.ok ? CORE.forecast(read.value, { rpm: [3000] }).points : [];
    });
    expect(si).toEqual(plain);
  });
});

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
    // A cubic foot is 28.316846592 l.
    expect(toLitrePerSecond(60)).toBeCloseTo(28.316846592, 9);
    expect(toInch(25.4)).toBe(1);
    expect(toSquareInch(645.16)).toBeCloseTo(1, 14);
    expect(toCubicInch(16.387064)).toBeCloseTo(1, 14);
    // 0.45359237 kg x 9.80665 m/s2 over 645.16 mm2.
    expect(toPsi(0.45359237 * 9.80665 * (1e6 / 645.16) * 1e-5)).toBeCloseTo(1, 12);
    expect(toFeetPerMinute(0.3048)).toBeCloseTo(60, 12);
  });
});
