import { describe, expect, it } from 'vitest';
import { marchToPeriodic, PERIODIC_DEFAULTS, type PeriodicOptions } from '../../src/cycle/periodic.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { bigBlock } from '../support/bigBlock.ts';

const runOf = (periodic: Partial<PeriodicOptions> = {}) =>
  createSimulation(bigBlock(), {
    fidelity: 'representative',
    periodic: { ...PERIODIC_DEFAULTS, ...periodic },
  }).runSpeed(3000).cycle;

describe('a cycle that repeats', () => {
  it('says its steps and right-hand sides, four a step and no more than waves in the shortest cells ask for', () => {
    const { cycle } = createSimulation(bigBlock(), { fidelity: 'representative' }).runSpeed(5500);
    expect(cycle.evaluations).toBe(4 * cycle.steps);
    // A signal at 1.6 times the sound speed of hot gas crosses a cell of 22 mm in a step of Courant number 1.9: some 300 steps
    // of a cycle; half as many again for the moments at which a cylinder is faster, and one cycle of all in half steps.
    expect(cycle.steps / cycle.cycles).toBeLessThan(600);
    expect(cycle.cycles).toBeLessThan(20);
  });

  it('stands for itself, its steps tried at half their length, and cut where that changed more than is allowed', () => {
    const usual = runOf();
    expect(usual.stepError).not.toBeNull();
    expect(usual.stepError).toBeLessThan(3e-4);
    expect([usual.converged, usual.averaged, usual.scatter]).toEqual([true, 1, 0]);
    const strict = runOf({ stepTolerance: 0.3 * (usual.stepError ?? 0) });
    const untried = runOf({ stepTolerance: Number.POSITIVE_INFINITY });
    expect([untried.converged, untried.stepError]).toEqual([true, null]);
    expect(untried.totals.work).toBe(usual.totals.work);
    expect(untried.cycles).toBe(usual.cycles - 1);
    expect(strict.stepError).toBeLessThan(usual.stepError ?? 0);
    expect(strict.steps).toBeGreaterThan(1.5 * usual.steps);
  });

  it('is a mean of the last third of all where it does not repeat, with their scatter', () => {
    const engine = createSimulation(bigBlock(), { fidelity: 'representative' });
    const speed = engine.startSpeed(3000);
    const works: number[] = [];
    const never = { maxCycles: 9, tolerance: 0 };
    const cycle = marchToPeriodic(
      engine.engine,
      speed.march,
      (mixture) => mixture * engine.tables.fuelFraction * engine.tables.lowerHeatingValue,
      never,
      ({ totals }) => {
        works.push(totals.closedWork + totals.pumpingWork);
        return false;
      },
    );
    const last = works.slice(-3);
    const mean = (last[0] + last[1] + last[2]) / 3;
    const deviation = Math.sqrt(last.reduce((sum, work) => sum + (work - mean) ** 2, 0) / 3);
    const { totals, averaged, scatter, converged, audit } = cycle;
    expect([converged, averaged, works.length]).toEqual([false, 3, 9]);
    expect(totals.closedWork + totals.pumpingWork).toBeCloseTo(mean, 9);
    const parts = Math.abs(totals.closedWork) + Math.abs(totals.pumpingWork);
    expect(scatter).toBeCloseTo(deviation / parts, 12);
    expect(scatter).toBeGreaterThan(0);
    expect(audit.mass).toBeCloseTo((totals.massIn - totals.massOut) / totals.massIn, 12);
    const each = totals.cylinders.map(({ closedWork }) => closedWork);
    expect(each.reduce((sum, work) => sum + work, 0) / each.length).toBeCloseTo(totals.closedWork, 9);
  });
});
