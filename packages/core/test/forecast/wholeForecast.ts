/** A forecast that a test takes figures of: a lost speed fails it there and then. */
import type { Combination } from '../../src/combination/combination.ts';
import { type CurveMarchOptions, marchedCurve } from '../../src/forecast/curveMarch.ts';
import { type WholeCurve, wholeCurve } from '../../src/forecast/wholeCurve.ts';

export function wholeForecast(combination: Combination, options: CurveMarchOptions): WholeCurve {
  const curve = wholeCurve(marchedCurve(combination, options));
  if (curve === null) throw new Error(`a speed of ${combination.name} was lost`);
  return curve;
}
