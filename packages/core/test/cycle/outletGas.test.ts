import { describe, expect, it } from 'vitest';
import { marchDegrees } from '../../src/cycle/march.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { END } from '../../src/network/ductEnd.ts';
import { SIDE } from '../../src/network/side.ts';
import { bigBlock } from '../support/bigBlock.ts';

const RPM = 2500;

/** The gas outside the outlets once the cycle repeats, and the mean temperature at which gas left in one more cycle [K]. */
function outside(returned: number): { readonly back: number; readonly left: number; readonly share: number } {
  const base = bigBlock();
  const engine = bigBlock({ exhaustSystem: { ...base.exhaustSystem, returned } });
  const simulation = createSimulation(engine, { fidelity: 'representative' });
  const { march } = simulation.runSpeed(RPM);
  const { engine: assembled } = simulation;
  const { network } = march;
  const gas = network.reservoirs[assembled.outlet.reservoir].side;
  const outlets = network.ends.filter(
    ({ spec: { to } }) => to.kind === 'reservoir' && to.index === assembled.outlet.reservoir,
  );
  const back = gas[SIDE.T];
  let mass = 0;
  let warmth = 0;
  marchDegrees(march, 0, 720, (_, h) => {
    for (const end of outlets) {
      const m = Math.max(0, end.flow[END.mass]) * h;
      mass += m;
      warmth += m * end.face[SIDE.T];
    }
  });
  return { back, left: warmth / mass, share: gas[SIDE.b] };
}

describe('the gas outside an outlet', () => {
  it('is the outside air where none of the exhaust returns, and counts as burned: it brings no fuel', () => {
    const { back, share } = outside(0);
    expect(back).toBeCloseTo(bigBlock().weather.temperature, 6);
    expect(share).toBe(1);
  });

  it('is as warm as the exhaust left where all of it returns', () => {
    const { back, left } = outside(1);
    expect(left).toBeGreaterThan(700);
    expect(left).toBeLessThan(1300);
    expect(Math.abs(back / left - 1)).toBeLessThan(1e-3);
  });

  it('is mixed of both by the stated share', () => {
    const { back, left } = outside(0.4);
    expect(Math.abs(back / (0.4 * left + 0.6 * bigBlock().weather.temperature) - 1)).toBeLessThan(1e-3);
  });
});
