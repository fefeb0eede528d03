/** The ledger of assumed values: what the file left out, what was put there, how sure that is and why. */
import { type Dimension, parseQuantity, toUnit } from '../base/units.ts';
import type { Assumed, Warning } from './combination.ts';

/** An estimate for a field the file left out, in the kept unit of its dimension. */
export interface Estimate {
  readonly value: number;
  /** One standard deviation; null where a spread makes no sense. */
  readonly spread: number | null;
  readonly reason: string;
}

/** An estimate that is a word. */
export interface WordEstimate<Word extends string> {
  readonly value: Word;
  readonly reason: string;
}

/** Digits an estimate is rounded to, so that what is shown is what is used. */
const DIGITS = 4;

/** Collects assumed values and warnings while a file is resolved; `Path` is what names a field of the file. */
export class Ledger<Path extends string = string> {
  readonly assumed: (Assumed & { readonly path: Path })[] = [];
  readonly warnings: Warning[] = [];

  /** The stated quantity, or the estimate as rounded for showing in `unit`. */
  quantity(
    path: Path,
    stated: number | undefined,
    dimension: Dimension,
    unit: string,
    estimate: () => Estimate,
  ): number {
    if (stated !== undefined) return stated;
    const { value, spread, reason } = estimate();
    const shown = rounded(toUnit(value, unit, dimension), DIGITS);
    const shownSpread =
      spread === null
        ? null
        : rounded(toUnit(value + spread, unit, dimension) - toUnit(value, unit, dimension), 2);
    this.assumed.push({ path, value: shown, unit, spread: shownSpread, reason });
    const read = parseQuantity(`${shown} ${unit}`, dimension);
    if (!read.ok) throw new Error(`estimate of ${path} ${read.problems[0].message}`);
    return read.value.kept;
  }

  /** The stated pure number, or the estimate. */
  number(path: Path, stated: number | undefined, estimate: () => Estimate): number {
    if (stated !== undefined) return stated;
    const { value, spread, reason } = estimate();
    const shown = rounded(value, DIGITS);
    this.assumed.push({
      path,
      value: shown,
      unit: '',
      spread: spread === null ? null : rounded(spread, 2),
      reason,
    });
    return shown;
  }

  /** The stated word, or the estimate. */
  word<Word extends string>(path: Path, stated: Word | undefined, estimate: () => WordEstimate<Word>): Word {
    if (stated !== undefined) return stated;
    const { value, reason } = estimate();
    this.assumed.push({ path, value, unit: '', spread: null, reason });
    return value;
  }

  /** The stated yes or no, or the estimate. */
  flag(
    path: Path,
    stated: boolean | undefined,
    estimate: { readonly value: boolean; readonly reason: string },
  ): boolean {
    if (stated !== undefined) return stated;
    this.assumed.push({
      path,
      value: String(estimate.value),
      unit: '',
      spread: null,
      reason: estimate.reason,
    });
    return estimate.value;
  }

  warn(code: string, path: Path, message: string): void {
    this.warnings.push({ code, path, message });
  }
}

/** What is left of a conversion between units, over the value: 5.125 in and 130.175 mm differ in the sixteenth digit. */
const CONVERSION = 1e-12;

/** To so many digits; a half goes up however the value was come by, so that another unit of the file makes no other estimate. */
function rounded(value: number, digits: number): number {
  return Number((value * (1 + CONVERSION)).toPrecision(digits));
}
