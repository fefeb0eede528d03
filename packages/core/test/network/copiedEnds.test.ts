/** What copies deliver beside what was recorded: the answer of a pipe with a valve at its end to another pressure than the recorded one. */
import { describe, expect, it } from 'vitest';
import { CLOCK, CLOCK_SIZE } from '../../src/network/clock.ts';
import {
  copyGroup,
  createCopy,
  prepareCopies,
  recordCopies,
  renewCopies,
  setBins,
} from '../../src/network/copiedEnds.ts';
import type { Duct } from '../../src/network/duct.ts';
import { NOZZLE, NOZZLE_SIZE } from '../../src/network/ductEnd.ts';
import type { OpenEnd } from '../../src/network/openEnd.ts';
import type { Site, StillNode } from '../../src/network/part.ts';
import { SIDE, SIDE_SIZE } from '../../src/network/side.ts';

const AREA = 1e-3;
const RECORDED = 1e5;
/** Degrees a second at 1000 rpm, in which 0.25 s / 6000 of sound up and down take 30 deg. */
const SPEED = 6000;
const STEP = 5;

/** Gas of 350 m/s: gamma R T = 122 500 m2/s2. */
function still(): StillNode {
  const side = new Float64Array(SIDE_SIZE);
  side[SIDE.gamma] = 1.4;
  side[SIDE.R] = 287;
  side[SIDE.T] = 122_500 / (1.4 * 287);
  side[SIDE.p] = RECORDED;
  return { side, offset: 0, energyAt: 1, burnedAt: 2, momentumAt: -1, opening: new Float64Array(1) };
}

/** A pipe of five cells in which sound takes 2.5 ms one way: 15 deg. */
const pipe = { cells: 5, dx: 0.175, c: new Float64Array(5).fill(350) } as unknown as Duct;

/** One copy, 360 deg behind an end through which nothing passes, on a volume, at the beginning of its first cycle. */
function copied(pipes: readonly Duct[]) {
  const volume = still();
  const nozzle = new Float64Array(NOZZLE_SIZE);
  nozzle[NOZZLE.ductArea] = AREA;
  const end = { nozzle, offset: 4 } as unknown as OpenEnd;
  let next = 3;
  const site = {
    take: (count: number) => {
      next += count;
      return next - count;
    },
    numbers: (count: number) => new Float64Array(count),
  } as unknown as Site;
  const copy = createCopy({ end: 0, volume: 0, delays: [360] }, site, volume, end, pipes, RECORDED);
  const network = { copies: [copy], degreesPerSecond: SPEED };
  const y = new Float64Array(12);
  setBins(
    network,
    Float64Array.from({ length: 145 }, (_, k) => STEP * k),
  );
  renewCopies(network, y);
  const clock = new Float64Array(CLOCK_SIZE);
  /** Rates of mass, energy and burned mass of the volume over a step of 5 deg. */
  const stepAt = (k: number): Float64Array => {
    clock[CLOCK.from] = STEP * k;
    clock[CLOCK.to] = STEP * (k + 1);
    clock[CLOCK.seconds] = STEP / SPEED;
    prepareCopies(network, clock);
    const d = new Float64Array(12);
    for (const group of [copyGroup(network.copies)]) group.addRates?.(y, d);
    recordCopies(network, clock, y, y);
    return d;
  };
  return { volume, copy, network, y, stepAt };
}

/** What a copy on a volume whose pressure is held delivers [kg/s], by steps of 5 deg. */
function answer(pipes: readonly Duct[], pressureAt: (degrees: number) => number, steps: number): number[] {
  const { volume, stepAt } = copied(pipes);
  return Array.from({ length: steps }, (_, k) => {
    volume.side[SIDE.p] = pressureAt(STEP * k);
    return stepAt(k)[0];
  });
}

describe('copies beside a pressure that was not recorded', () => {
  const STEP_UP = 1000;
  /** What a wave of 1000 Pa carries into an endless pipe: A dp / c [kg/s]. */
  const ENDLESS = (AREA * STEP_UP) / 350;

  it('draw what the waves carry that run up a pipe and come back from its valve with 0.6 of what was sent', () => {
    const flow = answer([pipe], () => RECORDED + STEP_UP, 13);
    // Nothing is back within 30 deg; then 0.6 of the first wave, of the second, which is 1 - 0.6 of it ...
    expect(flow.slice(0, 6)).toEqual(new Array(6).fill(expect.closeTo(-ENDLESS, 9)));
    expect(flow.slice(6, 12)).toEqual(new Array(6).fill(expect.closeTo((2 * 0.6 - 1) * ENDLESS, 9)));
    expect(flow[12]).toBeCloseTo((2 * 0.6 * (1 - 0.6) - 1) * ENDLESS, 9);
  });

  it('take the way through pipes end to end: twice the length is back after twice the time', () => {
    const flow = answer([pipe, pipe], () => RECORDED + STEP_UP, 13);
    expect(flow.slice(0, 12)).toEqual(new Array(12).fill(expect.closeTo(-ENDLESS, 9)));
    expect(flow[12]).toBeCloseTo((2 * 0.6 - 1) * ENDLESS, 9);
  });

  it('deliver nothing beside what was recorded where the pressure is the recorded one, whatever ran before', () => {
    const flow = answer([pipe], (degrees) => RECORDED + (degrees < 60 ? STEP_UP : 0), 60);
    // What was sent comes back and back, each time 0.6 of it with the other sign.
    expect(Math.abs(flow[59])).toBeLessThan(2 * ENDLESS * 0.6 ** 8);
    expect(answer([pipe], () => RECORDED, 20)).toEqual(new Array(20).fill(0));
  });

  it('draw gas with the means of the last cycle by degrees: sound speed, enthalpy and burned share', () => {
    const { volume, network, y, stepAt } = copied([pipe]);
    // A third of the cycle in one state, two thirds in another, in which sound is 1.2 times as fast.
    for (let k = 0; k < 144; k++) {
      const isFirst = k < 48;
      volume.side[SIDE.T] = ((isFirst ? 1 : 1.44) * 122_500) / (1.4 * 287);
      volume.side[SIDE.h] = isFirst ? 3e5 : 6e5;
      volume.side[SIDE.b] = isFirst ? 0.3 : 0.9;
      stepAt(k);
    }
    renewCopies(network, y);
    volume.side[SIDE.p] = RECORDED + STEP_UP;
    const [mass, energy, burned] = stepAt(0);
    expect(mass).toBeCloseTo((-AREA * STEP_UP) / (350 * (1 / 3 + (2 / 3) * 1.2)), 9);
    expect(energy / mass).toBeCloseTo(5e5, 3);
    expect(burned / mass).toBeCloseTo(0.7, 9);
  });

  it('take nine tenths of what they added over a cycle off the next, evenly', () => {
    const { copy, network, y, stepAt } = copied([pipe]);
    for (let k = 0; k < 144; k++) stepAt(k);
    y[copy.offset] += 1e-6;
    renewCopies(network, y);
    // 720 deg take 0.12 s.
    expect(stepAt(0)[0]).toBeCloseTo(-0.9e-6 / 0.12, 12);
  });
});
