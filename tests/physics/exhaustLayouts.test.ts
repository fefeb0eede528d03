/** Exhausts as they are built: what the trade expects of them, and a muffler on a steady bench. */
import { describe, expect, it } from 'vitest';
import { assembleNetwork } from '../../packages/core/src/assembly/assemble.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { planBurn } from '../../packages/core/src/cycle/burnPlan.ts';
import { buildGasTables } from '../../packages/core/src/gas/buildGasTables.ts';
import { isentropicFluxFunction } from '../../packages/core/src/gas/isentropic.ts';
import { BENCH_FLOW, pipeFanning, ROUGHNESS } from '../../packages/core/src/geometry/pipeFriction.ts';
import { type DuctSpec, fillDuct } from '../../packages/core/src/network/duct.ts';
import { END } from '../../packages/core/src/network/ductEnd.ts';
import { createNetwork } from '../../packages/core/src/network/network.ts';
import { SIDE } from '../../packages/core/src/network/side.ts';
import { fillVolume } from '../../packages/core/src/network/volume.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { marchTime } from '../../packages/core/test/network/networks.ts';
import { pointsOf } from './engines.ts';
import { centre, headerEcho, heardAt } from './headerEcho.ts';

/** An invented four of two litres, its burn given so that nothing but gas exchange differs. */
function four(exhaust: string): Combination {
  const text = `
name: four
engine: { cylinders: 4, bore: 86 mm, stroke: 86 mm, ratedSpeed: 7000 rpm }
chamber: { compression: 10.5 }
heads: { valvesPerCylinder: 4, intake: { valve: 31.82 mm }, exhaust: { valve: 27.52 mm } }
burn: { ca50: 8 deg }
exhaust: ${exhaust}
`;
  const read = readCombination(text, { file: 'four.yaml' });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.value;
}

const torques = (exhaust: string, rpm: readonly number[]): readonly number[] =>
  pointsOf(four(exhaust), rpm).map(({ torqueNm }) => torqueNm);

const COLLECTOR = 'collector: { inside: 60 mm, length: 400 mm }';
const ONE_MERGE = `{ primary: { inside: 41 mm, length: 800 mm }, ${COLLECTOR} }`;
const inPairs = (secondary: number): string =>
  `{ primary: { inside: 41 mm, length: 400 mm }, secondary: { inside: 48 mm, length: ${secondary} mm }, ${COLLECTOR} }`;

// Common practice, no source: pairs fill the curve below the peak, four into one is stronger above it.
describe('four into two into one beside four into one', () => {
  it('gives more torque below the peak and less above it', () => {
    const rpm = [3000, 7500];
    const [low, high] = torques(inPairs(400), rpm);
    const [lowPlain, highPlain] = torques(ONE_MERGE, rpm);
    expect(low).toBeGreaterThan(1.01 * lowPlain);
    expect(high).toBeLessThan(0.99 * highPlain);
  });

  it('moves its strength down the curve with longer secondaries', () => {
    const rpm = [2500, 7000];
    const [low, high] = torques(inPairs(400), rpm);
    const [lowLong, highLong] = torques(inPairs(700), rpm);
    expect(lowLong).toBeGreaterThan(1.02 * low);
    expect(highLong).toBeLessThan(0.98 * high);
  });
});

describe('a pulse from a valve of four into two into one', () => {
  it('comes back as suction from the first merge, and half as much from the end of the secondary, later by its length, within 2 %', () => {
    // Too long a secondary for its end to answer in time: what it lacks is the answer.
    const silent = headerEcho(four(inPairs(1200)));
    const early = (2 * silent.primary) / silent.c;
    const first = centre((t) => heardAt(silent, t), early - 4e-4, early + 4e-4);
    expect(first.all).toBeLessThan(0);
    const [one, two, three] = [41, 48, 60].map((inside) => inside * inside);
    // A merge of areas S sends back 1 - 2 S1 / sum S and lets 2 S1 / sum S through.
    const said = (4 * one * three) / ((2 * one + two) * (2 * two + three));
    expect(said).toBeCloseTo(0.52, 2);
    for (const length of [200, 400, 600]) {
      const heard = headerEcho(four(inPairs(length)));
      const due = early + (2 * length) / 1000 / silent.c;
      const answer = centre((t) => heardAt(heard, t) - heardAt(silent, t), due - 4e-4, due + 2.5e-4);
      expect(Math.abs(answer.at / due - 1), `${length} mm`).toBeLessThan(0.02);
      expect(Math.abs(answer.all / first.all / said - 1), `${length} mm`).toBeLessThan(0.05);
    }
  });
});

