/** A throttle between two volumes, in an engine: a box of mixture before the plenum, joined to it by an orifice. */
import { expect, it } from 'vitest';
import type { EngineNetwork } from '../../packages/core/src/assembly/assemble.ts';
import type { PeriodicCycle } from '../../packages/core/src/cycle/periodic.ts';
import { marchToPeriodic } from '../../packages/core/src/cycle/periodic.ts';
import { prepareMarch } from '../../packages/core/src/cycle/prepare.ts';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { setSpeed } from '../../packages/core/src/network/network.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';

/** The engine with a box of 20 l between carburetor and plenum; the throttle between them has so many times the carburetor's area. */
function boxed(engine: EngineNetwork, times: number): EngineNetwork {
  const { volumes, orifices } = engine.spec;
  const box = { kind: 'volume', index: volumes.length } as const;
  const [carburetor] = orifices;
  return {
    ...engine,
    spec: {
      ...engine.spec,
      volumes: [...volumes, { name: 'box', size: 0.02 }],
      orifices: [
        { ...carburetor, to: box },
        { from: box, to: carburetor.to, area: times * carburetor.area },
      ],
    },
    plenums: [...engine.plenums, volumes.length],
  };
}

function cycleOf(engine: EngineNetwork): PeriodicCycle {
  const { tables } = engine.spec;
  const march = prepareMarch(engine, () => {});
  setSpeed(march.network, 5500);
  return marchToPeriodic(engine, march, (m) => m * tables.fuelFraction * tables.lowerHeatingValue);
}

it('a throttle between box and plenum takes some filling, the more the smaller it is, and balances close', () => {
  const { engine } = createSimulation(bigBlock(), { fidelity: 'representative' });
  const open = cycleOf(engine).totals.freshIn;
  const [wide, narrow] = [4, 1].map((times) => cycleOf(boxed(engine, times)));
  for (const { converged, audit } of [wide, narrow]) {
    expect(converged).toBe(true);
    expect(Math.abs(audit.energy)).toBeLessThan(1e-3);
  }
  expect(wide.totals.freshIn).toBeLessThan(open);
  expect(wide.totals.freshIn / open).toBeGreaterThan(0.98);
  expect(narrow.totals.freshIn / wide.totals.freshIn).toBeLessThan(0.97);
});
