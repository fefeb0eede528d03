/** The torque and power curve of a combination. */
import type { Cancellation } from '../base/cancellation.ts';
import { DomainError } from '../base/errors.ts';
import { VERSION } from '../base/version.ts';
import type { Combination } from '../combination/combination.ts';
import type { MarchOptions } from '../cycle/march.ts';
import { MARCH_DEFAULTS } from '../cycle/march.ts';

import type { Curve, CurvePeak, Fidelity, MarchedPoint, OperatingPoint } from './curve.ts';
import { heldToHeard } from './heardKnock.ts';
import { operatingPoint } from './operatingPoint.ts';
import type { Simulation, SimulationOptions, SpeedResult } from './simulation.ts';
import { createSimulation } from './simulation.ts';
import { curveWarnings } from './warnings.ts';
import { brakeFactor } from './weatherCorrection.ts';
import { marchedPoints } from './wholeCurve.ts';

/** What to forecast, and how finely. */
export interface ForecastOptions extends Omit<SimulationOptions, 'fidelity'> {
  /** Speeds [1/min], rising. */
  readonly rpm: readonly number[];
  /** Default `representative`. */
  readonly fidelity?: Fidelity;
  /** An `AbortSignal`, checked between speeds: an aborted forecast throws the signal's reason. */
  readonly signal?: Cancellation;
  /** Called after each speed with speeds done, speeds in all and the point. */
  readonly onProgress?: (done: number, total: number, point: OperatingPoint) => void;
}

/** Steps half as long, for speeds that gave trouble. */
const CAREFUL: MarchOptions = { ...MARCH_DEFAULTS, courant: MARCH_DEFAULTS.courant / 2 };
/** How often a march that lost its way is begun anew, in steps half as long each time. */
const ATTEMPTS = 3;

/**
 * Forecasts torque and power at full throttle, speed by speed.
 *
 * @throws {@link DomainError} where speeds are missing, not rising or out of 100 to 30 000 rpm
 */
export function forecast(combination: Combination, options: ForecastOptions): Curve {
  const { rpm, fidelity = 'representative', signal, onProgress, ...numerics } = options;
  if (!(rpm.length > 0)) throw new DomainError('rpm', rpm.length, 'one speed or more');
  rpm.forEach((n, i) => {
    if (!(n >= 100 && n <= 30_000)) throw new DomainError(`rpm[${i}]`, n, 'in [100, 30000] 1/min');
    if (i > 0 && !(n > rpm[i - 1])) throw new DomainError(`rpm[${i}]`, n, `above ${rpm[i - 1]}`);
  });
  const held = heldToHeard(combination, numerics);
  const engine = held.combination;
  let simulation = createSimulation(engine, { ...numerics, fidelity });
  const points: OperatingPoint[] = [];
  // Copied flows don't settle everywhere (a small merge in resonance); there every cylinder marches.
  let whole: Simulation | null = null;
  const marchedWhole: number[] = [];
  for (const n of rpm) {
    signal?.throwIfAborted();
    let result = simulation.runSpeed(n);
    if (isLost(result)) [simulation, result] = begunAnew(engine, { ...numerics, fidelity }, n);
    if (!result.cycle.converged && fidelity === 'representative') {
      const careful: SimulationOptions = { ...numerics, fidelity: 'all', march: CAREFUL };
      whole ??= createSimulation(engine, careful);
      result = whole.runSpeed(n);
      if (isLost(result)) [whole, result] = begunAnew(engine, careful, n);
      marchedWhole.push(n);
      simulation = createSimulation(engine, { ...numerics, fidelity });
    }
    const point = operatingPoint(combination, simulation.tables, result);
    points.push(point);
    onProgress?.(points.length, rpm.length, point);
  }
  const { weather, correction } = combination;
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: VERSION },
    combination: combination.name,
    fidelity,
    correction: {
      standard: correction,
      factor: brakeFactor(correction, weather.pressure - weather.vapourPressure, weather.temperature),
    },
    points,
    peak: peakOf(marchedPoints({ points })),
    assumed: combination.assumed,
    warnings: [
      ...combination.warnings,
      ...held.warnings,
      ...curveWarnings(combination, points, marchedWhole),
    ],
  };
}

/** Highest torque and power; null without a point. */
function peakOf([first, ...others]: readonly MarchedPoint[]): CurvePeak | null {
  if (first === undefined) return null;
  const torque = others.reduce((best, p) => (p.torqueNm > best.torqueNm ? p : best), first);
  const power = others.reduce((best, p) => (p.powerKw > best.powerKw ? p : best), first);
  return {
    torque: { rpm: torque.rpm, torqueNm: torque.torqueNm, torqueLbFt: torque.torqueLbFt },
    power: { rpm: power.rpm, powerKw: power.powerKw, powerHp: power.powerHp },
  };
}

/** Still gas set in motion at full speed can outrun the steps in its first cycle; what follows is then no number. */
function isLost({ cycle }: SpeedResult): boolean {
  return !Number.isFinite(cycle.totals.work);
}

/** The speed from still gas again, in shorter and shorter steps; the last attempt stands as it is. */
function begunAnew(
  combination: Combination,
  options: SimulationOptions,
  rpm: number,
): [Simulation, SpeedResult] {
  const march = options.march ?? MARCH_DEFAULTS;
  for (let attempt = 1; ; attempt++) {
    const shorter = { ...march, courant: march.courant / 2 ** attempt };
    const simulation = createSimulation(combination, { ...options, march: shorter });
    const result = simulation.runSpeed(rpm);
    if (!isLost(result) || attempt === ATTEMPTS) return [simulation, result];
  }
}
