/** A dyno sheet's figures taken to another correction standard. */
import { DomainError } from '../base/errors.ts';
import { referenceAir } from '../combination/referenceAir.ts';
import type { CorrectionStandard, Weather } from '../combination/running.ts';
import { recorrectionFactor } from '../forecast/weatherCorrection.ts';
import type { DynoSheet } from './dynoSheet.ts';
import type { Pull } from './readPull.ts';
import { scaledPull } from './scaledPull.ts';

/** A sheet under another standard, with the factor each pull was multiplied by [-]. */
export interface Recorrected {
  /** The sheet under the other standard. */
  readonly sheet: DynoSheet;
  /** What each pull was multiplied by, in their order [-]. */
  readonly factors: readonly number[];
}

/**
 * Takes every pull to `to` by way of the observed figures, from the air it was made in. Between two standards the
 * reference air of the sheet's own will do where the day's air isn't known, and a note says so.
 *
 * @throws {@link DomainError} to or from observed figures where the sheet does not give the air of the day
 *
 * @example
 * ```ts
 * const { sheet: inJ1349 } = recorrectSheet(sheet, 'J1349');
 * ```
 */
export function recorrectSheet(sheet: DynoSheet, to: CorrectionStandard): Recorrected {
  if (to === sheet.standard) return { sheet, factors: sheet.pulls.map(() => 1) };
  const factors = sheet.pulls.map((pull) => factorOf(pull, sheet, to));
  const pulls = sheet.pulls.map((pull, index) => scaledPull(pull, factors[index]));
  const guessed = sheet.pulls.some((pull) => pull.weather === null);
  const note = `taken from ${sheet.standard} to ${to} without the air of the day: right within half a percent`;
  return {
    sheet: { ...sheet, standard: to, pulls, notes: guessed ? [...sheet.notes, note] : sheet.notes },
    factors,
  };
}

function factorOf(pull: Pull, sheet: DynoSheet, to: CorrectionStandard): number {
  if (pull.weather !== null) {
    const { pressure, vapourPressure, temperature } = pull.weather;
    return recorrectionFactor(sheet.standard, to, pressure - vapourPressure, temperature);
  }
  const reference = referenceAir(sheet.standard);
  if (reference === null || to === 'none') {
    const wanted =
      'a sheet that gives barometer, temperature and humidity, to take it to or from observed figures';
    throw new DomainError('weather', 'none', wanted);
  }
  return recorrectionFactor(sheet.standard, to, reference.dryPressure, reference.temperature);
}

/** Air a pull stands for: the day's, or where that is not known the reference air its figures were corrected to. */
export function airOfPull(pull: Pull, standard: CorrectionStandard): Weather | null {
  if (pull.weather !== null) return pull.weather;
  const reference = referenceAir(standard);
  if (reference === null) return null;
  return { pressure: reference.dryPressure, temperature: reference.temperature, vapourPressure: 0 };
}
