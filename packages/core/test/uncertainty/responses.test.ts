import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/changes/change.ts';
import { standardDeviation } from '../../src/numerics/standardDeviation.ts';
import { ForecastQueue } from '../../src/studies/forecastQueue.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { askFirst, type ResponseWorld } from '../../src/uncertainty/askedForecasts.ts';
import { pairedDraws } from '../../src/uncertainty/pairedDraws.ts';
import { measureResponses } from '../../src/uncertainty/responses.ts';
import type { Unknown } from '../../src/uncertainty/unknown.ts';
import { altered, runnerOf } from '../studies/fakeCurves.ts';
import { bigBlock } from '../support/bigBlock.ts';

const PART: Change = {
  name: 'part',
  edits: [{ kind: 'set', path: 'induction.plenum', value: '2 l' }],
  cost: null,
  hours: null,
  reversible: true,
  insteadOf: null,
};

const unknown = (id: string, more: Partial<Unknown> = {}): Unknown => ({
  id,
  path: id,
  sigma: 1,
  unit: '',
  reason: 'invented',
  of: null,
  fields: [],
  within: {},
  replacedBy: [],
  ...more,
});

/** An engine whose torque is a function of how far its unknowns are off, with the part or without it. */
type Torque = (z: Readonly<Record<string, number>>, withPart: boolean) => number;

/** What else is so. */
interface Conditions {
  readonly ownVariance?: ResponseWorld['ownVariance'];
  readonly singly?: readonly string[];
  /** How far knock holds back the timing with the part [deg]. */
  readonly heldBackDeg?: number;
}

async function measured(
  unknowns: readonly Unknown[],
  torque: Torque,
  isPossible: (z: Readonly<Record<string, number>>) => boolean = () => true,
  others: readonly Change[] = [],
  { ownVariance = () => 0, singly = [], heldBackDeg = 0 }: Conditions = {},
): Promise<{
  sigma: number;
  absolute: number;
  jobs: number;
  stuck: readonly string[];
  offsets: readonly number[];
}> {
  const run = runnerOf(({ name }) => {
    const { z, part } = JSON.parse(name);
    // Another change makes the first unknown matter most, so that the baseline is moved both ways for it.
    const bending = part === 'bending' ? 1.01 + 0.02 * (z['induction.rating'] ?? 0) : 1;
    return torque(z, part === PART.name) * bending;
  });
  const knocking: RunJobs = async (jobs, control) => {
    const curves = await run(jobs, control);
    return curves.map(
      (curve) =>
        curve &&
        altered(curve, () => ({
          sparkGivenBackDeg:
            JSON.parse(jobs[curves.indexOf(curve)].combination.name).part === PART.name ? heldBackDeg : 0,
        })),
    );
  };
  const queue = new ForecastQueue(knocking, {});
  const world: ResponseWorld = {
    unknowns,
    singly,
    changes: [PART, ...others],
    seed: 3,
    ownVariance,
    queue,
    build: (changes, offsets) => {
      const z = Object.fromEntries(offsets.map(({ unknown: { id }, z: off }) => [id, off]));
      return isPossible(z) ? bigBlock({ name: JSON.stringify({ z, part: changes[0]?.name ?? null }) }) : null;
    },
    ask: (name, combination) => queue.ask(name, { combination, rpm: [4000] }),
  };
  askFirst(world);
  const { baseline, candidates, stuck } = await measureResponses(world);
  const [candidate] = candidates;
  if (baseline === null || candidate === undefined || candidate === null) throw new Error('not measured');
  const draws = pairedDraws(baseline, [candidate], { seed: 3, draws: 40_000 });
  return {
    sigma: standardDeviation(draws.gains[0]),
    absolute: 100 * standardDeviation(draws.baseline),
    jobs: run.asked.length,
    stuck,
    offsets: run.asked.flatMap(({ combination }) => Object.values<number>(JSON.parse(combination.name).z)),
  };
}

const off = (z: Readonly<Record<string, number>>, id: string): number => z[id] ?? 0;

