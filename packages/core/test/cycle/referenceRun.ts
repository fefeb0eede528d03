/** The single cylinder of the independent one-dimensional solution, marched to a repeating cycle. */
import { createMarch, MARCH_DEFAULTS, marchDegrees } from '../../src/cycle/march.ts';
import { fillCylinder } from '../../src/network/cylinder.ts';
import { fillDuct } from '../../src/network/duct.ts';
import { createNetwork, setSpeed } from '../../src/network/network.ts';
import { TOTAL } from '../../src/network/openEnd.ts';
import { AMBIENT, REFERENCE_BURN, referenceGas, referenceNetwork, SWEPT } from './referenceEngine.ts';

/** Speed [1/min], volumetric efficiency [-], residual [-], net and pumping mean effective pressure [bar]. */
export const REFERENCE_TABLE = [
  [2000, 0.823, 0.015, 11.32, -0.07],
  [2500, 0.691, 0.087, 9.92, -0.09],
  [3000, 0.808, 0.02, 11.59, -0.15],
  [3500, 0.912, 0.014, 13.17, -0.15],
  [4000, 0.887, 0.023, 13.04, -0.15],
  [4500, 0.819, 0.074, 12.17, -0.14],
  [5000, 1.012, 0.036, 15.13, -0.2],
  [5500, 1.002, 0.042, 15, -0.24],
  [6000, 1.116, 0.014, 16.42, -0.43],
  [6500, 1.124, 0.009, 16.25, -0.64],
  [7000, 1.092, 0.011, 15.88, -0.74],
  [7500, 1.088, 0.012, 15.7, -0.93],
  [8000, 1.038, 0.013, 14.67, -1.07],
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
