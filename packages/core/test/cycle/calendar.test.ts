import { describe, expect, it } from 'vitest';
import { calendarOf } from '../../src/cycle/calendar.ts';
import { marchDegrees } from '../../src/cycle/march.ts';
import { layGrid } from '../../src/cycle/stepGrid.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { renewCopies } from '../../src/network/copiedEnds.ts';
import { CYL } from '../../src/network/cylinder.ts';
import { createNetwork } from '../../src/network/network.ts';
import { bigBlock } from '../support/bigBlock.ts';

describe('the calendar of a cylinder', () => {
  const { engine } = createSimulation(bigBlock(), { fidelity: 'all' });
  const network = createNetwork(engine.spec);

  it.each([0, 3, 7])('is that of the valves that lead to it, not bottom centre: cylinder %i', (index) => {
    // The card: 306 deg above 0.020 in about 108 deg after top centre, 320 about 116 before it; a lash of 0.018 in at a
    // ratio of 1.7 takes half of that height off, so that the valves move some degrees longer.
    const { intakeCloses, exhaustOpens } = calendarOf(network, index);
    expect(Math.abs(intakeCloses - (108 + 306 / 2 - 360))).toBeLessThan(12);
    expect(Math.abs(exhaustOpens - (360 - 116 - 320 / 2))).toBeLessThan(12);
  });

  it('has end gas from the closing of the intake valve until the burn has left none, and what it did noted', () => {
    const mesh = { intakeCell: 0, exhaustCell: 0 };
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative', mesh }).startSpeed(5000);
    layGrid(march);
    renewCopies(march.network, march.y);
    const [cylinder] = march.network.cylinders;
    const [{ intakeCloses, exhaustOpens }] = march.calendars;
    const seen = { compressed: new Set<boolean>(), expanded: new Set<boolean>(), open: new Set<boolean>() };
    marchDegrees(march, 0, 1440, (theta) => {
      if (theta < 720) return;
      const { angle } = cylinder.now;
      const { start, duration } = cylinder.burn;
      if (angle > intakeCloses + 1e-3 && angle < start) seen.compressed.add(cylinder.endGas);
      if (angle > start + duration + 1e-3 && angle < exhaustOpens) seen.expanded.add(cylinder.endGas);
      if (angle > exhaustOpens + 1e-3 || angle < intakeCloses - 1e-3) seen.open.add(cylinder.endGas);
    });
    expect([...seen.compressed]).toEqual([true]);
    expect([...seen.expanded]).toEqual([false]);
    expect([...seen.open]).toEqual([false]);
    expect(march.diaries[0].knock).toBeGreaterThan(0);
    // What is left of the last cycle, as a share of what is shut in: a tenth or two, whatever the engine.
    expect(march.diaries[0].residual).toBeGreaterThan(0.02);
    expect(march.diaries[0].residual).toBeLessThan(0.3);
  });

  it('takes a charge of which, by rounding, more than all is burned for one that is burned', () => {
    const mesh = { intakeCell: 0, exhaustCell: 0 };
    const { march } = createSimulation(bigBlock(), { fidelity: 'representative', mesh }).startSpeed(5000);
    const { y, network } = march;
    const [{ offset }] = network.cylinders;
    const [{ intakeCloses }] = march.calendars;
    layGrid(march);
    renewCopies(network, y);
    // Pipes hold burned gas too, so that the last sliver of the valve brings no other.
    for (const { offset: o, cells: n } of network.ducts)
      for (let i = 0; i < n; i++) y[o + 3 * n + i] = y[o + i];
    y[offset + CYL.burned] = (1 + 3e-6) * y[offset + CYL.mass];
    marchDegrees(march, 720 + intakeCloses - 0.2, 0.4);
    expect(march.diaries[0].trappedMass).toBeGreaterThan(0);
    expect(march.diaries[0].residual).toBe(1);
  });

  it('is that of its own valves where cylinders differ', () => {
    const ends = engine.spec.ends?.map((end) => {
      if (end.to.kind !== 'cylinder' || end.to.index !== 3 || !('valve' in end.opening)) return end;
      const { valve } = end.opening;
      const later = { ...valve, opens: valve.opens + 10, closes: valve.closes + 10 };
      return { ...end, opening: { ...end.opening, valve: later } };
    });
    const uneven = createNetwork({ ...engine.spec, ends: ends ?? [] });
    const [own, other] = [calendarOf(uneven, 3), calendarOf(uneven, 2)];
    expect(own.intakeCloses - other.intakeCloses).toBeCloseTo(10, 9);
    expect(own.exhaustOpens - other.exhaustOpens).toBeCloseTo(10, 9);
  });
});
