/** Figures of each cylinder: they make up the engine's, and show what sets one cylinder apart. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Fidelity } from '../../src/assembly/symmetry.ts';
import { marchingOf } from '../../src/assembly/symmetry.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import type { MarchedPoint } from '../../src/forecast/curve.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { wholeForecast } from './wholeForecast.ts';

const COARSE = { intakeCell: 0.08, exhaustCell: 0.12, fewest: 2 };

function twin(chamber: string, file = 'e.yaml') {
  return readCombination(
    `engine: { bore: 88 mm, stroke: 66 mm, cylinders: 2 }\nchamber: ${chamber}\nheads: { valvesPerCylinder: 2 }\nburn: { ca50: 9 deg }\n`,
    { file },
  );
}

function engineOf(chamber: string): Combination {
  const read = twin(chamber);
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function point(chamber: string, fidelity: Fidelity = 'all'): MarchedPoint {
  return wholeForecast(engineOf(chamber), { rpm: [4500], mesh: COARSE, fidelity }).points[0];
}

const lines = (chamber: string): readonly string[] => {
  const read = twin(chamber);
  return read.ok ? [] : read.problems.map(problemLine);
};

describe('the cylinders of a point', () => {
  let even: MarchedPoint;
  let apart: MarchedPoint;
  beforeAll(() => {
    even = point('{ compression: 9.5 }');
    apart = point('{ compressions: [8.5, 10.5] }');
  });

  it('make up the engine: torques add up, filling and pressures are their means', () => {
    for (const whole of [even, apart]) {
      const each = whole.cylinders ?? [];
      expect(each.map(({ cylinder }) => cylinder)).toEqual([1, 2]);
      const mean = (of: (c: (typeof each)[number]) => number): number => (of(each[0]) + of(each[1])) / 2;
      expect(2 * mean((c) => c.torqueNm)).toBeCloseTo(whole.torqueNm, 9);
      expect(mean((c) => c.volumetricEfficiency)).toBeCloseTo(whole.volumetricEfficiency, 9);
      expect(mean((c) => c.imepBar)).toBeCloseTo(whole.imepBar, 9);
      expect(mean((c) => c.pmepBar)).toBeCloseTo(whole.pmepBar, 9);
      expect(Math.max(...each.map((c) => c.octaneRequired))).toBeCloseTo(whole.octaneRequired, 0);
    }
  });

  it('are alike where the engine is: even firing, equal parts', () => {
    const [a, b] = even.cylinders ?? [];
    expect(a.torqueNm / b.torqueNm).toBeCloseTo(1, 3);
    expect(a.exhaustTemperatureK / b.exhaustTemperatureK).toBeCloseTo(1, 3);
  });

  it('part by their compression as two engines would', () => {
    const [low, high] = apart.cylinders ?? [];
    // Otto's cycle at an exponent of 1.3: 1 - r^-0.3 is 0.474 at 8.5 and 0.506 at 10.5, half of the difference is lost to heat and time.
    const gain = high.imepBar / low.imepBar - 1;
    expect(gain).toBeGreaterThan(0.02);
    expect(gain).toBeLessThan(0.07);
    // About four octane numbers a ratio, at one timing; common practice, no source.
    expect(high.octaneRequired - low.octaneRequired).toBeGreaterThan(4);
    expect(high.octaneRequired - low.octaneRequired).toBeLessThan(14);
    expect(high.exhaustTemperatureK).toBeLessThan(low.exhaustTemperatureK);
  });

  it('stand in no other forecast than one of all', () => {
    expect(point('{ compression: 9.5 }', 'representative').cylinders).toBeUndefined();
  });
});

describe('a chamber by cylinder', () => {
  it('gives each its own volume, and all march', () => {
    const engine = engineOf(
      '{ volumes: [60 cc, 62 cc], deck: 0 mm, gasketThickness: 1 mm, gasketBore: 90 mm, crevice: 0 cc }',
    );
    const gasket = (Math.PI / 4) * 0.09 ** 2 * 0.001;
    expect(engine.chamber.clearances?.map((one) => 1e6 * (one - gasket))).toEqual([
      expect.closeTo(60, 9),
      expect.closeTo(62, 9),
    ]);
    expect(1e6 * (engine.chamber.clearanceVolume - gasket)).toBeCloseTo(61, 9);
    const ratios = engineOf('{ compressions: [9, 10] }').chamber;
    expect(ratios.compressionRatio).toBe(9.5);
    const swept = (Math.PI / 4) * 0.088 ** 2 * 0.066;
    expect(ratios.clearances?.[0]).toBeCloseTo(swept / 8, 12);
    const eight = (chamber: string): Combination => {
      const read = readCombination(
        `engine: { bore: 4 in, stroke: 3.5 in, cylinders: 8 }\nchamber: ${chamber}\nheads: { valvesPerCylinder: 2 }\n`,
      );
      if (!read.ok) throw new Error('the eight does not read');
      return read.value;
    };
    const unlike = eight('{ compressions: [9, 9.1, 9, 9.1, 9, 9.1, 9, 9.1] }');
    expect(marchingOf(unlike, 'representative').cylinders).toHaveLength(8);
    expect(marchingOf(eight('{ compression: 9 }'), 'representative').cylinders).toHaveLength(4);
  });

  it('is refused for another number of cylinders, and beside one for all', () => {
    expect(lines('{ compressions: [9, 9.2, 9.1] }')).toEqual([
      'e.yaml:2:12 chamber.compressions has 3 values for 2 cylinders (give one a cylinder)',
    ]);
    expect(lines('{ compression: 9, compressions: [9, 9.2] }')).toEqual([
      'e.yaml:2:28 chamber.compressions is given beside compression: keep one of the two',
    ]);
    expect(lines('{ compression: 9, compresions: [9, 9.2] }')).toEqual([
      'e.yaml:2:28 chamber.compresions is not a field of this file (did you mean compressions?)',
    ]);
    expect(lines('{ volumes: [58, 59] }')[0]).toContain('58 alone could be anything');
  });
});