/** A pipe of the exhaust as cold air meets it, which rubs less than exhaust. */
function coldTube(duct: DuctSpec): DuctSpec {
  return {
    ...duct,
    heatMultiplier: 0,
    fanning: pipeFanning(ROUGHNESS.tube, duct.profile[0].area, BENCH_FLOW),
  };
}

/** Effective area of everything from the collector's merge to the open [m2], steady, at a drop [Pa] of cold gas. */
function benchArea(combination: Combination, drop: number): number {
  const { fuel, lambda, weather } = combination;
  const tables = buildGasTables({ fuel, lambda, ...weather });
  const burn = planBurn({ development: 20, main: 30 }, { ca50: 8 }, 1);
  const { spec } = assembleNetwork(combination, tables, 'representative', burn);
  const T = 300;
  const p = weather.pressure;
  // The engine's own ducts are left out: only what stands behind the merge is joined to the bench.
  const merge = spec.volumes.findIndex(({ name }) => name === 'merge 1');
  const first = spec.ducts.findIndex(({ name }) => name.startsWith('collector'));
  const kept = spec.ducts.map((_, i) => i).filter((i) => i >= first);
  const network = createNetwork({
    tables,
    reservoirs: [
      { p: p + drop, T, b: 1 },
      { p, T, b: 1 },
    ],
    volumes: spec.volumes,
    ducts: kept.map((i) => coldTube(spec.ducts[i])),
    cells: spec.cells.map((cell) => ({ ...cell, duct: cell.duct - first })),
    orifices: spec.orifices.filter(({ from }) => from.kind === 'cell'),
    ends: spec.ends
      .filter(({ duct }) => duct >= first)
      .map((end) => ({
        ...end,
        duct: end.duct - first,
        to: end.to.kind === 'volume' && end.to.index === merge ? { kind: 'reservoir', index: 0 } : end.to,
      })),
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, p, T, 1);
  for (const volume of network.volumes) fillVolume(volume, y, p, T, 1);
  network.degreesPerSecond = 1;
  // Flow through holes follows the least pressure at once: in long steps it chatters, and the stream loses by it.
  marchTime(network, y, 0.5, 0.3);
  const outlet = network.ends.find(({ spec: { to } }) => to.kind === 'reservoir' && to.index === 1);
  const { [SIDE.R]: R, [SIDE.gamma]: gamma } = network.reservoirs[0].side;
  const flow = outlet?.flow[END.mass] ?? Number.NaN;
  const from = p + drop;
  return (flow * Math.sqrt(R * T)) / (from * isentropicFluxFunction(p / from, gamma));
}

describe('a muffler on a steady bench', () => {
  const DROP = 5080;
  const of = (muffler: string): Combination => four(`{ ${ONE_MERGE.slice(2, -2)}, muffler: ${muffler} }`);
  /** Of the pipe in front, with its mouth and its friction, nothing behind it. */
  const open = (): number => benchArea(of('open'), DROP);

  it.each([
    ['a box with chambers', '{ flow: 250 cfm }'],
    ['a pipe with holes in a box', '{ flow: 480 cfm }'],
  ])('loses behind its pipe what %s of its rating does, within 1 %%', (_what, muffler) => {
    const combination = of(muffler);
    const pipe = combination.exhaustSystem.collectors?.area ?? Number.NaN;
    const whole = benchArea(combination, DROP);
    // Losses in series: the open end's own velocity head is part of what stood there before.
    const lost = 1 / whole ** 2 - 1 / open() ** 2 + 1 / pipe ** 2;
    const rating = muffler.includes('250') ? 250 : 480;
    const passes = (rating * 0.3048 ** 3) / 60 / areaSpeed(DROP);
    expect(Math.abs(1 / Math.sqrt(lost) / passes - 1)).toBeLessThan(0.01);
  });
});

/** Volume flow per effective area [m/s] that a rating at this drop [Pa] means: air of a bench through a nozzle. */
function areaSpeed(drop: number): number {
  const air = { p: 101_325, T: 293.15, R: 287.055 };
  return Math.sqrt(air.R * air.T) * isentropicFluxFunction((air.p - drop) / air.p, 1.4);
}
