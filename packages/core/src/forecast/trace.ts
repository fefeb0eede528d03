/** One cylinder over one settled cycle, step by step: what a pressure-volume loop is drawn from. */

import type { EngineNetwork } from '../assembly/assemble.ts';
import type { Mesh } from '../assembly/mesh.ts';
import { portLift } from '../assembly/portValve.ts';
import type { Fidelity } from '../assembly/symmetry.ts';
import { areUnlike, marchingOf } from '../assembly/symmetry.ts';
import { atSpeed } from '../combination/atSpeed.ts';
import type { Combination } from '../combination/combination.ts';
import type { March } from '../cycle/march.ts';
import { marchDegrees } from '../cycle/march.ts';
import { renewCopies } from '../network/copiedEnds.ts';
import { localAngle } from '../network/cylinder.ts';
import { SIDE } from '../network/side.ts';
import { lookUpPeriodic } from '../numerics/interpolate.ts';
import { checkSpeed } from './checkSpeeds.ts';
import { heldToHeard } from './heardKnock.ts';
import { createSimulation } from './simulation.ts';

/** A cylinder's cycle; all lists run alike, one entry a step of the march. */
export interface CycleTrace {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Which cylinders marched. */
  readonly fidelity: Fidelity;
  /** Number of the cylinder, from 1; others may breathe otherwise where pulses meet at uneven distances. */
  readonly cylinder: number;
  /** `unsettled`: the cycle did not repeat, so that the loop does not close. */
  readonly status: 'settled' | 'unsettled';
  /** Crank angle after firing top centre [deg], rising from -360 to 360. */
  readonly angleDeg: readonly number[];
  /** Above the piston [m3]. */
  readonly volumeM3: readonly number[];
  /** Absolute [Pa]. */
  readonly pressurePa: readonly number[];
  /** Mass mean of the zones [K]. */
  readonly temperatureK: readonly number[];
  /** Net lift at the valve [m]. */
  readonly intakeLiftM: readonly number[];
  /** Net lift at the exhaust valve [m]. */
  readonly exhaustLiftM: readonly number[];
}

/**
 * Settles a speed as a forecast does and traces one further cycle of the first cylinder. Where one cylinder can't stand
 * for the others, every cylinder marches.
 *
 * @param rpm - crank speed [1/min], 100 to 30 000
 * @throws {@link DomainError} where the speed is out of range
 *
 * @example
 * ```ts
 * const { volumeM3, pressurePa } = traceCycle(combination, 5500);
 * ```
 */
export function traceCycle(combination: Combination, rpm: number): CycleTrace {
  const settled = settledMarch(combination, rpm);
  const { march, fidelity, status, stood: engine } = settled;
  const [cylinder] = march.network.cylinders;
  const steps = traceSteps(settled, 0, () => ({
    volume: cylinder.now.V,
    pressure: cylinder.side[SIDE.p],
    temperature: cylinder.now.T,
  }));
  const { valvetrain } = combination.friction;
  const intake = portLift(engine.intake, 'intake', valvetrain).table;
  const exhaust = portLift(engine.exhaust, 'exhaust', valvetrain).table;
  return {
    rpm,
    fidelity,
    cylinder: marchingOf(combination, fidelity).cylinders[0],
    status,
    angleDeg: steps.map((s) => s.angle),
    volumeM3: steps.map((s) => s.reading.volume),
    pressurePa: steps.map((s) => s.reading.pressure),
    temperatureK: steps.map((s) => s.reading.temperature),
    intakeLiftM: steps.map((s) => lookUpPeriodic(intake, s.angle)),
    exhaustLiftM: steps.map((s) => lookUpPeriodic(exhaust, s.angle)),
  };
}

/** A speed marched to the cycle that repeats, ready for another. */
export interface SettledMarch {
  readonly march: March;
  readonly engine: EngineNetwork;
  /** The combination as it stands at that speed. */
  readonly stood: Combination;
  readonly fidelity: Fidelity;
  readonly status: 'settled' | 'unsettled';
}

/**
 * Settles a speed [1/min] as a forecast does: with representative cylinders, and all of them where these can't stand for the rest.
 *
 * @throws {@link DomainError} where the speed is out of range
 */
export function settledMarch(combination: Combination, rpm: number, mesh?: Mesh): SettledMarch {
  checkSpeed('rpm', rpm);
  const stood = atSpeed(heldToHeard(combination, {}).combination, rpm);
  const settle = (fidelity: Fidelity) => {
    const simulation = createSimulation(stood, { fidelity, ...(mesh === undefined ? {} : { mesh }) });
    const { cycle, march } = simulation.runSpeed(rpm);
    const status = cycle.converged ? ('settled' as const) : ('unsettled' as const);
    return { march, engine: simulation.engine, stood, fidelity, status };
  };
  const cheap = settle(areUnlike(combination) ? 'all' : 'representative');
  return cheap.status === 'settled' || cheap.fidelity === 'all' ? cheap : settle('all');
}

/** What was read at one step, and the cylinder's own crank angle there [deg]. */
export interface TracedStep<Reading> {
  readonly angle: number;
  readonly reading: Reading;
}

/**
 * Marches one further cycle and reads something at each of its steps, from one gas-exchange top centre to the next.
 *
 * @param index - of the cylinder whose own angle counts, among those that march
 */
export function traceSteps<Reading>(
  { march }: Pick<SettledMarch, 'march'>,
  index: number,
  read: () => Reading,
): readonly TracedStep<Reading>[] {
  const cylinder = march.network.cylinders[index];
  const steps: TracedStep<Reading>[] = [];
  renewCopies(march.network, march.y);
  marchDegrees(march, 0, 720, (theta) => {
    steps.push({ angle: localAngle(cylinder, theta), reading: read() });
  });
  return steps.sort((a, b) => a.angle - b.angle);
}
