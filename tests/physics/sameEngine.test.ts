import { expect, it } from 'vitest';
import { engineFile, pointsOf } from './engines.ts';

const INCH = 0.0254;

/** The same value with every number that is not whole written in inches and read again: equal to some 4e-16. */
function throughInches<T>(value: T): T {
  if (typeof value === 'number')
    return (Number.isInteger(value) ? value : (value / INCH) * INCH * (1 + 3e-16)) as T;
  if (Array.isArray(value)) return value.map(throughInches) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, throughInches(inner)])) as T;
}

// One timed for best torque, one at the limit of knock, with lobes of a card and of a table.
it.each(['examples/tow-truck/engine.yaml', 'examples/club-racer/engine.yaml'])(
  'the same engine in inches and in millimetres makes the same torque to 1e-7: %s',
  (file) => {
    const engine = engineFile(file);
    const { fuel, ...measured } = engine;
    const rpm = [3500];
    const again = pointsOf({ ...throughInches(measured), fuel }, rpm);
    pointsOf(engine, rpm).forEach((point, i) => {
      expect(Math.abs(again[i].torqueNm / point.torqueNm - 1)).toBeLessThan(1e-7);
      expect(Math.abs(again[i].ca50DegAtdc - point.ca50DegAtdc)).toBeLessThan(1e-5);
    });
  },
);
