/** One cylinder over one settled cycle, step by step: what a pressure-volume loop is drawn from. */

import type { EngineNetwork } from '../assembly/assemble.ts';
import type { Mesh } from '../assembly/mesh.ts';
import { portLift } from '../assembly/portValve.ts';
import { areUnlike, marchingOf } from '../assembly/symmetry.ts';
import { DomainError } from '../base/errors.ts';
import { atSpeed } from '../combination/atSpeed.ts';
import type { Combination } from '../combination/combination.ts';
import type { March } from '../cycle/march.ts';
import { marchDegrees } from '../cycle/march.ts';
import { renewCopies } from '../network/copiedEnds.ts';
import { localAngle } from '../network/cylinder.ts';
import { SIDE } from '../network/side.ts';
import { lookUpPeriodic } from '../numerics/interpolate.ts';
import type { Fidelity } from './curve.ts';
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
  const { march, fidelity, status, stood: engine } = settledMarch(combination, rpm);
  const steps = oneCycle(march);
  const { valvetrain } = combination.friction;
  const intake = portLift(engine.intake, 'intake', valvetrain).table;
  const exhaust = portLift(engine.exhaust, 'exhaust', valvetrain).table;
  return {
    rpm,
    fidelity,
    cylinder: marchingOf(combination, fidelity).cylinders[0],
    status,
    angleDeg: steps.map((s) => s.angle),
    volumeM3: steps.map((s) => s.volume),
    pressurePa: steps.map((s) => s.pressure),
    temperatureK: steps.map((s) => s.temperature),
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
  if (!(rpm >= 100 && rpm <= 30_000)) throw new DomainError('rpm', rpm, 'in [100, 30000] 1/min');
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

interface Step {
  readonly angle: number;
  readonly volume: number;
  readonly pressure: number;
  readonly temperature: number;
}

/** The steps of the next cycle by the cylinder's own angle, from one gas-exchange top centre to the next. */
function oneCycle(march: March): Step[] {
  const { network } = march;
  const cylinder = network.cylinders[0];
  const steps: Step[] = [];
  renewCopies(network, march.y);
  marchDegrees(march, 0, 720, (theta) => {
    steps.push({
      angle: localAngle(cylinder, theta),
      volume: cylinder.now.V,
      pressure: cylinder.side[SIDE.p],
      temperature: cylinder.now.T,
    });
  });
  return steps.sort((a, b) => a.angle - b.angle);
}
