/** The compiled step of a network against the plain one: the same bits, whatever parts an engine has. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { marchDegrees } from '../../packages/core/src/cycle/march.ts';
import { layGrid } from '../../packages/core/src/cycle/stepGrid.ts';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { renewCopies } from '../../packages/core/src/network/copiedEnds.ts';
import { CYL } from '../../packages/core/src/network/cylinder.ts';
import { NOZZLE } from '../../packages/core/src/network/ductEnd.ts';
import {
  decode,
  isSound,
  keepStarts,
  type Network,
  ratesOfDecoded,
  stiffness,
} from '../../packages/core/src/network/network.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { CORNERS } from './corners.ts';
import { fileOf } from './examine.ts';
import { type RandomEngine, randomEngine } from './randomEngine.ts';
import { cc, mm, size } from './sizes.ts';

const ENGINES = 10;
/** What few random engines have: a restrictor in front of a carburetor, or of an airbox with a hole; another law of wall heat. */
const SELDOM: readonly RandomEngine[] = [
  {
    ...CORNERS['sixteen cylinders'],
    sections: {
      ...CORNERS['sixteen cylinders'].sections,
      induction: {
        carburetor: { rating: size('flow', 20), barrels: 4, ratedAt: size('pressure', 5.08) },
        restrictor: { kind: 'sonic', bore: mm(30), bores: 2 },
      },
      heat: { model: 'hohenberg', multiplier: 1 },
    },
  },
  {
    ...CORNERS['sixteen cylinders'],
    sections: {
      ...CORNERS['sixteen cylinders'].sections,
      engine: { bore: mm(80), stroke: mm(80), cylinders: 4 },
      induction: {
        manifold: 'individual-throttles',
        throttle: { diameter: mm(40), count: 4 },
        runner: { length: mm(300), throttleAt: mm(100) },
        airbox: { volume: cc(6000), inlet: { inside: mm(60) } },
        restrictor: { kind: 'plate', bore: mm(40), bores: 1 },
      },
      heat: { model: 'annand', multiplier: 1 },
    },
  },
];
/** All that has to be met, or the comparison says little. */
const MET = [
  '1 throats',
  '2 throats',
  'annand',
  'blows back',
  'branch',
  'burns',
  'copies',
  'end gas',
  'feed',
  'fires',
  'hohenberg',
  'hole',
  'hot gas in one zone',
  'joint',
  'liquid',
  'metering',
  'orifice',
  'own mixture',
  'throats between nodes',
  'woschni',
];
/** Degrees marched from one look to the next: no part of 720, so that two cycles are looked at in other places. */
const APART = 67;

/** What parts show of themselves. */
function seen({ volumes, cylinders, cells, ends, feeds, ducts }: Network) {
  const sides = [...volumes, ...cylinders, ...cells].map(({ side }) => side.slice());
  return {
    sides,
    openings: cylinders.map(({ opening }) => opening.slice()),
    // Of heat the kernel keeps its own account.
    now: cylinders.map(({ now: { heat, heatCoefficient, ...others } }) => others),
    ends: ends.flatMap(({ lifted, flow }) => [lifted.slice(), flow.slice()]),
    waves: feeds.map(({ wave }) => wave.slice()),
    fluxes: ducts.flatMap(({ left, right }) => [left.slice(), right.slice()]),
  };
}

/** The fastest rate, and whether this is a state of a gas, as the parts have it. */
function limitsOf({ nodes }: Network) {
  const fastest = new Float64Array(2);
  for (const group of nodes) group.raiseFastest?.(fastest);
  return [Math.max(...fastest), nodes.every((group) => group.isSound?.() ?? true)];
}

function keepStartsOfParts({ nodes, connections }: Network): void {
  for (const group of [...nodes, ...connections]) group.keepStarts?.();
}

/** Where the next searches start. */
function startsOf({ cylinders, ends, feeds }: Network) {
  return [
    cylinders.map(({ start }) => ({ ...start })),
    ends.map(({ nozzle }) => nozzle[NOZZLE.start]),
    feeds.map(({ wave }) => wave.slice()),
  ];
}

