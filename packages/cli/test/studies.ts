/** A core whose forecasts are invented, for studies: torque falls off with the distance of primary length from 30 in. */
import type { Combination, Curve } from '@valvetide/core';
import { CORE, type Core } from '../src/core.ts';
import type { JobRunner } from '../src/workers/jobRunner.ts';
import { sampleCurve } from './sampleCurve.ts';

const INCH = 0.0254;

/** Torque [N m] of a combination and speed. */
export type Torque = (combination: Combination, rpm: number) => number;

export const byPrimary: Torque = ({ exhaustSystem }, rpm) =>
  800 - rpm / 50 - 2 * (exhaustSystem.primary.length / INCH - 30) ** 2;

/** `stopAfter` forecasts, as after Ctrl-C. */
export function inventedRunner(torque: Torque, stopAfter: number = Number.POSITIVE_INFINITY): JobRunner {
  return {
    run: async (jobs, control) =>
      jobs.map((job, i): Curve | null => {
        if (i >= stopAfter) return null;
        const curve = inventedCurve(job.combination, job.rpm, torque);
        control?.onCurve?.(curve, i);
        control?.onProgress?.(i + 1, jobs.length);
        return curve;
      }),
    close: async () => {},
  };
}

/** Torque and octane as the rules here have them, all else of a sample. */
export function inventedCurve(combination: Combination, rpm: readonly number[], torque: Torque): Curve {
  const curve = sampleCurve(rpm);
  const points = curve.points.map((point) => {
    const torqueNm = torque(combination, point.rpm);
    const powerKw = (torqueNm * point.rpm * Math.PI) / 30_000;
    // Four octane numbers a point of compression, the trade's figure, and 86 at 9.5:1.
    const octane = 86 + 4 * (combination.chamber.compressionRatio - 9.5);
    const asked = { octaneRequired: Math.min(octane, 87), octaneAtBestTiming: octane };
    return {
      ...point,
      ...asked,
      torqueNm,
      powerKw,
      torqueLbFt: torqueNm / 1.3558179,
      powerHp: powerKw / 0.7456999,
    };
  });
  const most = (key: 'torqueNm' | 'powerKw'): (typeof points)[number] =>
    points.reduce((best, p) => (p[key] > best[key] ? p : best));
  const [torqueTop, powerTop] = [most('torqueNm'), most('powerKw')];
  const peak = {
    torque: { rpm: torqueTop.rpm, torqueNm: torqueTop.torqueNm, torqueLbFt: torqueTop.torqueLbFt },
    power: { rpm: powerTop.rpm, powerKw: powerTop.powerKw, powerHp: powerTop.powerHp },
  };
  return { ...curve, points, peak };
}

/** The real reading and studying, on invented forecasts; what was asked of the runner is noted in `asked`. */
export function studyCore(
  torque: Torque = byPrimary,
  stopAfter?: number,
): Core & { readonly asked: { workers: number; closed: boolean }[] } {
  const asked: { workers: number; closed: boolean }[] = [];
  return {
    ...CORE,
    asked,
    openRunner: (workers) => {
      const note = { workers, closed: false };
      asked.push(note);
      return {
        run: inventedRunner(torque, stopAfter).run,
        close: async () => {
          note.closed = true;
        },
      };
    },
  };
}
