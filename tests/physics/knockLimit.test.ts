import { describe, expect, it } from 'vitest';
import { planBurn } from '../../packages/core/src/cycle/burnPlan.ts';
import {
  type ClosedBench,
  chargeBench,
  closedBench,
  runClosedCycle,
} from '../../packages/core/src/cycle/closedCycle.ts';
import { KNOCK_ENERGY } from '../../packages/core/src/cycle/endGasGone.ts';
import { type March, marchDegrees } from '../../packages/core/src/cycle/march.ts';
import { fuelOctane, octaneShort } from '../../packages/core/src/forecast/fuelOctane.ts';
import { createSimulation, type Simulation } from '../../packages/core/src/forecast/simulation.ts';
import { chooseTiming, type TimingChoice } from '../../packages/core/src/forecast/timing.ts';
import { fuelNamed } from '../../packages/core/src/gas/fuels.ts';
import { type BurnLaw, CYL } from '../../packages/core/src/network/cylinder.ts';
import { engineFile } from './engines.ts';

/** The tow truck's eight on a fuel that limits its timing, six numbers below the cheapest; a bench for each cylinder that marches. */
function limited(): { simulation: Simulation; march: March } {
  const cheapest = fuelNamed('pump-87');
  const { researchOctane, motorOctane } = cheapest;
  const fuel = { ...cheapest, researchOctane: researchOctane - 6, motorOctane: motorOctane - 6 };
  const engine = { ...engineFile('examples/tow-truck/engine.yaml'), fuel };
  const simulation = createSimulation(engine, { fidelity: 'representative' });
  return { simulation, march: simulation.runSpeed(3500).march };
}

const benchesOf = ({ simulation: { engine }, march }: ReturnType<typeof limited>) =>
  march.network.cylinders.map((cylinder, i) => {
    const bench = closedBench(cylinder, march.network.degreesPerSecond, engine.intakeValve.closes - 720);
    chargeBench(bench, march.diaries[i]);
    return bench;
  });

/** Energy of the end gas over the volume of the chamber where the integral first reaches a value [J/m3]. */
function energyWhenReached(
  { march, state, intakeCloses }: ClosedBench,
  burn: BurnLaw,
  value: number,
): number {
  const [cylinder] = march.network.cylinders;
  march.y.set(state);
  Object.assign(cylinder, { burn, burning: false, firing: false, endGas: true });
  let energy = Number.NaN;
  marchDegrees(march, intakeCloses, 180 - intakeCloses, () => {
    if (!Number.isNaN(energy) || march.y[cylinder.offset + CYL.knock] < value) return;
    const { m, x, V } = cylinder.now;
    energy = (m * (1 - cylinder.residual) * (1 - x) * cylinder.heatOfReaction) / V;
  });
  return energy;
}

describe('timing at the limit of knock', () => {
  it('leaves no cylinder short of octane, though they breathe unalike', () => {
    const { simulation, march } = limited();
    const { combination, tables } = simulation;
    const short = benchesOf({ simulation, march }).map((bench, i) =>
      octaneShort(
        runClosedCycle(bench, march.network.cylinders[i].burn).knock,
        fuelOctane(combination.fuel, tables, march.diaries[i]),
      ),
    );
    expect(short).toHaveLength(4);
    const most = Math.max(...short);
    // By more than the 0.3 to either side allowed below.
    expect(most - Math.min(...short)).toBeGreaterThan(0.6);
    expect(Math.abs(most)).toBeLessThan(0.3);
  });

  it('rests on an integral that hardly depends on the steps, though it ends in the middle of the burn', () => {
    const [bench] = benchesOf(limited());
    const { march } = bench;
    const fine = {
      ...bench,
      march: { ...march, options: { ...march.options, maxStep: 0.2, maxBurnStep: 0.2 } },
    };
    for (const main of [24, 27, 30, 33]) {
      const burn = planBurn({ development: 20, main }, { ca50: 9 }, 0.97);
      const { knock } = runClosedCycle(fine, burn);
      expect(runClosedCycle(bench, burn).knock / knock, `main burn of ${main} deg`).toBeCloseTo(1, 2);
      expect(
        energyWhenReached(fine, burn, 0.999 * knock) / KNOCK_ENERGY,
        `main burn of ${main} deg`,
      ).toBeCloseTo(1, 1);
    }
  });
});

describe('the search for best torque', () => {
  it('finds the angle it finds anywhere, from however far the last one lay', () => {
    const engine = limited();
    const [bench] = benchesOf(engine);
    const { burn } = engine.simulation.combination;
    const from = (last: TimingChoice | null) =>
      chooseTiming(bench, {
        angles: { development: 20, main: 30 },
        burn,
        fuel: { here: 120, pump: 120, diluent: 0.05 },
        rpm: 2500,
        last,
      });
    const anywhere = from(null);
    for (const bestCa50 of [-4, 5, 12, 25, 39]) {
      expect(from({ ...anywhere, bestCa50 }).bestCa50, `from ${bestCa50} deg`).toBeCloseTo(
        anywhere.bestCa50,
        0,
      );
    }
  });
});
