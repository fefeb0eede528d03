import { describe, expect, it } from 'vitest';
import { calendarOf } from '../../src/cycle/calendar.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
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
