import { describe, expect, it } from 'vitest';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { bigBlock } from '../support/bigBlock.ts';

/** The pipe that leads through a straight box behind the collector of a bore, as the network has it. */
function profileThrough(core: (collector: number) => number) {
  const base = bigBlock();
  const { collectors } = base.exhaustSystem;
  if (collectors === null) throw new Error('the engine has collectors');
  const { area, length, wallTemperature } = collectors;
  const pipe = { length: 0.4, area: core(area), wallTemperature };
  const muffler = { kind: 'straight-through', volume: 6e-3, passage: 2 * area, pipe } as const;
  const engine = bigBlock({ exhaustSystem: { ...base.exhaustSystem, muffler } });
  const { spec } = createSimulation(engine, { fidelity: 'representative' }).engine;
  const found = spec.ducts?.find(
    ({ profile }) => Math.abs(profile[profile.length - 1].x - length - 0.4) < 1e-9,
  );
  if (found === undefined) throw new Error('no pipe is as long as collector and box');
  return { profile: found.profile, area, length };
}

describe('the pipe with holes of a straight muffler', () => {
  it.each([1, 0.7])(
    'takes its own size within a centimetre, not along its length: %f of the collector',
    (share) => {
      const { profile, area, length } = profileThrough((collector) => share * collector);
      expect(profile.map(({ x }) => x)).toEqual([0, length, length + 0.01, length + 0.4]);
      profile.forEach((place, i) => {
        expect(place.area / area).toBeCloseTo(i < 2 ? 1 : share, 12);
      });
    },
  );
});
