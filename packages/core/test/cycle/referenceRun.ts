/** The single cylinder of the independent one-dimensional solution, marched to a repeating cycle. */
import { createMarch, MARCH_DEFAULTS, marchDegrees } from '../../src/cycle/march.ts';
import { fillCylinder } from '../../src/network/cylinder.ts';
import { fillDuct } from '../../src/network/duct.ts';
import { TOTAL } from '../../src/network/ductEnd.ts';
import { createNetwork, setSpeed } from '../../src/network/network.ts';
import { AMBIENT, REFERENCE_BURN, referenceGas, referenceNetwork, SWEPT } from './referenceEngine.ts';

/** Speed [1/min], volumetric efficiency [-], residual [-], net and pumping mean effective pressure [bar]. */
export const REFERENCE_TABLE = [
  [2000, 0.82, 0.016, 11.31, -0.07],
  [2500, 0.704, 0.083, 10.1, -0.11],
  [3000, 0.819, 0.017, 11.7, -0.16],
  [3500, 0.905, 0.015, 13.11, -0.16],
  [4000, 0.873, 0.026, 12.87, -0.15],
  [4500, 0.818, 0.075, 12.16, -0.14],
  [5000, 1.015, 0.035, 15.16, -0.2],
  [5500, 1.002, 0.042, 14.99, -0.24],
  [6000, 1.115, 0.014, 16.41, -0.42],
  [6500, 1.123, 0.01, 16.26, -0.62],
  [7000, 1.092, 0.011, 15.87, -0.76],
  [7500, 1.088, 0.012, 15.69, -0.94],
  [8000, 1.038, 0.013, 14.68, -1.06],
] as const;

export interface ReferenceResult {
  readonly speed: number;
  readonly ve: number;
  /** What volumetric efficiency differs by from the cycle before [-]. */
  readonly drift: number;
  readonly residual: number;
  readonly pmep: number;
  /** Net, gas exchange included [bar]. */
  readonly imep: number;
}

const CYCLES = 16;

export function runReference(speed: number): ReferenceResult {
  const tables = referenceGas();
  const network = createNetwork(referenceNetwork(tables, { intake: 16, exhaust: 20 }));
  setSpeed(network, speed);
  const march = createMarch(network, MARCH_DEFAULTS, (cylinder) => {
    cylinder.burn = REFERENCE_BURN;
  });
  const { y } = march;
  fillDuct(network.ducts[0], y, AMBIENT.p, AMBIENT.T, 0);
  fillDuct(network.ducts[1], y, AMBIENT.p, 700, 1);
  fillCylinder(network.cylinders[0], y, 0, AMBIENT.p, AMBIENT.T, 0);
  const intake = network.ends[1].offset;
  const fresh = () => y[intake + TOTAL.mass] - y[intake + TOTAL.burned];
  const density = AMBIENT.p / (287 * AMBIENT.T);
  let ve = 0;
  let drift = 0;
  for (let i = 0; i < CYCLES; i++) {
    const before = fresh();
    marchDegrees(march, 0, 720);
    const now = ((fresh() - before) * tables.dryAirFraction) / (density * SWEPT);
    drift = now - ve;
    ve = now;
  }
  const diary = march.diaries[0];
  return {
    speed,
    ve,
    drift,
    residual: diary.residual,
    pmep: diary.pumpingWork / SWEPT / 1e5,
    imep: (diary.closedWork + diary.pumpingWork) / SWEPT / 1e5,
  };
}
