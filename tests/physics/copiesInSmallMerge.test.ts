import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { editText } from '../../packages/core/src/reading/editText.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { engineFile } from './engines.ts';

const FOLDER = new URL('../../examples/club-racer/', import.meta.url);
const textOf = (name: string): string => readFileSync(new URL(name, FOLDER), 'utf8');

/** The club racer with two cylinders more, of which one may stand for all: of four every one marches anyhow. */
function six(): string {
  return editText(textOf('engine.yaml'), [
    ['engine.cylinders', 6],
    ['engine.firingOrder', [1, 5, 3, 6, 2, 4]],
    ['induction.throttle.count', 6],
    ['exhaust.groups', [[1, 2, 3, 4, 5, 6]]],
  ]);
}

/** Coarse, and half burned at a stated angle: it settles on what the gas does alone. */
const timed = (engine: Combination): Combination => ({
  ...engine,
  burn: { ...engine.burn, timing: { mode: 'ca50', angle: 8 } as const },
});

// Its merge of 0.18 l rings with the primaries here: copies that took no heed of its pressure would swing for ever.
it('one cylinder settles for all in a small merge that rings, on the work of all', () => {
  const read = readCombination(six(), { sheet: textOf });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  const engine = timed(read.value);
  const mesh = { intakeCell: 0.06, exhaustCell: 0.12, fewest: 4 };
  const [one, all] = (['representative', 'all'] as const).map((fidelity) => {
    const simulation = createSimulation(engine, { fidelity, mesh });
    return { marching: simulation.engine.spec.cylinders.length, cycle: simulation.runSpeed(2500).cycle };
  });
  expect([one.marching, all.marching]).toEqual([1, 6]);
  expect([one.cycle.converged, all.cycle.converged]).toEqual([true, true]);
  expect(Math.abs(one.cycle.totals.work / all.cycle.totals.work - 1)).toBeLessThan(1e-3);
});

// Under a carburetor whose gas swings above it, copies whose pipes answered as endless ones do would hand a swing on for ever: 17 cycles on the
// way and more, with all that the march knows of slow modes.
it('copies on a plenum that swings settle in a dozen cycles, on the work of all', () => {
  const engine = timed(engineFile('examples/hill-climb/engine.yaml'));
  const mesh = { intakeCell: 0.06, exhaustCell: 0.15, fewest: 6 };
  const periodic = { maxCycles: 60, tolerance: 1e-4, stepTolerance: Number.POSITIVE_INFINITY };
  for (const rpm of [2100, 3700, 5700]) {
    const [one, all] = (['representative', 'all'] as const).map(
      (fidelity) => createSimulation(engine, { fidelity, mesh, periodic }).runSpeed(rpm).cycle,
    );
    expect([one.converged, all.converged]).toEqual([true, true]);
    expect(one.cycles, `${rpm}`).toBeLessThanOrEqual(12);
    expect(Math.abs(one.totals.work / all.totals.work - 1), `${rpm}`).toBeLessThan(3e-3);
  }
});
