/** One cylinder from the closing of its intake valve to the next bottom centre, valves shut: what a burn would do. */
import type { BurnLaw, Cylinder } from '../network/cylinder.ts';
import { CYL } from '../network/cylinder.ts';
import { createNetwork } from '../network/network.ts';
import { SIDE } from '../network/side.ts';
import { type CurvePoint, topOf } from '../numerics/topOf.ts';
import type { CylinderDiary } from './diary.ts';
import type { March } from './march.ts';
import { createMarch, MARCH_DEFAULTS, marchDegrees } from './march.ts';

export interface ClosedCycle {
  /** Work from the closing of the intake valve to bottom centre [J]; the exhaust valve is kept shut. */
  readonly work: number;
  /** Autoignition integral of octane number 100 in the unburned gas [-]. */
  readonly knock: number;
  /** [Pa] */
  readonly peakPressure: number;
}

/** A bench on which burns are tried with one trapped charge. */
export interface ClosedBench {
  readonly march: March;
  readonly state: Float64Array;
  readonly intakeCloses: number;
}

/**
 * Sets up a bench for the charges of a cylinder, still empty.
 *
 * @param speed - crank speed [deg/s]
 * @param intakeCloses - deg after firing top centre, below 0
 */
export function closedBench(cylinder: Cylinder, speed: number, intakeCloses: number): ClosedBench {
  const network = createNetwork({
    tables: cylinder.charge,
    cylinders: [
      {
        name: cylinder.name,
        crank: cylinder.crank,
        firingAngle: 0,
        walls: cylinder.walls,
        burn: cylinder.burn,
        spray: cylinder.spray,
      },
    ],
  });
  network.degreesPerSecond = speed;
  network.cylinders[0].speed = cylinder.speed;
  const march = createMarch(network, MARCH_DEFAULTS, () => {});
  return { march, state: new Float64Array(network.size), intakeCloses };
}

/** Fills the bench with the charge that a cylinder trapped last. */
export function chargeBench({ state }: ClosedBench, diary: CylinderDiary): void {
  state[CYL.mass] = diary.trappedMass;
  state[CYL.energy] = diary.closingEnergy;
  state[CYL.burned] = diary.residual * diary.trappedMass;
  state[CYL.liquid] = diary.closingLiquid;
}

/** Runs the bench with a burn. */
export function runClosedCycle(bench: ClosedBench, burn: BurnLaw): ClosedCycle {
  const { march, state, intakeCloses } = bench;
  const cylinder = march.network.cylinders[0];
  march.y.set(state);
  cylinder.burn = burn;
  cylinder.burning = false;
  cylinder.firing = false;
  cylinder.endGas = true;
  march.diaries[0].risingPressure = 0;
  const pressures: CurvePoint[] = [];
  marchDegrees(march, intakeCloses, 180 - intakeCloses, (theta) => {
    if (cylinder.firing) pressures.push({ x: theta, y: cylinder.side[SIDE.p] });
  });
  return {
    work: march.y[cylinder.offset + CYL.work],
    knock: march.y[cylinder.offset + CYL.knock],
    peakPressure: pressures.length > 0 ? topOf(pressures).y : 0,
  };
}
