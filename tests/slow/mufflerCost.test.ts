/** What a muffler costs: as much as the pressure it holds back, and no verdict on the pipes in front of it. */
import { describe, expect, it } from 'vitest';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { MARCH_COMPARED } from '../../packages/core/src/cycle/march.ts';
import { PERIODIC_COMPARED } from '../../packages/core/src/cycle/periodic.ts';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';

/** Coarse, in steps and in cells: every figure is compared with another. */
const NUMERICS = {
  mesh: { intakeCell: 0.06, exhaustCell: 0.12, fewest: 4 },
  march: MARCH_COMPARED,
  periodic: PERIODIC_COMPARED,
};
const PSI = 6894.757;
/** Cubic foot a minute [m3/s], exact by definition. */
const CFM = 0.3048 ** 3 / 60;

const COLLECTOR = 'collector: { inside: 60 mm, length: 400 mm }';
const ONE_MERGE = `primary: { inside: 41 mm, length: 800 mm }, ${COLLECTOR}`;
const IN_PAIRS = `primary: { inside: 41 mm, length: 400 mm }, secondary: { inside: 48 mm, length: 400 mm }, ${COLLECTOR}`;

/** An invented four of two litres, its burn given so that nothing but gas exchange differs. */
function four(exhaust: string): Combination {
  const text = `
engine: { cylinders: 4, bore: 86 mm, stroke: 86 mm, ratedSpeed: 7000 rpm }
chamber: { compression: 10.5 }
heads: { valvesPerCylinder: 4, intake: { valve: 31.82 mm }, exhaust: { valve: 27.52 mm } }
burn: { ca50: 8 deg }
exhaust: { ${exhaust} }
`;
  const read = readCombination(text, { file: 'four.yaml' });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.value;
}

/** Work of a cycle [J] and air drawn [m3/s], the outlets held so much above the air of the day [Pa]. */
function runAt(exhaust: string, rpm: number, above = 0): { readonly work: number; readonly air: number } {
  const simulation = createSimulation(four(exhaust), { fidelity: 'representative', ...NUMERICS });
  const { spec, outlet } = simulation.engine;
  const held = spec.reservoirs.map((r, i) => (i === outlet.reservoir ? { ...r, p: r.p + above } : r));
  Object.assign(spec, { reservoirs: held });
  const { totals, converged } = simulation.runSpeed(rpm).cycle;
  expect(converged).toBe(true);
  // Air of 1.204 kg/m3, as flow is rated.
  return { work: totals.closedWork + totals.pumpingWork, air: ((totals.massIn / 1.204) * rpm) / 120 };
}

const SPEEDS = [4000, 4500, 5000, 5500, 6000, 6500, 7000];
/** Where torque is most [1/min]. */
const PEAK = 5500;

describe('a muffler that holds back 1 psi', () => {
  it('costs what an outlet held at 1 psi costs, within a third: at each speed above the torque peak, and in the mean of all', () => {
    // Below the peak a box of usual size swings on its tail-pipe, which is worth as much as its pressure, either way.
    const lost = { raised: [] as number[], chambered: [] as number[], 'straight-through': [] as number[] };
    for (const rpm of SPEEDS) {
      const open = runAt(ONE_MERGE, rpm);
      const share = ({ work }: { readonly work: number }): number => 1 - work / open.work;
      lost.raised.push(share(runAt(ONE_MERGE, rpm, PSI)));
      const muffler = `{ backPressure: 1 psi, airflow: ${(open.air / CFM).toFixed(1)} cfm }`;
      // In a box too large to swing nothing but the pressure is left.
      if (rpm < 5000) {
        const still = share(
          runAt(`${ONE_MERGE}, muffler: ${muffler}, box: { kind: chambered, volume: 80 l }`, rpm),
        );
        expect(Math.abs(still / lost.raised[lost.raised.length - 1] - 1), `80 l at ${rpm} rpm`).toBeLessThan(
          0.1,
        );
      }
      for (const kind of ['chambered', 'straight-through'] as const) {
        lost[kind].push(share(runAt(`${ONE_MERGE}, muffler: ${muffler}, box: { kind: ${kind} }`, rpm)));
      }
    }
    const mean = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0) / all.length;
    // A percent a psi; common practice, no source.
    expect(mean(lost.raised)).toBeGreaterThan(0.008);
    expect(mean(lost.raised)).toBeLessThan(0.02);
    for (const kind of ['chambered', 'straight-through'] as const) {
      expect(Math.abs(mean(lost[kind]) / mean(lost.raised) - 1), kind).toBeLessThan(1 / 3);
      SPEEDS.forEach((rpm, i) => {
        if (rpm >= PEAK)
          expect(Math.abs(lost[kind][i] / lost.raised[i] - 1), `${kind} at ${rpm} rpm`).toBeLessThan(1 / 3);
      });
    }
  });

  it('leaves the verdict on pairs against four into one as it was, below the peak and above it', () => {
    const muffler = ', muffler: { backPressure: 1 psi, airflow: 260 cfm }';
    for (const rpm of [3000, 7500]) {
      const gain = (behind: string): number =>
        runAt(IN_PAIRS + behind, rpm).work / runAt(ONE_MERGE + behind, rpm).work - 1;
      const open = Math.sign(gain(''));
      for (const kind of ['chambered', 'straight-through'])
        expect(Math.sign(gain(`${muffler}, box: { kind: ${kind} }`)), `${kind} at ${rpm} rpm`).toBe(open);
    }
  });
});