/** The kinds of parts, and the states they are in, that the rates were compared in. */
function kindsOf(network: Network, y: Float64Array): string[] {
  const { cylinders, joints, orifices, feeds, copies, cells } = network;
  const throats = [
    ...orifices.map(({ spec }) => spec.throats?.length ?? 1),
    ...feeds.map(({ spec }) => spec.throats.length),
  ];
  return [
    ...cylinders.flatMap(({ walls, burning, firing, endGas, now, spray, offset, tables, mean, side }) => [
      walls.model,
      ...(burning && now.x > 0 ? ['burns'] : []),
      ...(firing ? ['fires'] : []),
      ...(endGas ? ['end gas'] : []),
      ...(spray !== undefined && y[offset + CYL.liquid] > 0 ? ['liquid'] : []),
      ...(tables === mean ? [] : ['own mixture']),
      ...(!burning && side[1] > tables.freezeTemperature ? ['hot gas in one zone'] : []),
    ]),
    ...(joints.length > 0 ? ['joint'] : []),
    ...cells.map(({ momentumAt }) => (momentumAt < 0 ? 'hole' : 'branch')),
    ...orifices.map(({ along }) => (along === null ? 'orifice' : 'throats between nodes')),
    ...orifices.flatMap(({ spec }) => (spec.metering === undefined ? [] : ['metering'])),
    ...feeds.flatMap(({ wave, from }) => (wave[0] < from.side[0] ? ['feed'] : ['blows back'])),
    ...throats.map((count) => `${count} throats`),
    ...(copies.length > 0 ? ['copies'] : []),
  ];
}

describe('the kernel', () => {
  it('works out rates and steps to the same bits as the plain functions, of engines nobody drew', () => {
    const drawn = fc.sample(randomEngine, { seed: 11, numRuns: ENGINES });
    const engines = [...Object.values(CORNERS), ...SELDOM, ...drawn];
    const kinds = new Set<string>();
    let compared = 0;
    for (const { sections, ratedRpm } of engines) {
      const read = readCombination(fileOf(sections, 'metric'));
      if (!read.ok) continue;
      const simulation = createSimulation(read.value, { fidelity: 'representative' });
      const { march } = simulation.startSpeed(ratedRpm);
      const { network, y } = march;
      expect(network.kernel).not.toBeNull();
      expect(march.kernelStep).not.toBeNull();
      const byStages = { ...simulation.startSpeed(ratedRpm).march, kernelStep: null };
      for (const begun of [march, byStages]) {
        layGrid(begun);
        renewCopies(begun.network, begun.y);
      }
      const compiled = network.vector();
      expect(compiled.buffer).toBe(network.kernel?.buffer);
      const plain = new Float64Array(network.size);
      for (let theta = 0; theta < 2 * 720; theta += APART) {
        marchDegrees(march, theta, APART);
        marchDegrees(byStages, theta, APART);
        expect(byStages.y).toEqual(y);
        const elsewhere = y.slice();
        decode(network, theta + APART, elsewhere);
        ratesOfDecoded(network, elsewhere, plain);
        const parts = seen(network);
        const limits = limitsOf(network);
        expect([stiffness(network), isSound(network)]).toEqual(limits);
        decode(network, theta + APART, y);
        ratesOfDecoded(network, y, compiled);
        expect(seen(network)).toEqual(parts);
        expect(compiled).toEqual(plain);
        expect([stiffness(network), isSound(network)]).toEqual(limits);
        keepStartsOfParts(network);
        const starts = startsOf(network);
        keepStarts(network);
        expect(startsOf(network)).toEqual(starts);
        // The next searches start alike on both sides.
        decode(byStages.network, theta + APART, byStages.y);
        ratesOfDecoded(byStages.network, byStages.y, byStages.stepper.stages[0]);
        keepStarts(byStages.network);
        for (const kind of kindsOf(network, y)) kinds.add(kind);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(400);
    expect([...kinds].sort()).toEqual(MET);
  }, 120_000);
});
