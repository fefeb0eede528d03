/** The text of a combination file with a calibration written into it. */

import type { CombinationDocument } from '../reading/combinationDocument.ts';
import { editText, type FieldValue } from '../reading/editText.ts';
import { SHEET_FIELDS } from '../reading/sheet/readSheets.ts';
import { valueAt } from '../reading/valueAt.ts';
import { calibrationEdits, formerKnobs } from './calibrate.ts';
import type { CalibrationResult } from './calibrationResult.ts';

/**
 * The file's own text, remarks and all, with the fitted knobs and the section `calibration`; a former calibration goes.
 * `moved` gives the name of each sheet as seen from where the new file will stand.
 *
 * @throws {@link DomainError} where the text is no readable YAML
 *
 * @example
 * ```ts
 * const fitted = await calibrate(baseline, sheetTarget(sheet));
 * if (fitted.ok && fitted.value.document !== null)
 *   console.log(calibratedText(text, baseline.stated, fitted.value.result));
 * ```
 */
export function calibratedText(
  text: string,
  document: CombinationDocument,
  result: CalibrationResult,
  moved: (sheet: string) => string = (sheet) => sheet,
): string {
  const sheets = SHEET_FIELDS.flatMap((path): FieldValue[] => {
    const name = valueAt(document.data, path);
    return typeof name === 'string' && moved(name) !== name ? [[path, moved(name)]] : [];
  });
  const edits = calibrationEdits(result);
  const gone = formerKnobs(document).filter((path) => !edits.some(([field]) => field === path));
  return editText(text, [...gone.map((path): FieldValue => [path, null]), ...sheets, ...edits]);
}
