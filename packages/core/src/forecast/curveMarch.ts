/** A curve, marched speed by speed. */
import type { Mesh } from '../assembly/mesh.ts';
import type { Fidelity } from '../assembly/symmetry.ts';
import { areUnlike } from '../assembly/symmetry.ts';
import { VERSION } from '../base/version.ts';
import { atSpeed } from '../combination/atSpeed.ts';
import type { Combination, Warning } from '../combination/combination.ts';
import { needsCombination } from '../combination/needsCombination.ts';
import type { MarchOptions } from '../cycle/march.ts';
import { MARCH_COMPARED } from '../cycle/march.ts';
import { PERIODIC_COMPARED, type PeriodicOptions } from '../cycle/periodic.ts';
import { attemptsOf, bestOfAttempts } from './attempts.ts';
import { checkFidelity, checkSpeeds } from './checkSpeeds.ts';
import type { Curve, OperatingPoint } from './curve.ts';
import { peakOf } from './curvePeak.ts';
import { heldToHeard } from './heardKnock.ts';
import { operatingPoint } from './operatingPoint.ts';
import type { SimulationOptions } from './simulation.ts';
import { curveWarnings } from './warnings.ts';
import { brakeFactorIn } from './weatherCorrection.ts';
import { marchedPoints } from './wholeCurve.ts';

/** What to forecast, and how finely. */
export interface ForecastOptions {
  /** Speeds [1/min], rising. */
  readonly rpm: readonly number[];
  /** Default `representative`. Where cylinders differ or share pipes unevenly, all march whatever stands here. */
  readonly fidelity?: Fidelity;
  /** Lengths of the cells in the ducts; default {@link DEFAULT_MESH}. */
  readonly mesh?: Mesh;
  /**
   * Whether the curve is only compared with others run alike; default false. True saves half of the time: cycles repeat less closely,
   * steps are longer where gas at rest asks for the shortest, and none is tried in steps half as long.
   */
  readonly onlyCompared?: boolean;
  /** Called after each speed with speeds done, speeds in all and the point. */
  readonly onProgress?: (done: number, total: number, point: OperatingPoint) => void;
}

/** The same with numerical settings, which tests of refinement move and nobody else has to. */
export interface CurveMarchOptions extends ForecastOptions {
  readonly march?: MarchOptions;
  readonly periodic?: PeriodicOptions;
}

/** A curve under way. */
export interface CurveMarch {
  /** Marches the next speed; null where there is none left. */
  readonly next: () => OperatingPoint | null;
  /** The curve of what was marched so far. */
  readonly curve: () => Curve;
}

/** @throws {@link DomainError} where there is no engine, speeds are missing, not rising or out of 100 to 30 000 rpm, or the fidelity is none */
export function curveMarch(combination: Combination, options: CurveMarchOptions): CurveMarch {
  needsCombination(combination);
  const { rpm, onProgress } = options;
  checkSpeeds(rpm);
  checkFidelity(options.fidelity);
  const numerics = numericsOf(options);
  // Of cylinders that differ all march, whatever is asked for, and the curve says so.
  const fidelity = areUnlike(combination) ? 'all' : (options.fidelity ?? 'representative');
  const held = heldToHeard(combination, numerics);
  const attempts = attemptsOf({ ...numerics, fidelity });
  const points: OperatingPoint[] = [];
  const marchedWhole: number[] = [];
  const next = (): OperatingPoint | null => {
    if (points.length === rpm.length) return null;
    const n = rpm[points.length];
    const engine = atSpeed(held.combination, n);
    const { result, tables, isWhole } = bestOfAttempts(engine, n, attempts);
    if (isWhole) marchedWhole.push(n);
    const point = operatingPoint(engine, tables, result, fidelity);
    points.push(point);
    onProgress?.(points.length, rpm.length, point);
    return point;
  };
  const curve = (): Curve =>
    curveOf(combination, {
      fidelity,
      points: [...points],
      complete: points.length === rpm.length,
      marchedWhole,
      heard: held.warnings,
    });
  return { next, curve };
}

/** The numerical settings that were asked for, or that a comparison takes. */
function numericsOf({ mesh, onlyCompared = false, ...asked }: CurveMarchOptions): Numerics {
  const march = asked.march ?? (onlyCompared ? MARCH_COMPARED : undefined);
  const periodic = asked.periodic ?? (onlyCompared ? PERIODIC_COMPARED : undefined);
  return {
    ...(mesh === undefined ? {} : { mesh }),
    ...(march === undefined ? {} : { march }),
    ...(periodic === undefined ? {} : { periodic }),
  };
}

type Numerics = Omit<SimulationOptions, 'fidelity'>;

/** What was marched of a curve. */
export interface CurvePoints {
  readonly fidelity: Fidelity;
  /** One a speed, rising. */
  readonly points: readonly OperatingPoint[];
  /** Whether every speed that was asked for is among them. */
  readonly complete: boolean;
  /** Speeds at which one cylinder could not stand for the others [1/min]. */
  readonly marchedWhole: readonly number[];
  /** What came of holding the engine to what was heard. */
  readonly heard: readonly Warning[];
}

/** The curve of points that were marched. */
export function curveOf(
  combination: Combination,
  { fidelity, points, complete, marchedWhole, heard }: CurvePoints,
): Curve {
  const { weather, correction } = combination;
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: VERSION },
    complete,
    combination: combination.name,
    fidelity,
    correction: { standard: correction, factor: brakeFactorIn(correction, weather) },
    points,
    peak: peakOf(marchedPoints({ points })),
    assumed: combination.assumed,
    warnings: [...combination.warnings, ...heard, ...curveWarnings(combination, points, marchedWhole)],
  };
}

/** All of a curve at once. */
export function marchedCurve(combination: Combination, options: CurveMarchOptions): Curve {
  const march = curveMarch(combination, options);
  while (march.next() !== null);
  return march.curve();
}
