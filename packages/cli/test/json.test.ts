import { describe, expect, it } from 'vitest';
import { curveCsv } from '../src/render/curveCsv.ts';
import { curveJson, json } from '../src/render/json.ts';
import { lostPoint, sampleCurve, samplePoint } from './sampleCurve.ts';

/** What programs that read the output may rely on. */
const PROMISED = [
  'rpm',
  'torqueNm',
  'powerKw',
  'torqueLbFt',
  'powerHp',
  'volumetricEfficiency',
  'imepBar',
  'pmepBar',
  'fmepBar',
  'bmepBar',
  'peakPressureBar',
  'manifoldPressureKpa',
  'residualFraction',
  'bsfcGPerKwh',
  'airflowKgPerH',
  'ca50DegAtdc',
  'meanPistonSpeedMs',
  'inletMachIndex',
  'status',
  'cycles',
  'massClosure',
  'energyClosure',
];

describe('curveJson(curve)', () => {
  it('has every promised key, at the top and in each point', () => {
    const result = JSON.parse(curveJson(sampleCurve([3000, 4000])));
    expect(Object.keys(result)).toEqual([
      'schemaVersion',
      'program',
      'command',
      'complete',
      'combination',
      'fidelity',
      'correction',
      'points',
      'peak',
      'assumed',
      'warnings',
    ]);
    expect(result.schemaVersion).toBe(1);
    expect(result.correction.standard).toBe('J607');
    expect(result.points).toHaveLength(2);
    for (const point of result.points) {
      for (const key of PROMISED) {
        expect(typeof point[key], key).toBe(key === 'status' ? 'string' : 'number');
      }
    }
    expect(Object.keys(result.peak)).toEqual(['torque', 'power']);
    expect(result.peak.torque).toMatchObject({ rpm: 4000 });
    expect(Object.keys(result.assumed[0])).toEqual(['path', 'value', 'unit', 'spread', 'reason']);
  });

  it('gives a lost speed its reason and no figure', () => {
    const curve = sampleCurve([3000, 4000], { points: [samplePoint(3000), lostPoint(4000)] });
    const [, lost] = JSON.parse(curveJson(curve)).points;
    expect(Object.keys(lost)).toEqual([
      'rpm',
      'status',
      'meanPistonSpeedMs',
      'inletMachIndex',
      'cycles',
      'code',
      'reason',
    ]);
    expect(lost).toMatchObject({ rpm: 4000, status: 'lost', reason: 'gas too fast to follow' });
    expect(JSON.parse(curveJson({ ...curve, peak: null })).peak).toBe(null);
  });

  it('carries every value of the curve unrounded', () => {
    const curve = sampleCurve([3000, 4000]);
    expect(JSON.parse(curveJson(curve))).toEqual({ ...curve, command: 'forecast' });
  });

  it('has the same key order whatever the order inside the curve', () => {
    const curve = sampleCurve([3000, 4000]);
    const reversed = Object.fromEntries(
      Object.entries(curve.points[0]).reverse(),
    ) as (typeof curve.points)[0];
    expect(curveJson({ ...curve, points: [reversed, curve.points[1]] })).toBe(curveJson(curve));
  });

  it('escapes what a terminal would obey', () => {
    const text = curveJson(sampleCurve([3000], { combination: '\u001b[31mred\u009b2J\u202ereversed' }));
    expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    expect(JSON.parse(text).combination).toBe('\u001b[31mred\u009b2J\u202ereversed');
  });
});

describe('json(value)', () => {
  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    'refuses %d and says where it is',
    (bad) => {
      expect(() => json({ points: [{ rpm: 1 }, { rpm: bad }] })).toThrow('result points[1].rpm');
    },
  );

  it('refuses a missing value instead of leaving the key out', () => {
    expect(() => json({ a: { b: undefined } })).toThrow('result a.b is missing');
  });
});

describe('curveCsv(curve)', () => {
  it('has one header line, one line a speed, CRLF ends and equal counts of fields', () => {
    const text = curveCsv(sampleCurve([3000, 4000, 5000]));
    expect(text.endsWith('\r\n')).toBe(true);
    const lines = text.slice(0, -2).split('\r\n');
    expect(lines).toHaveLength(4);
    expect(new Set(lines.map((line) => line.split(',').length)).size).toBe(1);
    expect(lines[0]).toMatch(/^rpm,status,torqueNm,powerKw,/);
    for (const key of PROMISED) expect(lines[0].split(',')).toContain(key);
  });

  it('leaves the figures of a lost speed empty, and says why', () => {
    const [header, , line] = curveCsv(
      sampleCurve([3000, 4000], { points: [samplePoint(3000), lostPoint(4000)] }),
    ).split('\r\n');
    const cell = (name: string): string => line.split(',')[header.split(',').indexOf(name)];
    expect([cell('rpm'), cell('status'), cell('torqueNm'), cell('detonates'), cell('reason')]).toEqual([
      '4000',
      'lost',
      '',
      '',
      'gas too fast to follow',
    ]);
  });

  it('names the correction standard on every line', () => {
    const lines = curveCsv(sampleCurve([3000, 4000]))
      .trim()
      .split('\r\n');
    expect(lines[0]).toContain('correctionStandard');
    expect(lines[1]).toContain(',representative,J607,1.0123');
    expect(lines[2]).toContain(',representative,J607,1.0123');
  });
});