describe('measureResponses(world)', () => {
  it('finds the spread of a gain from unknowns that act on the candidate alone', async () => {
    const unknowns = ['induction.a', 'induction.b', 'heat.c'].map((id) => unknown(id));
    const { sigma } = await measured(unknowns, (z, withPart) => {
      const common =
        1 + 0.02 * off(z, 'heat.c') + 0.001 * off(z, 'induction.a') + 0.001 * off(z, 'induction.b');
      return (
        400 * common * (withPart ? 1.02 + 0.004 * off(z, 'induction.a') + 0.003 * off(z, 'induction.b') : 1)
      );
    });
    expect(sigma).toBeGreaterThan(0.5 * 0.97);
    expect(sigma).toBeLessThan(0.5 * 1.03);
  });

  it('sees what unknowns do that the baseline never shows', async () => {
    // Nothing of them moves the baseline, so that nothing ranks them likely.
    const hidden = Array.from({ length: 12 }, (_, i) => unknown(`exhaust.hidden${i}`));
    const { sigma } = await measured(hidden, (z, withPart) =>
      withPart ? 408 + hidden.reduce((sum, { id }) => sum + 0.8 * off(z, id), 0) : 400,
    );
    // 0.2 % each, twelve of them. Six random sums give a standard deviation to a third.
    const expected = 0.2 * Math.sqrt(12);
    expect(sigma).toBeGreaterThan(expected / 2);
    expect(sigma).toBeLessThan(expected * 2);
  });

  it('costs little where all errors are common, however many there are', async () => {
    const many = Array.from({ length: 50 }, (_, i) => unknown(`heat.common${i}`));
    const { sigma, absolute, jobs } = await measured(
      many,
      (z, withPart) =>
        (withPart ? 410 : 400) * many.reduce((product, { id }) => product * (1 + 0.004 * off(z, id)), 1),
    );
    expect(sigma).toBeLessThan(0.02);
    expect(absolute).toBeGreaterThan(0.4 * Math.sqrt(50) * 0.97);
    expect(absolute).toBeLessThan(0.4 * Math.sqrt(50) * 1.03);
    // References, the baseline fifty times, four draws of everything on both: they leave nothing to be looked at singly.
    expect(jobs).toBe(2 + 50 + 2 * 4);
  });

  it("looks no further where what is left is little beside the model's own error of such a difference", async () => {
    const many = Array.from({ length: 12 }, (_, i) => unknown(`exhaust.small${i}`));
    const torque: Torque = (z, withPart) =>
      (withPart ? 408 + many.reduce((sum, { id }) => sum + 0.4 * off(z, id), 0) : 400) *
      many.reduce((product, { id }) => product * (1 + 0.001 * off(z, id)), 1);
    const apart: number[] = [];
    const own = async (variance: number): Promise<number> => {
      const ownVariance = (distance: number): number => {
        apart.push(distance);
        return variance;
      };
      return (await measured(many, torque, () => true, [], { ownVariance })).jobs;
    };
    const [none, large] = [await own(0), await own(0.008 ** 2)];
    expect(large).toBe(2 + 12 + 2 * 4);
    expect(none).toBeGreaterThan(large);
    for (const distance of apart) expect(distance).toBeCloseTo(0.02, 12);
  });

  it('looks singly at what is never drawn on every candidate, however little the draws leave', async () => {
    const unknowns = ['heat.fitted', 'exhaust.other'].map((id) => unknown(id));
    const { sigma, jobs } = await measured(
      unknowns,
      (z, withPart) => 400 * (withPart ? 1.02 + 0.004 * off(z, 'heat.fitted') : 1),
      () => true,
      [],
      { singly: ['heat.fitted'] },
    );
    expect(sigma).toBeGreaterThan(0.4 * 0.97);
    expect(sigma).toBeLessThan(0.4 * 1.03);
    // References, both unknowns of the baseline, the fitted one with the part, four draws, and that one the other way on both.
    expect(jobs).toBe(2 + 2 + 1 + 2 * 4 + 2);
  });

  it('draws eight times where draws are all that tells a spread', async () => {
    // Products of four: neither a line nor a parabola of any one of them shows anything.
    const tangled = Array.from({ length: 4 }, (_, i) => unknown(`exhaust.tangled${i}`));
    const { jobs } = await measured(tangled, (z, withPart) => {
      const product = tangled.reduce((all, { id }) => all * off(z, id), 1);
      const seen = tangled.reduce((sum, { id }) => sum + off(z, id), 0);
      return 400 * (1 + 1e-5 * seen) * (withPart ? 1.02 + 0.01 * product : 1);
    });
    expect(jobs).toBe(2 + 4 + 4 + 2 * 8);
  });

  it('looks first at the octane that a part asks for where knock holds it back, though the engine as it is never knocks', async () => {
    const others = Array.from({ length: 6 }, (_, i) => unknown(`exhaust.common${i}`));
    const torque: Torque = (z, withPart) =>
      (withPart ? 410 * (1 - 0.01 * off(z, 'burn.octaneOffset')) : 400) *
      others.reduce((product, { id }) => product * (1 + 0.004 * off(z, id)), 1);
    const all = [...others, unknown('burn.octaneOffset')];
    const knocking = await measured(all, torque, () => true, [], { heldBackDeg: 2 });
    expect(knocking.sigma).toBeGreaterThan(1.025 * 0.98);
    expect(knocking.sigma).toBeLessThan(1.025 * 1.02);
  });

  it('moves those that matter most both ways, so that a bend counts', async () => {
    const bent = [unknown('induction.lash')];
    const { sigma } = await measured(bent, (z, withPart) => {
      const x = off(z, 'induction.lash');
      return 400 * (1 + 0.001 * x) * (withPart ? 1.02 + 0.003 * x - 0.004 * x * x : 1);
    });
    const expected = 100 * Math.sqrt(0.003 ** 2 + 2 * 0.004 ** 2);
    expect(sigma).toBeGreaterThan(expected * 0.96);
    expect(sigma).toBeLessThan(expected * 1.04);
  });

  it('moves them by the root of three, so that a cubic has nearly the variance it should', async () => {
    const bent = [unknown('induction.lash')];
    const { sigma, offsets } = await measured(bent, (z, withPart) => {
      const x = off(z, 'induction.lash');
      // A trace of it on the baseline, or nobody would look at it singly.
      return 400 * (1 + 1e-6 * x) * (withPart ? 1.02 + 0.002 * x + 0.001 * x ** 3 : 1);
    });
    // Slope through +-sqrt(3): 0.002 + 3 * 0.001; what is left, 0.001 (z^3 - 3 z), has a spread of 0.001 sqrt(6) and is left to the draws.
    // Both: sqrt(a^2 + 6 a c + 15 c^2) = 0.557 %. Steps of one and nothing else would give 0.3 %.
    const expected = 100 * Math.sqrt(0.005 ** 2 + 6 * 0.001 ** 2);
    expect(sigma).toBeGreaterThan(0.5);
    expect(sigma).toBeLessThan(expected * 1.1);
    const steps = offsets.filter((z) => Math.abs(Math.abs(z) - Math.sqrt(3)) < 1e-9);
    expect(steps).toHaveLength(2 * 2);
  });

  it('moves four of them both ways at the most, however many share the variance', async () => {
    const six = Array.from({ length: 6 }, (_, i) => unknown(`induction.part${i}`));
    const { sigma, offsets } = await measured(six, (z, withPart) => {
      const sum = six.reduce((all, { id }) => all + off(z, id), 0);
      return 400 * (1 + 0.001 * sum) * (withPart ? 1.02 + 0.002 * sum : 1);
    });
    expect(sigma).toBeGreaterThan(0.2 * Math.sqrt(6) * 0.97);
    expect(sigma).toBeLessThan(0.2 * Math.sqrt(6) * 1.03);
    const other = offsets.filter((z) => Math.abs(z + Math.sqrt(3)) < 1e-9);
    // Each on the baseline and on the candidate.
    expect(other).toHaveLength(2 * 4);
  });

  it('does not take the bend of a baseline moved both ways for a difference of a candidate moved one way', async () => {
    // The part has an error of its own, so that what is common is never worth a second look on it.
    const unknowns = [
      unknown('induction.rating'),
      unknown('induction.other'),
      unknown('error of part', { of: 'part', within: { part: [] } }),
    ];
    const common = (z: Readonly<Record<string, number>>): number =>
      1 + 0.03 * off(z, 'induction.rating') - 0.02 * off(z, 'induction.rating') ** 2;
    const torque: Torque = (z, withPart) =>
      400 * common(z) * (withPart ? 1.02 + 0.01 * off(z, 'error of part') : 1);
    const { sigma } = await measured(unknowns, torque, () => true, [{ ...PART, name: 'bending' }]);
    expect(sigma).toBeGreaterThan(0.97);
    expect(sigma).toBeLessThan(1.03);
  });

  it('compares a candidate moved less far than the baseline with the baseline moved as far', async () => {
    // A pipe in tune: neither a line nor a parabola fits, and the part changes nothing of it.
    const unknowns = [
      unknown('induction.rating'),
      unknown('error of part', { of: 'part', within: { part: [] } }),
    ];
    const wave = (z: Readonly<Record<string, number>>): number =>
      1 + 0.03 * Math.sin(2 * off(z, 'induction.rating'));
    const torque: Torque = (z, withPart) =>
      400 * wave(z) * (withPart ? 1.02 + 0.01 * off(z, 'error of part') : 1);
    const { sigma } = await measured(unknowns, torque, () => true, [{ ...PART, name: 'bending' }]);
    expect(sigma).toBeGreaterThan(0.97);
    expect(sigma).toBeLessThan(1.05);
  });

  it('moves the other way what can be moved only that way, and tells what can not be moved at all', async () => {
    const unknowns = ['induction.free', 'induction.oneway', 'induction.fixed'].map((id) => unknown(id));
    const { sigma, stuck } = await measured(
      unknowns,
      (z, withPart) =>
        400 *
        (withPart ? 1.02 + 0.004 * off(z, 'induction.oneway') : 1 + 0.0001 * off(z, 'induction.oneway')),
      (z) => off(z, 'induction.oneway') <= 0 && off(z, 'induction.fixed') === 0,
    );
    // It is held at zero where it would go the other way: (1/2 - 1 / (2 pi))^(1/2) of what it would bring both ways.
    const expected = 0.4 * Math.sqrt(0.5 - 1 / (2 * Math.PI));
    expect(Math.abs(sigma / expected - 1)).toBeLessThan(0.05);
    expect(stuck).toEqual(['induction.fixed']);
  });

  it('leaves the error of a part that is gone with the baseline, and asks for that of the new part', async () => {
    const unknowns = [
      unknown('rating', { replacedBy: ['part'] }),
      unknown('rating of part', { of: 'part', within: { part: [] } }),
    ];
    const { sigma } = await measured(
      unknowns,
      (z, withPart) => 400 * (withPart ? 1 + 0.004 * off(z, 'rating of part') : 1 + 0.003 * off(z, 'rating')),
    );
    expect(sigma).toBeGreaterThan(0.5 * 0.97);
    expect(sigma).toBeLessThan(0.5 * 1.03);
  });
});
