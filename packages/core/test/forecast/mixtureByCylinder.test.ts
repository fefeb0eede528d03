/** Cylinders with mixtures of their own behave as engines of that mixture do, and what is lost between them is nothing. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Fidelity } from '../../src/assembly/symmetry.ts';
import { marchingOf } from '../../src/assembly/symmetry.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import type { MarchedPoint } from '../../src/forecast/curve.ts';
import type { WholeCurve } from '../../src/forecast/wholeCurve.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { wholeForecast } from './wholeForecast.ts';

const COARSE = { intakeCell: 0.08, exhaustCell: 0.12, fewest: 2 };

/** Nothing deals out their fuel: an engine whose file says how its cylinders differ scatters by that alone. */
const OWN_BARRELS = 'induction: { manifold: individual-runner }';

function read(mixture: string, more = 'burn: { ca50: 9 deg }', cylinders = 2) {
  const text = `engine: { bore: 88 mm, stroke: 66 mm, cylinders: ${cylinders} }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
mixture: ${mixture}
${more}
${OWN_BARRELS}`;
  return readCombination(text, { file: 'e.yaml' });
}

function engine(...input: Parameters<typeof read>): Combination {
  const got = read(...input);
  if (!got.ok) throw new Error(got.problems.map(problemLine).join('\n'));
  return got.value;
}

function curve(mixture: string, fidelity: Fidelity): WholeCurve {
  return wholeForecast(engine(mixture), { rpm: [4500], mesh: COARSE, fidelity });
}

const messages = (...input: Parameters<typeof read>): readonly string[] => {
  const got = read(...input);
  return got.ok ? [] : got.problems.map(problemLine);
};

describe('two cylinders, one lean and one rich', () => {
  let lean: MarchedPoint;
  let rich: MarchedPoint;
  let apart: MarchedPoint;
  beforeAll(() => {
    lean = curve('{ lambda: 0.94 }', 'all').points[0];
    rich = curve('{ lambda: 0.80 }', 'all').points[0];
    // All march whatever is asked for, and the curve says so.
    const whole = curve('{ lambda: 0.87, differences: [0.07, -0.07] }', 'representative');
    expect(whole.fidelity).toBe('all');
    [apart] = whole.points;
  });

  it('each work as in an engine of their mixture, within a thousandth', () => {
    const each = apart.cylinders ?? [];
    expect(each.map(({ lambda }) => lambda)).toEqual([expect.closeTo(0.94, 12), expect.closeTo(0.8, 12)]);
    for (const [i, alone] of [lean, rich].entries()) {
      expect(Math.abs(each[i].imepBar / alone.imepBar - 1)).toBeLessThan(1e-3);
      expect(Math.abs(each[i].peakPressureBar / alone.peakPressureBar - 1)).toBeLessThan(2e-3);
      expect(Math.abs(each[i].octaneRequired - alone.octaneRequired)).toBeLessThan(0.1);
      // Port and pipe mix what the mean mixture left of its heat: half a percent.
      expect(Math.abs(each[i].exhaustTemperatureK / alone.exhaustTemperatureK - 1)).toBeLessThan(5e-3);
    }
    // Lean burns hotter exhaust and asks for more octane, as everybody's pyrometer and ear have it.
    expect(each[0].exhaustTemperatureK).toBeGreaterThan(each[1].exhaustTemperatureK + 60);
    expect(each[0].octaneRequired).toBeGreaterThan(each[1].octaneRequired + 1);
    expect(apart.octaneRequired).toBeCloseTo(each[0].octaneRequired, 1);
  });

  it('drink what both mixtures ask for their air, and no mass or energy is lost', () => {
    const stoichiometric = lean.airflowKgPerH / lean.fuelKgPerH / 0.94;
    const fuel = (apart.cylinders ?? []).reduce(
      (sum, { volumetricEfficiency, lambda }) =>
        sum + ((volumetricEfficiency / apart.volumetricEfficiency / 2) * apart.airflowKgPerH) / lambda,
      0,
    );
    expect(apart.fuelKgPerH / (fuel / stoichiometric)).toBeCloseTo(1, 3);
    expect(Math.abs(apart.massClosure)).toBeLessThan(1e-4);
    expect(Math.abs(apart.energyClosure)).toBeLessThan(1e-4);
  });
});

describe('mixtures by cylinder in a file', () => {
  it('have every cylinder march, and the curve says so', () => {
    const eight = engine('{ differences: [0.02, 0, 0, 0, 0, 0, 0, -0.02] }', '', 8);
    expect(marchingOf(eight, 'representative').cylinders).toHaveLength(8);
    expect(engine('{ differences: [0, 0] }').lambdaDifferences).toBeUndefined();
  });

  it('are told what is wrong with them', () => {
    expect(messages('{ differences: [0.02, -0.02, 0] }')).toEqual([
      'e.yaml:4:12 mixture.differences has 3 values for 2 cylinders (give one a cylinder)',
    ]);
    expect(messages('{ differences: [0.02] }')).toEqual([
      'e.yaml:4:12 mixture.differences has 1 value for 2 cylinders (give one a cylinder)',
    ]);
    expect(messages('{ lambda: { 3000 rpm: 0.9, 6000 rpm: 0.6 }, differences: [0, -0.2] }')).toEqual([
      'e.yaml:4:54 mixture.differences gives cylinder 2 a lambda of 0.40: outside 0.5 to 1.6',
    ]);
    expect(messages('{ differences: [0.86, 0.02] }')).toEqual([
      'e.yaml:4:26 mixture.differences.0 is impossible: 0.86 must be at most 0.4 (a lambda? write what the cylinder has beyond mixture.lambda)',
    ]);
    expect(messages('{ differences: 0.02 }')).toEqual([
      'e.yaml:4:12 mixture.differences needs a list, got 0.02',
    ]);
  });
});
