/** JSON that machines can rely on: fixed key order, finite numbers only, no raw control characters. */
import type { Curve, LostPoint, MarchedPoint, OperatingPoint } from '@valvetide/core';
import { type BesideCurve, NOTHING_BESIDE } from './besideCurve.ts';
import { plainJson } from './plain.ts';

/** Any key of a point that stands for one figure, with figures or without. */
type PointKey = Exclude<keyof MarchedPoint, 'cylinders'> | keyof LostPoint;

const KEYS = [
  'rpm',
  'status',
  'torqueNm',
  'powerKw',
  'torqueLbFt',
  'powerHp',
  'volumetricEfficiency',
  'imepBar',
  'pmepBar',
  'fmepBar',
  'bmepBar',
  'peakPressureBar',
  'peakPressureDegAtdc',
  'manifoldPressureKpa',
  'manifoldVacuumInHg',
  'residualFraction',
  'chargeTemperatureK',
  'exhaustTemperatureK',
  'bsfcGPerKwh',
  'airflowKgPerH',
  'fuelKgPerH',
  'sparkDegBtdc',
  'ca50DegAtdc',
  'burnDurationDeg',
  'octaneRequired',
  'octaneAtBestTiming',
  'sparkGivenBackDeg',
  'torqueGivenBackPct',
  'detonates',
  'meanPistonSpeedMs',
  'inletMachIndex',
  'heatLossFraction',
  'cycles',
  'massClosure',
  'energyClosure',
  'scatterPct',
  'code',
  'reason',
] as const satisfies readonly PointKey[];

/** Names the keys a point has and the list has not; anything but `never` fails to compile. */
type Unlisted = Exclude<PointKey, (typeof KEYS)[number]>;
const ALL: [Unlisted] extends [never] ? typeof KEYS : Unlisted = KEYS;

/** Every key of a point, in the order they are written (JSON) and stand in columns (CSV). */
export const POINT_KEYS: readonly PointKey[] = ALL;

/** Band and sheet stand in it where they were asked for, and the spread where it was worked out: shares of torque and power [-]. */
export function curveJson(curve: Curve, { counted, measured, spread }: BesideCurve = NOTHING_BESIDE): string {
  const { correction, peak, program } = curve;
  return json({
    schemaVersion: curve.schemaVersion,
    program: { name: program.name, version: program.version },
    command: 'forecast',
    complete: curve.complete,
    combination: curve.combination,
    fidelity: curve.fidelity,
    correction: { standard: correction.standard, factor: correction.factor },
    points: curve.points.map(orderedPoint),
    peak:
      peak === null
        ? null
        : {
            torque: {
              rpm: peak.torque.rpm,
              torqueNm: peak.torque.torqueNm,
              torqueLbFt: peak.torque.torqueLbFt,
            },
            power: { rpm: peak.power.rpm, powerKw: peak.power.powerKw, powerHp: peak.power.powerHp },
          },
    ...(counted === null
      ? {}
      : {
          band: {
            fromRpm: counted.band.fromRpm,
            toRpm: counted.band.toRpm,
            torqueNm: counted.mean.torqueNm,
            powerKw: counted.mean.powerKw,
            measured: counted.measured,
          },
        }),
    ...(measured === null
      ? {}
      : {
          measured: {
            sheet: measured.sheet.sheet,
            pulls: measured.sheet.pulls.length,
            heldBack: measured.heldBack,
            rootMeanSquarePct: measured.rootMeanSquarePct,
            meanPct: measured.meanPct,
            bySpeed: measured.bySpeed,
          },
        }),
    ...(spread === null ? {} : { spread }),
    assumed: curve.assumed.map(({ path, value, unit, spread, reason }) => ({
      path,
      value,
      unit,
      spread,
      reason,
    })),
    warnings: curve.warnings.map(({ code, path, message }) => ({ code, path, message })),
  });
}

/** Every figure a point has, in one order; a lost point has few. */
function orderedPoint(point: OperatingPoint): Record<string, unknown> {
  const figures = Object.fromEntries(pointValues(point).filter(([, value]) => value !== null));
  if (point.status === 'lost' || point.cylinders === undefined) return figures;
  return { ...figures, cylinders: point.cylinders };
}

/** Every key in order, with null for what the point has not. */
export function pointValues(
  point: OperatingPoint,
): readonly (readonly [PointKey, string | number | boolean | null])[] {
  const values: Partial<Record<PointKey, string | number | boolean>> = { ...point };
  return POINT_KEYS.map((key) => [key, values[key] ?? null]);
}

/** Indented JSON with a newline at the end. Throws where a number is not finite: a gap must never pass for a value. */
export function json(value: unknown): string {
  requireFinite(value, '');
  return `${plainJson(JSON.stringify(value, null, 2))}\n`;
}

/** JSON on one line, for lists of problems. */
export function jsonLine(value: unknown): string {
  requireFinite(value, '');
  return plainJson(JSON.stringify(value));
}

function requireFinite(value: unknown, path: string): void {
  if (typeof value === 'number') {
    if (!Number.isFinite(value))
      throw new Error(`result ${path || 'value'} is ${value}, not a finite number`);
  } else if (Array.isArray(value)) {
    value.forEach((item, i) => {
      requireFinite(item, `${path}[${i}]`);
    });
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value))
      requireFinite(item, path === '' ? key : `${path}.${key}`);
  } else if (value === undefined) {
    throw new Error(`result ${path || 'value'} is missing`);
  }
}
