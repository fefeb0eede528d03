/** Whether what is stated of gains holds: engines invented with known responses, their truth drawn, and counted how often it is as stated. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Change } from '../../src/changes/change.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { type Random, randomFrom } from '../../src/numerics/random.ts';
import { standardDeviation } from '../../src/numerics/standardDeviation.ts';
import { ForecastQueue } from '../../src/studies/forecastQueue.ts';
import { askFirst, type ResponseWorld } from '../../src/uncertainty/askedForecasts.ts';
import { chanceToBeat } from '../../src/uncertainty/drawFigures.ts';
import { pairedDraws } from '../../src/uncertainty/pairedDraws.ts';
import { measureResponses } from '../../src/uncertainty/responses.ts';
import type { Unknown } from '../../src/uncertainty/unknown.ts';
import { runnerOf } from '../studies/fakeCurves.ts';
import { bigBlock } from '../support/bigBlock.ts';

const ENGINES = 40;
const TRUTHS = 40;
const SECTIONS = ['heads', 'cam', 'valvetrain', 'induction', 'exhaust', 'burn', 'heat', 'friction'];
const COUNT = 32;

const UNKNOWNS = Array.from({ length: COUNT }, (_, i): Unknown => {
  const id = `${SECTIONS[i % SECTIONS.length]}.u${i}`;
  return { id, path: id, sigma: 1, unit: '', reason: '', of: null, fields: [], within: {}, replacedBy: [] };
});
const CHANGES = SECTIONS.slice(0, 3).map((section): Change => {
  const edits = [{ kind: 'set', path: `${section}.part`, value: 1 }] as const;
  return { name: section, edits, cost: null, hours: null, reversible: true, insteadOf: null };
});

/** Power by how far each unknown is off, as the engine is or with a change. */
type Power = (change: number | null, z: readonly number[]) => number;

/** Most unknowns act alike with and without a part, some bend, one is a pipe in tune; each part has its own with those of its section, and two go hand in hand. */
function inventedEngine({ normal, uniform }: Random): Power {
  const common = UNKNOWNS.map(() => 0.006 * normal() * Math.abs(normal()));
  const bends = UNKNOWNS.map(() => 0.001 * normal());
  const wave = { at: Math.floor(uniform() * COUNT), height: 0.02 * uniform(), phase: 6 * uniform() };
  const parts = CHANGES.map((_, c) => ({
    gain: 0.01 * normal(),
    own: UNKNOWNS.map(
      (__, i) => (i % SECTIONS.length === c ? 4 : 1) * (0.1 * Math.abs(common[i]) + 0.0003) * normal(),
    ),
    pairs: Array.from({ length: 20 }, () => ({
      one: Math.floor(uniform() * COUNT),
      other: Math.floor(uniform() * COUNT),
      share: 0.0003 * normal(),
    })),
  }));
  return (change, z) => {
    let engine = 1 + wave.height * Math.sin(2 * z[wave.at] + wave.phase);
    for (let i = 0; i < COUNT; i++) engine += z[i] * (common[i] + bends[i] * z[i]);
    if (change === null) return 300 * engine;
    const { gain, own, pairs } = parts[change];
    let part = 1 + gain;
    for (let i = 0; i < COUNT; i++) part += own[i] * z[i];
    for (const { one, other, share } of pairs) part += share * z[one] * z[other];
    return 300 * engine * part;
  };
}

/** Draws of the gains as they are stated [%]. */
async function statedGains(power: Power, seed: number): Promise<readonly Float64Array[]> {
  const powers = new Map<Combination, number>();
  const plain = bigBlock();
  const at = new Map(UNKNOWNS.map(({ id }, i) => [id, i]));
  const queue = new ForecastQueue(
    runnerOf((combination) => powers.get(combination) ?? Number.NaN),
    {},
  );
  const world: ResponseWorld = {
    unknowns: UNKNOWNS,
    singly: [],
    changes: CHANGES,
    seed,
    ownVariance: () => 0,
    queue,
    build: ([change], offsets) => {
      const z = Array.from({ length: COUNT }, () => 0);
      for (const { unknown, z: off } of offsets) z[at.get(unknown.id) ?? 0] = off;
      const combination = { ...plain };
      powers.set(combination, power(change === undefined ? null : CHANGES.indexOf(change), z));
      return combination;
    },
    ask: (name, combination) => queue.ask(name, { combination, rpm: [4000] }),
  };
  askFirst(world);
  const { baseline, candidates } = await measureResponses(world);
  const known = candidates.filter((candidate) => candidate !== null);
  if (baseline === null || known.length < CHANGES.length) throw new Error('not measured');
  return pairedDraws(baseline, known, { seed, draws: 1000 }).gains;
}

describe('what is stated of gains', () => {
  /** Misses over the stated spread, and stated chances that one change beats another with how often it did. */
  const misses: number[] = [];
  const chances: { readonly stated: number; readonly held: number }[] = [];
  beforeAll(async () => {
    for (let engine = 0; engine < ENGINES; engine++) {
      const random = randomFrom(100 + engine);
      const power = inventedEngine(random);
      const stated = await statedGains(power, engine + 1);
      const truths = Array.from({ length: TRUTHS }, () => {
        const z = UNKNOWNS.map(random.normal);
        return CHANGES.map((_, c) => 100 * (power(c, z) / power(null, z) - 1));
      });
      stated.forEach((draws, c) => {
        const mean = draws.reduce((sum, gain) => sum + gain, 0) / draws.length;
        for (const truth of truths) misses.push((truth[c] - mean) / standardDeviation(draws));
        for (let other = 0; other < c; other++) {
          const chance = chanceToBeat(draws, stated[other]);
          const held = truths.filter((truth) => truth[c] > truth[other]).length / TRUTHS;
          chances.push(chance < 0.5 ? { stated: 1 - chance, held: 1 - held } : { stated: chance, held });
        }
      });
    }
  });

  const within = (deviations: number): number =>
    misses.filter((miss) => Math.abs(miss) < deviations).length / misses.length;

  it('covers with one standard deviation and with two what normal errors do', () => {
    expect(within(1)).toBeGreaterThan(0.64);
    expect(within(1)).toBeLessThan(0.74);
    expect(within(2)).toBeGreaterThan(0.93);
    expect(within(2)).toBeLessThan(0.97);
  });

  it.each([
    [0.5, 0.7],
    [0.7, 0.9],
    [0.9, 0.99],
    [0.99, 1.01],
  ])('has a change beat another as often as it says, where it says %d to %d', (from, to) => {
    const among = chances.filter(({ stated }) => stated >= from && stated < to);
    expect(among.length).toBeGreaterThan(10);
    const mean = (of: 'stated' | 'held'): number =>
      among.reduce((sum, chance) => sum + chance[of], 0) / among.length;
    expect(Math.abs(mean('held') - mean('stated'))).toBeLessThan(0.04);
  });
});
