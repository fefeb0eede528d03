/** What the program traces, measured by itself: what it must find of it, and what waves in pipes must do. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import type { PressureSheet } from '../../src/dyno/pressureSheet.ts';
import { type PressureTrace, tracePressures } from '../../src/forecast/pressureTrace.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { comparePressures } from '../../src/studies/comparePressures.ts';

const mesh = { intakeCell: 0.06, exhaustCell: 0.06, fewest: 4 };
const RPM = 5000;
const NEAR = 0.15;
const FAR = 0.55;

function single(): Combination {
  const read = readCombination(
    `engine: { bore: 88 mm, stroke: 72 mm, cylinders: 1 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2, exhaust: { portLength: 70 mm } }
burn: { ca50: 9 deg }
induction: { manifold: single-plane }
exhaust: { primary: { inside: 40 mm, length: 900 mm }, collector: none, muffler: open }
`,
    { file: 'e.yaml' },
  );
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

describe('pressures of an engine of ours', () => {
  let engine: Combination;
  let traced: PressureTrace;
  beforeAll(() => {
    engine = single();
    const places = [
      { place: 'exhaust', fromValveM: NEAR },
      { place: 'exhaust', fromValveM: FAR },
      { place: 'exhaust', fromValveM: 0.97 },
      { place: 'cylinder', fromValveM: 0 },
    ] as const;
    traced = tracePressures(engine, { rpm: RPM, mesh, places });
  });

  const swing = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

  /** Angle of the trough from which the blowdown rises [deg]. */
  const foot = (index: number): number => {
    const window = traced.angleDeg.map((angle, i) =>
      angle > 60 && angle < 180 ? traced.pressurePa[index][i] : Number.POSITIVE_INFINITY,
    );
    return traced.angleDeg[window.indexOf(Math.min(...window))];
  };

  it('reach a sensor further down the pipe as much later as sound and stream take', () => {
    // The blowdown comes first, before anything came back from the open end.
    const seconds = (foot(1) - foot(0)) / (6 * RPM);
    // Gas that stood in the pipe, 700 to 1100 K: sound at 520 to 650 m/s, next to no stream yet.
    expect((FAR - NEAR) / seconds).toBeGreaterThan(500);
    expect((FAR - NEAR) / seconds).toBeLessThan(700);
  });

  it('have next to no waves at the open end, and high ones over the piston', () => {
    expect(swing(traced.pressurePa[2])).toBeLessThan(0.3 * swing(traced.pressurePa[0]));
    expect(Math.max(...traced.pressurePa[3])).toBeGreaterThan(30e5);
    // Peak pressure comes after firing top centre, within 25 deg.
    const peak = traced.angleDeg[traced.pressurePa[3].indexOf(Math.max(...traced.pressurePa[3]))];
    expect(peak).toBeGreaterThan(0);
    expect(peak).toBeLessThan(25);
  });

  it('measured by gauge and moved by 6 degrees come out 6 degrees apart, at their level', () => {
    const sheet: PressureSheet = {
      name: 'own.csv',
      rpm: RPM,
      cylinder: 1,
      barometerPa: null,
      notes: [],
      traces: [
        {
          place: 'exhaust',
          fromValveM: NEAR,
          reference: 'gauge',
          angleDeg: traced.angleDeg.map((angle) => angle - 6),
          pressurePa: traced.pressurePa[0].map((p) => p - engine.weather.pressure),
        },
      ],
    };
    const compared = comparePressures(engine, [sheet], { mesh });
    if (!compared.ok) throw new Error(compared.problems.map(problemLine).join('\n'));
    const [overlay] = compared.value.overlays;
    expect(overlay.lagDeg).toBeCloseTo(6, 0);
    expect(overlay.likeness).toBeGreaterThan(0.999);
    expect(overlay.meanForecastPa / overlay.meanMeasuredPa).toBeCloseTo(1, 2);
    expect(compared.value.notes[0]).toContain("counted from the combination's barometer");
  });

  it('beyond a pipe, of another cylinder or at no speed are refused', () => {
    const at = (change: Partial<PressureSheet>, fromValveM = NEAR): string => {
      const trace = {
        place: 'exhaust',
        fromValveM,
        reference: 'absolute',
        angleDeg: [],
        pressurePa: [],
      } as const;
      const sheet = { name: 's.csv', rpm: RPM, cylinder: 1, barometerPa: null, notes: [], traces: [trace] };
      const compared = comparePressures(engine, [{ ...sheet, ...change }], { mesh: { ...mesh, fewest: 2 } });
      return compared.ok ? '' : compared.problems.map(problemLine).join('\n');
    };
    expect(at({ cylinder: 3 })).toContain('cylinder');
    expect(at({ rpm: 50 })).toContain('rpm');
    expect(() => tracePressures(engine, { rpm: RPM, places: [] })).toThrow('places');
  });
});

it('of a collector behind pairs come once a firing, those of a primary once a cycle, and none beyond the last pipe', () => {
  const read = readCombination(
    `engine: { bore: 80 mm, stroke: 70 mm, cylinders: 4 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2, exhaust: { portLength: 70 mm } }
burn: { ca50: 9 deg }
induction: { manifold: single-plane }
exhaust: { primary: { inside: 38 mm, length: 330 mm }, secondary: { inside: 42 mm, length: 300 mm },
  collector: { inside: 50 mm, length: 900 mm }, muffler: open }
`,
    { file: 'e.yaml' },
  );
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  // The collector begins 70 + 330 + 300 mm from the valve.
  const places = [0.2, 0.8, 1.4].map((fromValveM) => ({ place: 'exhaust', fromValveM }) as const);
  const { angleDeg, pressurePa } = tracePressures(read.value, { rpm: RPM, mesh, places });
  const at = (place: number, angle: number): number => {
    const i = angleDeg.findIndex((a) => a >= angle);
    const share = (angle - angleDeg[i - 1]) / (angleDeg[i] - angleDeg[i - 1]);
    return pressurePa[place][i - 1] + share * (pressurePa[place][i] - pressurePa[place][i - 1]);
  };
  const angles = Array.from({ length: 175 }, (_, i) => i - 170);
  const unlike = (place: number): number => {
    const swing = Math.max(...pressurePa[place]) - Math.min(...pressurePa[place]);
    return Math.max(...angles.map((a) => Math.abs(at(place, a + 180) - at(place, a)))) / swing;
  };
  expect(unlike(1)).toBeLessThan(0.05);
  expect(unlike(0)).toBeGreaterThan(0.5);
  expect(() =>
    tracePressures(read.value, { rpm: RPM, mesh, places: [{ place: 'exhaust', fromValveM: 2 }] }),
  ).toThrow('the pipes behind it');
});
