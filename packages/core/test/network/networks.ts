/** Ducts without friction or heat, and a march in time at the step their waves allow. */

import type { GasTables } from '../../src/gas/gasTables.ts';
import type { DuctSpec } from '../../src/network/duct.ts';
import type { Network } from '../../src/network/network.ts';
import { decode, rates, stiffness } from '../../src/network/network.ts';
import type { Site } from '../../src/network/part.ts';
import { createStepper, type Rhs, SSP2, step } from '../../src/numerics/rungeKutta.ts';

/** Duct of given length [m] with areas [m2] at equal distances, linear between. */
export function ductSpec(length: number, areas: readonly number[], cells: number): DuctSpec {
  const profile = areas.map((area, i) => ({ x: (i * length) / (areas.length - 1), area }));
  return { name: 'duct', profile, cells, fanning: 0, wallTemperature: 300, heatMultiplier: 0 };
}

/** A place for one part by itself: its state begins at 0. */
export function siteOf(tables: GasTables): Site {
  return {
    tables,
    crankAngle: new Float64Array(1),
    take: () => 0,
    numbers: (count) => new Float64Array(count),
  };
}

/** Marches `y` in place for a time [s]; `onStep` sees the decoded network after each step. Returns the steps taken. */
export function marchTime(
  network: Network,
  y: Float64Array,
  time: number,
  courant: number,
  onStep?: (t: number) => void,
): number {
  const stepper = createStepper(SSP2, network.size);
  const rhs: Rhs = ([t], state, d) => rates(network, t, state, d);
  let t = 0;
  let steps = 0;
  decode(network, 0, y);
  while (t < time * (1 - 1e-12)) {
    const h = Math.min(time - t, courant / stiffness(network));
    step(stepper, rhs, t, h, y);
    t += h;
    steps++;
    decode(network, 0, y);
    if (onStep !== undefined) onStep(t);
  }
  return steps;
}
