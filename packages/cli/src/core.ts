/** What the commands need of the library, in one place so that a test can hand in its own. */
import {
  type Combination,
  type Curve,
  combinationSchema,
  type Fidelity,
  forecast,
  type Inspection,
  inspectCombination,
  type OperatingPoint,
  type Problem,
  readCombination,
} from '@valvetide/core';

export interface Core {
  readCombination(
    text: string,
    options: { readonly file: string; readonly sheet: (name: string) => string | undefined },
  ):
    | { readonly ok: true; readonly combination: Combination }
    | { readonly ok: false; readonly problems: readonly Problem[] };
  combinationSchema(): unknown;
  forecast(
    combination: Combination,
    options: {
      readonly rpm: readonly number[];
      readonly fidelity?: Fidelity;
      readonly signal?: AbortSignal;
      readonly onProgress?: (done: number, total: number, point: OperatingPoint) => void;
    },
  ): Curve;
  inspectCombination(combination: Combination): Inspection;
}

export const CORE: Core = { readCombination, combinationSchema, forecast, inspectCombination };
