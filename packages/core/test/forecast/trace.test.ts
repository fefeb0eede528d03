import { beforeAll, describe, expect, it } from 'vitest';
import type { CycleTrace } from '../../src/forecast/trace.ts';
import { traceCycle } from '../../src/forecast/trace.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { wholeForecast } from './wholeForecast.ts';

const RPM = 5000;

describe('traceCycle(combination, rpm)', () => {
  let trace: CycleTrace;
  beforeAll(() => {
    trace = traceCycle(bigBlock(), RPM);
  });

  it('runs once around the cycle in rising angles of the cylinder', () => {
    const { angleDeg } = trace;
    expect(trace.status).toBe('settled');
    expect(angleDeg[0]).toBeLessThan(-350);
    expect(angleDeg[angleDeg.length - 1]).toBeGreaterThan(350);
    expect(angleDeg.every((angle, i) => i === 0 || angle > angleDeg[i - 1])).toBe(true);
    for (const list of [
      trace.volumeM3,
      trace.pressurePa,
      trace.temperatureK,
      trace.intakeLiftM,
      trace.exhaustLiftM,
    ])
      expect(list).toHaveLength(angleDeg.length);
  });

  it('goes from clearance to clearance plus swept volume', () => {
    // 540.75 in3 over eight cylinders, 11.3:1.
    const swept = (540.75 * 2.54 ** 3 * 1e-6) / 8;
    expect(Math.min(...trace.volumeM3) / (swept / 10.3)).toBeCloseTo(1, 3);
    expect(Math.max(...trace.volumeM3) / (swept * (1 + 1 / 10.3))).toBeCloseTo(1, 3);
  });

  it('encloses the indicated work that the forecast of the speed states, gas exchange included', () => {
    // A four: all of its cylinders breathe alike, so that one stands for the mean that a forecast states.
    const read = readCombination(
      'engine: { bore: 86 mm, stroke: 86 mm, cylinders: 4 }\nchamber: { compression: 9.5 }\nheads: { valvesPerCylinder: 2 }',
      { file: 'four.yaml' },
    );
    if (!read.ok) throw new Error('the file must be sound');
    const [point] = wholeForecast(read.value, { rpm: [RPM] }).points;
    const { volumeM3: V, pressurePa: p } = traceCycle(read.value, RPM);
    const n = V.length;
    let work = 0;
    for (let i = 0; i < n; i++) work += ((p[i] + p[(i + 1) % n]) / 2) * (V[(i + 1) % n] - V[i]);
    const mep = work / (Math.max(...V) - Math.min(...V)) / 1e5;
    // The trapezoids of steps of up to 3 degrees stand for the loop to about half a percent.
    expect(Math.abs(mep / (point.imepBar + point.pmepBar) - 1)).toBeLessThan(0.006);
    expect(Math.max(...p) / 1e5 / point.peakPressureBar).toBeCloseTo(1, 2);
  });

  it('has the exhaust valve open before and the intake valve after gas-exchange top centre', () => {
    const peakAngle = (lift: readonly number[]) => trace.angleDeg[lift.indexOf(Math.max(...lift))];
    // Centrelines of the card: 108 after, 116 before the top centre at 360 or -360.
    expect(Math.abs(peakAngle(trace.intakeLiftM) - (108 - 360))).toBeLessThan(3);
    expect(Math.abs(peakAngle(trace.exhaustLiftM) - (360 - 116))).toBeLessThan(3);
  });

  it('names a speed that is none', () => {
    expect(() => traceCycle(bigBlock(), Number.NaN)).toThrow('rpm must be in [100, 30000] 1/min, got NaN');
  });
});
