/** Invented curves for tests of what is done with curves, and jobs that give them. */
import type { Combination } from '../../src/combination/combination.ts';
import type { Curve, MarchedPoint, OperatingPoint } from '../../src/forecast/curve.ts';
import type { WholeCurve } from '../../src/forecast/wholeCurve.ts';
import type { RunJobs, StudyJob } from '../../src/studies/job.ts';

/** A curve of the given torque [N m] by speed; what tests of studies don't look at is left at a plain value. */
export function curveOf(rpm: readonly number[], torque: (rpm: number) => number): WholeCurve {
  const points = rpm.map((n): MarchedPoint => {
    const torqueNm = torque(n);
    const powerKw = (torqueNm * n * Math.PI) / 30_000;
    const figures = { torqueNm, powerKw, torqueLbFt: torqueNm / 1.3558179, powerHp: powerKw / 0.7456999 };
    return { ...PLAIN, ...figures, rpm: n };
  });
  const most = (key: 'torqueNm' | 'powerKw'): MarchedPoint =>
    points.reduce((best, p) => (p[key] > best[key] ? p : best));
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: '0.0.0' },
    complete: true,
    combination: 'invented',
    fidelity: 'representative',
    correction: { standard: 'J607', factor: 1 },
    points,
    peak: { torque: most('torqueNm'), power: most('powerKw') },
    assumed: [],
    warnings: [],
  };
}

/** The curve with the figures of each point changed. */
export function altered(curve: Curve, change: (point: MarchedPoint) => Partial<MarchedPoint>): Curve {
  const points = curve.points.map((point) =>
    point.status === 'lost' ? point : { ...point, ...change(point) },
  );
  return { ...curve, points };
}

/** The curve without figures at one speed. */
export function lostAt(curve: Curve, rpm: number): Curve {
  const points = curve.points.map((point): OperatingPoint => {
    if (point.rpm !== rpm) return point;
    const { meanPistonSpeedMs, inletMachIndex, cycles } = point;
    return {
      status: 'lost',
      rpm,
      meanPistonSpeedMs,
      inletMachIndex,
      cycles,
      code: 'lost',
      reason: 'too fast to follow',
    };
  });
  return { ...curve, points };
}

/** Jobs whose curve has no figures at a speed where the combination says so. */
export function losing(
  run: RunJobs,
  rpm: number,
  where: (combination: Combination) => boolean = () => true,
): RunJobs {
  return async (jobs, control) =>
    (await run(jobs, control)).map((curve, i) =>
      curve !== null && where(jobs[i].combination) ? lostAt(curve, rpm) : curve,
    );
}

/** Jobs whose torque is a function of combination and speed; stops before job `stopAt`. */
export function runnerOf(
  torque: (combination: Combination, rpm: number) => number,
  stopAt: number = Number.POSITIVE_INFINITY,
): RunJobs & { readonly asked: StudyJob[] } {
  const asked: StudyJob[] = [];
  const run: RunJobs = async (jobs, control) =>
    jobs.map((job, i) => {
      if (i >= stopAt) return null;
      asked.push(job);
      control?.onProgress?.(i + 1, jobs.length);
      return curveOf(job.rpm, (n) => torque(job.combination, n));
    });
  return Object.assign(run, { asked });
}

const PLAIN: MarchedPoint = {
  status: 'settled',
  rpm: 0,
  torqueNm: 0,
  powerKw: 0,
  torqueLbFt: 0,
  powerHp: 0,
  volumetricEfficiency: 0.95,
  imepBar: 13,
  pmepBar: -0.4,
  fmepBar: 1.6,
  bmepBar: 11,
  peakPressureBar: 75,
  peakPressureDegAtdc: 14,
  manifoldPressureKpa: 98,
  manifoldVacuumInHg: 1,
  residualFraction: 0.04,
  chargeTemperatureK: 310,
  exhaustTemperatureK: 1000,
  bsfcGPerKwh: 280,
  airflowKgPerH: 900,
  fuelKgPerH: 70,
  sparkDegBtdc: 32,
  ca50DegAtdc: 8,
  burnDurationDeg: 28,
  octaneRequired: 86,
  octaneAtBestTiming: 86,
  sparkGivenBackDeg: 0,
  torqueGivenBackPct: 0,
  detonates: false,
  meanPistonSpeedMs: 15,
  inletMachIndex: 0.4,
  heatLossFraction: 0.18,
  cycles: 12,
  massClosure: 0,
  energyClosure: 0,
};
