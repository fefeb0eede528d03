/** The engine of the dyno series, calibrated on the peaks of its first state, forecast in both states. */
import { readFileSync } from 'node:fs';
import { calibrate, calibrationEdits } from '../../packages/core/src/calibration/calibrate.ts';
import type { CalibrationResult } from '../../packages/core/src/calibration/calibrationResult.ts';
import { peakTarget } from '../../packages/core/src/calibration/peakTarget.ts';
import { pinBaseline } from '../../packages/core/src/changes/baseline.ts';
import type { WholeCurve } from '../../packages/core/src/forecast/wholeCurve.ts';
import type { CombinationDocument } from '../../packages/core/src/reading/combinationDocument.ts';
import { editDocument } from '../../packages/core/src/reading/editDocument.ts';
import { readDocument } from '../../packages/core/src/reading/readDocument.ts';
import { resolveDocument } from '../../packages/core/src/reading/resolveDocument.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';

const POUND_FOOT = 1.3558179483314;
const HORSEPOWER = 0.74569987158227;

/** Peaks as printed [lb-ft], [rpm], [hp], [rpm]. */
export interface PrintedPeaks {
  readonly torque: number;
  readonly torqueRpm: number;
  readonly power: number;
  readonly powerRpm: number;
}

export interface CalibratedStates {
  readonly calibration: CalibrationResult;
  readonly first: WholeCurve;
  readonly second: WholeCurve;
}

function documentOf(name: string): CombinationDocument {
  const text = readFileSync(new URL(`../data/engines/${name}.yaml`, import.meta.url), 'utf8');
  const read = readDocument(text, { file: `${name}.yaml` });
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return read.value;
}

/** Fits the usual knobs to the first state's peaks, and puts what they came to into the second state. */
export async function calibratedStates(
  printed: PrintedPeaks,
  rpm: readonly number[],
): Promise<CalibratedStates> {
  const target = peakTarget(
    {
      torque: { torqueNm: printed.torque * POUND_FOOT, rpm: printed.torqueRpm },
      power: { powerKw: printed.power * HORSEPOWER, rpm: printed.powerRpm },
      standard: 'J607',
    },
    { fromRpm: rpm[0], toRpm: rpm[rpm.length - 1] },
  );
  const baseline = pinBaseline(documentOf('street-350'));
  if (!baseline.ok) throw new Error(baseline.problems.map((p) => p.message).join('\n'));
  const fitted = await calibrate(baseline.value, target);
  if (!fitted.ok) throw new Error(fitted.problems.map((p) => p.message).join('\n'));
  const { result } = fitted.value;
  if (result.outcome !== 'fitted') throw new Error(`the calibration ended as ${result.outcome}`);
  const curve = (name: string): WholeCurve => {
    const edited = calibrationEdits(result).reduce(
      (document, [path, value]) => editDocument(document, path, value),
      documentOf(name),
    );
    const resolved = resolveDocument(edited, {});
    if (!resolved.ok) throw new Error(resolved.problems.map((p) => p.message).join('\n'));
    return wholeForecast(resolved.value, { rpm });
  };
  return { calibration: result, first: curve('street-350'), second: curve('street-350-second') };
}
